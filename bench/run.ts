/** Speed of charge runs: npx tsx bench/run.ts. Ten hours of a two-alternator boat, a hundred-run band, a year of days.
 *  Aims: 20 ms, 1 s, 2 s after warm-up. Prints the time, the ratio to the aim, steps and circuit solutions. */
import { performance } from 'node:perf_hooks';
import {
  boatFromTemplate,
  chargeRunOf,
  unknownsOf,
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

function timed(name: string, aim: number, rounds: number, work: () => ChargeRun): void {
  work();
  const times: number[] = [];
  let last: ChargeRun | undefined;
  for (let round = 0; round < rounds; round++) {
    const before = performance.now();
    last = work();
    times.push(performance.now() - before);
  }
  times.sort((a, b) => a - b);
  const middle = times[Math.floor(times.length / 2)] ?? NaN;
  const worst = times.at(-1) ?? NaN;
  process.stdout.write(
    `${name}: ${middle.toFixed(0)} ms (worst ${worst.toFixed(0)}), ${(middle / aim).toFixed(1)} times the aim of ${aim} ms; ` +
      `${last?.steps ?? 0} steps, ${last?.refused ?? 0} refused, ${last?.solves ?? 0} solutions, imbalance ${((last?.energy.imbalance ?? NaN) * 100).toFixed(3)} %\n`,
  );
}

timed('ten hours, two alternators', 20, 9, () => chargeRunOf(boat, tenHours, start));

const size = unknownsOf(boat).length;
/** Evenly spread standard normals of fixed seeds: enough to time with. */
const coordinates = (draw: number): Float64Array =>
  Float64Array.from({ length: size }, (_, j) => 1.7 * Math.sin(12.9898 * (draw + 1) * (j + 1)));
timed('a hundred runs of ten hours', 1000, 1, () => {
  let last: ChargeRun | undefined;
  for (let draw = 0; draw < 100; draw++)
    last = chargeRunOf(boat, tenHours, { ...start, coordinates: coordinates(draw) });
  return last as ChargeRun;
});

timed('a year of days', 2000, 1, () =>
  chargeRunOf(boat, Array.from({ length: 365 }, () => day).flat(), {
    stateOfCharge: { house: 0.8, start: 1 },
  }),
);
