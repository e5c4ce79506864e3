/** Diagnosis judged by boats whose truth is hidden: right culprits, minutes, money, and whether the odds mean what they say.
 *  Run: npx tsx bench/diagnosis.ts --boats 1000 --seed-set first
 *
 *  --boats N        boats for each table (default 40)
 *  --seed-set NAME  first, or the second one, which is kept for the end
 *  --tables LIST    prior, uniform, pairs (default prior,uniform)
 *  --templates LIST kinds of boat (default all)
 *  --draws N        possible worlds for each state (the tool's own number when absent)
 *  --random-every N random checks on one boat in N (default 4; 0: never)
 *  --most N         readings at most (default 25)    --workers N (default 2)
 *
 *  Rules of the game: diagnosis/truth.ts (the boats), game.ts (the tool), trade-order.ts (the trade's fixed order),
 *  same-repair.ts (when a verdict counts as right), score.ts (the marks). Writes bench/out/diagnosis-*.json.
 */
import { spawn } from 'node:child_process';
import { appendFileSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { templateIds, type TemplateId } from '../packages/core/src/boat/index.ts';
import { confusions, judge, marksOf, type Judged, type Marks } from './diagnosis/score.ts';
import type { Draw } from './diagnosis/truth.ts';
import type { Game, Strategy, WorkerPlan } from './diagnosis/worker.ts';

const { values } = parseArgs({
  options: {
    boats: { type: 'string', default: '40' },
    'seed-set': { type: 'string', default: 'first' },
    tables: { type: 'string', default: 'prior,uniform' },
    draws: { type: 'string' },
    skill: { type: 'string', default: 'electrician' },
    'random-every': { type: 'string', default: '4' },
    most: { type: 'string', default: '25' },
    templates: { type: 'string', default: templateIds.join() },
    workers: { type: 'string', default: '2' },
  },
});

const out = fileURLToPath(new URL('./out/', import.meta.url));
const worker = fileURLToPath(new URL('./diagnosis/worker.ts', import.meta.url));
const seedSet = values['seed-set'];

await main();

async function main(): Promise<void> {
  mkdirSync(out, { recursive: true });
  for (const draw of values.tables.split(',') as Draw[]) {
    const games = await play(draw);
    const judged = judge(games, seedSet);
    const strategies = (['tool', 'trade', 'random'] as Strategy[]).filter((one) =>
      games.some(({ strategy }) => strategy === one),
    );
    const marks = strategies.map((one) => marksOf(judged.filter(({ game }) => game.strategy === one)));
    print(
      draw,
      marks,
      judged.filter(({ game }) => game.strategy === 'tool'),
    );
    writeFileSync(
      `${out}diagnosis-${seedSet}-${draw}.json`,
      JSON.stringify({ seedSet, draw, options: values, marks, games }, undefined, 1),
    );
  }
}

/** Plays all boats in several processes. */
async function play(draw: Draw): Promise<Game[]> {
  const count = Number(values.workers);
  const games: Game[] = [];
  // Games are kept as they end, so that a run cut short is not lost.
  const kept = `${out}diagnosis-${seedSet}-${draw}.jsonl`;
  rmSync(kept, { force: true });
  const boats = Number(values.boats);
  const share = (first: number): Promise<void> => {
    const plan: WorkerPlan = {
      seedSet,
      draw,
      first,
      boats,
      step: count,
      draws: values.draws === undefined ? undefined : Number(values.draws),
      templates: values.templates.split(',') as TemplateId[],
      skill: values.skill as WorkerPlan['skill'],
      most: Number(values.most),
      randomEvery: Number(values['random-every']),
    };
    const child = spawn(process.execPath, ['--import', 'tsx', worker, JSON.stringify(plan)], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    createInterface({ input: child.stdout }).on('line', (line) => {
      games.push(JSON.parse(line) as Game);
      appendFileSync(kept, `${line}\n`);
      const done = games.filter(({ strategy }) => strategy === 'tool').length;
      if (process.stderr.isTTY) process.stderr.write(`\r${draw}: ${done} of ${boats} boats`);
    });
    process.once('exit', () => child.kill());
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => process.exit(1));
    return new Promise((resolve, reject) => {
      child.on('error', reject);
      child.on('close', (code) => {
        if (code === 0) resolve();
        else reject(new Error(`a worker of the benchmark ended with code ${code}`));
      });
    });
  };
  await Promise.all(Array.from({ length: count }, (_, first) => share(first)));
  if (process.stderr.isTTY) process.stderr.write('\n');
  return games.sort((a, b) => a.index - b.index || (a.strategy < b.strategy ? -1 : 1));
}

function print(draw: Draw, marks: readonly Marks[], judged: readonly Judged[]): void {
  const percent = (value: number | undefined): string =>
    value === undefined || Number.isNaN(value) ? '-' : `${(100 * value).toFixed(1)} %`;
  const plain = (digits: number) => (value: number | undefined) =>
    value === undefined || Number.isNaN(value) ? '-' : value.toFixed(digits);
  const rows: readonly [string, (one: Marks) => string][] = [
    ['boats', (one) => String(one.games)],
    ['right repair first', (one) => percent(one.rightFirst)],
    ['right repair in the first three', (one) => percent(one.rightInThree)],
    ['exact state first', (one) => percent(one.exactFirst)],
    ['both of a pair in the first four', (one) => percent(one.bothInFour)],
    ['normal told as normal', (one) => `${percent(one.normalAsNormal)} of ${one.normalGames}`],
    ['fault told as normal', (one) => percent(one.faultAsNormal)],
    ['good alternator named first', (one) => percent(one.condemned)],
    ['good alternator condemned firmly', (one) => percent(one.condemnedFirmly)],
    ['readings', (one) => plain(1)(one.readings)],
    ['minutes', (one) => plain(1)(one.minutes)],
    ['money wasted', (one) => plain(0)(one.wasted)],
    ['ended: nothing fits', (one) => percent(one.nothingFits)],
    ['ended: no check worth it', (one) => percent(one.noCheckWorthIt)],
    ['ended: readings used up', (one) => percent(one.unfinished)],
    ['crashes', (one) => percent(one.crashes)],
    ['Brier score', (one) => plain(3)(one.brier)],
    ['calibration error', (one) => plain(3)(one.calibrationError)],
    ['seconds for a diagnosis, median', (one) => plain(2)(one.secondsMedian)],
    ['seconds, 95th percentile', (one) => plain(2)(one.secondsHigh)],
    ['operating points not converged', (one) => percent(one.notConverged)],
  ];
  console.log(`\nHidden faults drawn: ${draw}; seed set: ${seedSet}`);
  console.log(' '.repeat(36) + marks.map(({ strategy }) => strategy.padStart(16)).join(''));
  for (const [words, tell] of rows)
    console.log(words.padEnd(36) + marks.map((one) => tell(one).padStart(16)).join(''));
  console.log('\nReliability of the tool: chance said of the first suspect, how often it was so');
  for (const { from, to, count, said, was } of marks[0]?.reliability ?? []) {
    console.log(
      `  ${from.toFixed(2)}–${to.toFixed(2)}  said ${said.toFixed(3)}  was ${was.toFixed(3)}  (${count})`,
    );
  }
  console.log('\nTaken for another (repairs that are the same left out)');
  for (const { truth, said, times } of confusions(judged).slice(0, 25))
    console.log(`  ${String(times).padStart(3)}  ${truth} → ${said}`);
}
