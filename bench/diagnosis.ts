/** Diagnosis judged by boats whose truth is hidden: right culprits, minutes, money, and whether the odds mean what they say.
 *  Run: npx tsx bench/diagnosis.ts --seed-set first
 *  On two cores some ten boats a minute; a thousand want --minutes 100.
 *
 *  --boats N        boats for each table (default 1000)
 *  --seed-set NAME  any name: boats of its own (default first); which were looked at: diagnosis/README.md
 *  --tables LIST    prior, uniform, pairs (default prior,pairs)
 *  --templates LIST kinds of boat (default all)
 *  --draws N        possible worlds for each state (the tool's own number when absent)
 *  --random-every N random checks on one boat in N (default 25; 0: never)
 *  --all-every N    all checks there are, whatever they cost, on one boat in N (default 0: never): the most that readings tell
 *  --most N         readings at most (default 60)    --workers N (default 2)
 *  --minutes N      no boat of a table is begun later; those begun are ended, so that slow ones are not left out (default 20)
 *
 *  Rules of the game: diagnosis/truth.ts (the boats), game.ts (the tool), trade-order.ts (the trade's fixed order),
 *  packages/core/src/faults/same-repair.ts (when a verdict counts as right), score.ts (the marks). Writes bench/out/diagnosis-*.json.
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
    boats: { type: 'string', default: '1000' },
    'seed-set': { type: 'string', default: 'first' },
    tables: { type: 'string', default: 'prior,pairs' },
    draws: { type: 'string' },
    skill: { type: 'string', default: 'electrician' },
    'random-every': { type: 'string', default: '25' },
    'all-every': { type: 'string', default: '0' },
    most: { type: 'string', default: '60' },
    minutes: { type: 'string', default: '20' },
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
    const strategies = (['tool', 'trade', 'random', 'all'] as Strategy[]).filter((one) =>
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
      minutes: Number(values.minutes),
      randomEvery: Number(values['random-every']),
      allEvery: Number(values['all-every']),
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

/** A line of the table: what it says, the mark, how it is written, and the aim with whether the tool met it. */
type Row = readonly [
  words: string,
  of: (marks: Marks) => number | undefined,
  tell: (value: number | undefined) => string,
  aim?: ((value: number) => { readonly words: string; readonly met: boolean }) | undefined,
];

function print(draw: Draw, marks: readonly Marks[], judged: readonly Judged[]): void {
  const percent = (value: number | undefined): string =>
    value === undefined || Number.isNaN(value) ? '-' : `${(100 * value).toFixed(1)} %`;
  const plain = (digits: number) => (value: number | undefined) =>
    value === undefined || Number.isNaN(value) ? '-' : value.toFixed(digits);
  const [tool, trade] = ['tool', 'trade'].map((wanted) => marks.find(({ strategy }) => strategy === wanted));
  const atLeast = (aim: number) => (value: number) => ({
    words: `at least ${percent(aim)}`,
    met: value >= aim,
  });
  const atMost = (aim: number) => (value: number) => ({
    words: `at most ${percent(aim)}`,
    met: value <= aim,
  });
  const singles = draw === 'pairs' ? undefined : atLeast(0.95);
  const rows: readonly Row[] = [
    ['boats', (one) => one.games, String],
    ['right repair first', (one) => one.rightFirst, percent, singles],
    ['right repair in the first three', (one) => one.rightInThree, percent],
    ['exact state first', (one) => one.exactFirst, percent],
    ['both of a pair in the first four', (one) => one.bothInFour, percent, atLeast(0.85)],
    ['normal states among them', (one) => one.normalGames, String],
    ['normal told as normal', (one) => one.normalAsNormal, percent, atLeast(0.97)],
    ['fault told as normal', (one) => one.faultAsNormal, percent],
    ['good alternator named first', (one) => one.condemned, percent],
    ['good alternator condemned firmly', (one) => one.condemnedFirmly, percent, atMost(0.01)],
    ['readings', (one) => one.readings, plain(1)],
    [
      'minutes',
      (one) => one.minutes,
      plain(1),
      (value) => ({ words: "half of the trade's", met: value <= 0.5 * (trade?.minutes ?? NaN) }),
    ],
    ['money wasted', (one) => one.wasted, plain(0)],
    ['ended: nothing fits', (one) => one.nothingFits, percent],
    ['ended: no check worth it', (one) => one.noCheckWorthIt, percent],
    ['ended: readings used up', (one) => one.unfinished, percent],
    ['crashes', (one) => one.crashes, percent, atMost(0)],
    ['Brier score', (one) => one.brier, plain(3)],
    [
      'calibration error',
      (one) => one.calibrationError,
      plain(3),
      (value) => ({ words: 'at most 0.03', met: value <= 0.03 }),
    ],
    ['seconds for a diagnosis, median', (one) => one.secondsMedian, plain(2)],
    ['seconds, 95th percentile', (one) => one.secondsHigh, plain(2)],
    ['operating points not converged', (one) => one.notConverged, percent],
  ];
  console.log(`\nHidden faults drawn: ${draw}; seed set: ${seedSet}`);
  console.log(
    ' '.repeat(34) + marks.map(({ strategy }) => strategy.padStart(10)).join('') + '   aim for the tool',
  );
  for (const [words, of, tell, aim] of rows) {
    const value = tool && of(tool);
    const wanted = value === undefined || Number.isNaN(value) ? undefined : aim?.(value);
    const verdict = wanted === undefined ? '' : `   ${wanted.words}: ${wanted.met ? 'met' : 'missed'}`;
    console.log(words.padEnd(34) + marks.map((one) => tell(of(one)).padStart(10)).join('') + verdict);
  }
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
