/** The figures of the README, from one run on this machine: an operating point, a diagnosis of ten readings with its next
 *  check, one more reading, the command line's cold start and a whole `diagnose`, the page's weight.
 *  Run: npx tsx bench/figures.ts   (after npm run build). Medians; the machine's other work shows in the spread.
 */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { asFound, boatAt, boatFromTemplate, createSession, Operator, placedChecks } from '@ampwright/core';
import { descriptionOf, parseJob, readingsOf } from '@ampwright/jobs';

const root = (path: string): string => fileURLToPath(new URL(`../${path}`, import.meta.url));

function median(runs: number, work: () => number): { middle: number; high: number } {
  const times = Array.from({ length: runs }, work).sort((a, b) => a - b);
  return { middle: times[Math.floor(runs / 2)] ?? NaN, high: times[Math.floor(0.95 * runs)] ?? NaN };
}

const timed = (work: () => void): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};

function print(what: string, { middle, high }: { middle: number; high: number }, unit: string): void {
  console.log(
    `${what.padEnd(58)} ${middle.toFixed(1).padStart(8)} ${unit}   95 %: ${high.toFixed(1)} ${unit}`,
  );
}

const boat = boatAt(boatFromTemplate('selector-switch'));
const operator = new Operator(boat);
const points = 2000;
print(
  'operating point of a two-bank boat, new world each time',
  median(9, () => {
    const time = timed(() => {
      for (let i = 0; i < points; i++) {
        operator.set(boat);
        operator.at({ ...asFound, engine: 'running', engineSpeed: 80 + (i % 10) * 12, sinceStart: 180 });
      }
    });
    return (1000 * time) / points;
  }),
  'µs',
);

const text = readFileSync(root('examples/dead-alternator.json'), 'utf8');
const parsed = parseJob(text);
if (parsed.kind !== 'job') throw new Error('examples/dead-alternator.json is no job');
const description = descriptionOf(parsed.job);
const visit = parsed.job.visits.at(-1);
if (visit === undefined) throw new Error('examples/dead-alternator.json has no visit');
const readings = readingsOf(visit, placedChecks(description));
print(
  `diagnosis of ${readings.length} readings and its next check, from nothing`,
  median(7, () => timed(() => createSession(description).diagnose(readings))),
  'ms',
);
let operatingPoints = 0;
let error = 0;
print(
  'one more reading in an open session',
  median(15, () => {
    const session = createSession(description);
    const before = session.diagnose(readings.slice(0, -1)).reliability.operatingPoints;
    const time = timed(() => {
      const { reliability } = session.diagnose(readings);
      operatingPoints = reliability.operatingPoints - before;
      error = reliability.error;
    });
    return time;
  }),
  'ms',
);
console.log(
  `  that took ${operatingPoints} operating points; largest stated error of a chance ${error.toFixed(3)}`,
);

const command = root('packages/cli/dist/ampwright.js');
const whole = (args: readonly string[]): number =>
  timed(() => {
    const { status } = spawnSync(process.execPath, [command, ...args], { stdio: 'ignore' });
    if (status !== 0) throw new Error(`ampwright ${args.join(' ')} ended with ${String(status)}`);
  });
print(
  'command line, cold start (--version)',
  median(7, () => whole(['--version'])),
  'ms',
);
print(
  'command line, a whole diagnose',
  median(5, () => whole(['diagnose', root('examples/dead-alternator.json')])),
  'ms',
);

const assets = root('packages/web/dist/assets');
const weigh = (pattern: RegExp): number =>
  readdirSync(assets)
    .filter((name) => pattern.test(name))
    .reduce((sum, name) => sum + gzipSync(readFileSync(`${assets}/${name}`)).length, 0) / 1000;
const first = weigh(/^(?:index|jsx-runtime|format|worker)-.*\.(?:js|css)$/);
console.log(`page, gzip: first use ${first.toFixed(0)} kB`);
