/** Speed of charge runs: npx tsx bench/run.ts. Ten hours of a two-alternator boat, a hundred-run band, a year of days.
 *  Aims: 20 ms, 1 s, 2 s after warm-up. Prints the time by the clock and of the processor (they differ on a busy
 *  machine), the ratio of the clock's to the aim, steps and circuit solutions. */
import { performance } from 'node:perf_hooks';
import process from 'node:process';
import {
  boatFromTemplate,
  chargeRunOf,
  compareRuns,
  proposedVariants,
  runBands,
  type ChargeRun,
  type Phase,
} from '../packages/core/src/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'told' }) as const;
const boat = boatFromTemplate('two-alternators', {
  alternatorCurrent: told(120),
  bankCapacity: told(600 * HOUR),
  bankChemistry: 'agm',
  loadsCurrent: told(10),
});
const start = { stateOfCharge: { house: 0.4, start: 0.8 } };
const tenHours: Phase[] = [{ duration: 10 * HOUR, engine: 'running', engineSpeed: 1800 * RPM }];
const day: Phase[] = [
  { duration: 22 * HOUR, engine: 'off', loads: 0.3 },
  { duration: 2 * HOUR, engine: 'running', engineSpeed: 1500 * RPM },
];

function timed(
  name: string,
  aim: number | undefined,
  warm: number,
  rounds: number,
  work: () => ChargeRun | undefined,
): void {
  for (let round = 0; round < warm; round++) work();
  const clock: number[] = [];
  let last: ChargeRun | undefined;
  const used = process.cpuUsage();
  for (let round = 0; round < rounds; round++) {
    const before = performance.now();
    last = work();
    clock.push(performance.now() - before);
  }
  const { user, system } = process.cpuUsage(used);
  clock.sort((a, b) => a - b);
  const middle = clock[Math.floor(rounds / 2)] ?? NaN;
  const ratio = aim === undefined ? '' : `, ${(middle / aim).toFixed(2)} of the aim of ${aim} ms`;
  const counts =
    last === undefined
      ? ''
      : `; ${last.steps} steps, ${last.refused} refused, ${last.solves} solutions, imbalance ${(100 * last.energy.imbalance).toFixed(3)} %`;
  process.stdout.write(
    `${name}: ${middle.toFixed(1)} ms (processor ${((user + system) / 1000 / rounds).toFixed(1)}, worst ${(clock.at(-1) ?? NaN).toFixed(1)})${ratio}${counts}\n`,
  );
}

timed('ten hours, two alternators', 20, 60, 41, () => chargeRunOf(boat, tenHours, start));
timed('band of a hundred runs of ten hours', 1000, 1, 3, () => {
  runBands(boat, tenHours, { ...start, draws: 100 });
  return undefined;
});
const year = Array.from({ length: 365 }, () => day).flat();
timed('a year of days', 2000, 0, 3, () =>
  chargeRunOf(boat, year, { stateOfCharge: { house: 0.8, start: 1 } }),
);
timed('every what-if side by side', undefined, 1, 3, () => {
  compareRuns(boat, tenHours, proposedVariants(boat), start);
  return undefined;
});
