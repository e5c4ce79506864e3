/** A run over everything that nobody knows of the boat: bands of what a technician will see.
 *  Worlds are Latin-hypercube draws of the boat's unknowns (fixed seed), or the caller's own; each is run, and the
 *  quantiles are taken at the same times. Straight between the steps of a run.
 */
import { boatAt, chargingPaths, unknownsOf, type BoatDescription } from '../boat/index.ts';
import { normalDraws } from '../diagnosis/inference/draws.ts';
import { chargeRun, type ChargeRun, type Phase, type RunOptions } from '../operate/index.ts';
import { runFigures, type RunFigures } from './run-figures.ts';

/** Quantiles of one quantity: 10, 50 and 90 % of the boats that are possible lie below. */
export interface SeriesBand {
  readonly low: readonly number[];
  readonly middle: readonly number[];
  readonly high: readonly number[];
}

/** Quantiles of one figure; a figure that some runs never reach counts there as Infinity. */
export interface FigureBand {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

export interface RunBands {
  readonly ended: 'done' | 'cancelled';
  /** Runs behind the bands. */
  readonly draws: number;
  readonly times: readonly number[]; // s
  readonly batteries: readonly {
    readonly id: string;
    readonly stateOfCharge: SeriesBand;
    readonly voltage: SeriesBand; // V
    readonly current: SeriesBand; // A
    /** s; Infinity for never. */
    readonly timeTo80: FigureBand;
    readonly timeTo95: FigureBand;
  }[];
  readonly alternators: readonly {
    readonly id: string;
    readonly output: SeriesBand; // A
    readonly temperature: SeriesBand; // K
  }[];
  readonly engineTimePerDay: FigureBand; // s, Infinity where charging cannot hold the bank
  readonly fuelPerDay: FigureBand; // m³
  readonly peakTemperature: FigureBand; // K
  readonly peakEngineShare: FigureBand;
  readonly peakBeltShare: FigureBand;
  readonly pathLoss: FigureBand; // V
}

export interface BandOptions {
  /** State of charge at the start by battery id, the same in every draw; drawn like the rest when absent. */
  readonly stateOfCharge?: Readonly<Record<string, number>>;
  /** 100 when absent. */
  readonly draws?: number;
  readonly seed?: number;
  /** Times of the grid, 121 when absent. */
  readonly points?: number;
  /** Own worlds, coordinates as `boatAt` takes them, in place of draws. */
  readonly worlds?: readonly Float64Array[];
  readonly tolerance?: number;
  /** Called after each run with the share done; false cancels. */
  readonly onProgress?: (done: number) => boolean | undefined;
}

const QUANTILES = [0.1, 0.5, 0.9] as const;

/** Errors: RangeError for draws outside 2..10 000, points below 2, or what `chargeRun` refuses. */
export function runBands(
  description: BoatDescription,
  plan: readonly Phase[],
  options: BandOptions = {},
): RunBands {
  const { points = 121, seed = 1, onProgress } = options;
  const worlds = options.worlds ?? drawn(description, options.draws ?? 100, seed);
  if (!(points >= 2)) throw new RangeError(`runBands: points ${points} must be at least 2`);
  const serves = servesOf(description);
  const runs: ChargeRun[] = [];
  const figures: RunFigures[] = [];
  let ended: RunBands['ended'] = 'done';
  for (const world of worlds) {
    const boat = boatAt(description, world);
    const run = chargeRun(boat, plan, runOptions(options));
    runs.push(run);
    figures.push(runFigures(boat, run, serves));
    if (onProgress?.(runs.length / worlds.length) === false && runs.length < worlds.length) {
      ended = 'cancelled';
      break;
    }
  }
  const whole = plan.reduce((sum, { duration }) => sum + duration, 0);
  const times = Array.from({ length: points }, (_, k) => (whole * k) / (points - 1));
  const band = (series: (run: ChargeRun) => readonly number[]): SeriesBand => bandOf(runs, times, series);
  const first = runs[0];
  const figure = (of: (one: RunFigures) => number | undefined): FigureBand =>
    figureBand(figures.map((one) => of(one) ?? Infinity));
  return {
    ended,
    draws: runs.length,
    times,
    batteries: (first?.batteries ?? []).map(({ id }, i) => ({
      id,
      stateOfCharge: band(({ batteries }) => batteries[i]?.stateOfCharge ?? []),
      voltage: band(({ batteries }) => batteries[i]?.voltage ?? []),
      current: band(({ batteries }) => batteries[i]?.current ?? []),
      timeTo80: figure(({ banks }) => banks[i]?.timeTo80),
      timeTo95: figure(({ banks }) => banks[i]?.timeTo95),
    })),
    alternators: (first?.alternators ?? []).map(({ id }, i) => ({
      id,
      output: band(({ alternators }) => alternators[i]?.output ?? []),
      temperature: band(({ alternators }) => alternators[i]?.temperature ?? []),
    })),
    engineTimePerDay: figure((one) => one.engineTimePerDay),
    fuelPerDay: figure((one) => one.fuelPerDay),
    peakTemperature: figure((one) => one.peakTemperature),
    peakEngineShare: figure((one) => one.peakEngineShare),
    peakBeltShare: figure((one) => one.peakBeltShare),
    pathLoss: figure((one) => one.pathLoss),
  };
}

/** Which bank each alternator is there for: index in the batteries, in the order of the alternators. */
export function servesOf(description: BoatDescription): (number | undefined)[] {
  const ids = description.parts.filter(({ kind }) => kind === 'battery').map(({ id }) => id);
  return chargingPaths(description).map(({ battery }) => {
    const at = battery === undefined ? -1 : ids.indexOf(battery);
    return at < 0 ? undefined : at;
  });
}

function drawn(description: BoatDescription, draws: number, seed: number): Float64Array[] {
  if (!(Number.isInteger(draws) && draws >= 2 && draws <= 10_000))
    throw new RangeError(`runBands: draws ${draws} must be a whole number from 2 to 10 000`);
  const size = unknownsOf(description).length;
  const all = normalDraws(seed, 0, draws, size);
  return Array.from({ length: draws }, (_, k) => all.subarray(k * size, (k + 1) * size));
}

function runOptions({ stateOfCharge, tolerance }: BandOptions): RunOptions {
  return {
    ...(stateOfCharge === undefined ? {} : { stateOfCharge }),
    ...(tolerance === undefined ? {} : { tolerance }),
  };
}

function bandOf(
  runs: readonly ChargeRun[],
  times: readonly number[],
  series: (run: ChargeRun) => readonly number[],
): SeriesBand {
  const curves = runs.map((run) => resampled(run.times, series(run), times));
  const bands = QUANTILES.map((share) => times.map((_, k) => quantile(sorted(curves, k), share)));
  return { low: bands[0] ?? [], middle: bands[1] ?? [], high: bands[2] ?? [] };
}

const sorted = (curves: readonly Float64Array[], at: number): number[] =>
  curves.map((curve) => curve[at] ?? NaN).sort((a, b) => a - b);

function figureBand(values: readonly number[]): FigureBand {
  const inOrder = [...values].sort((a, b) => a - b);
  const [low, middle, high] = QUANTILES.map((share) => quantile(inOrder, share));
  return { low: low ?? NaN, middle: middle ?? NaN, high: high ?? NaN };
}

/** Straight between neighbours, for values in order; beside Infinity the nearer one counts. */
function quantile(inOrder: readonly number[], share: number): number {
  const at = share * (inOrder.length - 1);
  const below = inOrder[Math.floor(at)] ?? NaN;
  const above = inOrder[Math.ceil(at)] ?? below;
  const part = at - Math.floor(at);
  if (!Number.isFinite(above)) return part < 0.5 ? below : above;
  return below + (above - below) * part;
}

/** A series at other times, straight between its own; after a step that was recorded twice, the later value. A run
 *  that ended early keeps its last value. */
export function resampled(
  times: readonly number[],
  values: readonly number[],
  at: readonly number[],
): Float64Array {
  const out = new Float64Array(at.length);
  let k = 1;
  at.forEach((time, index) => {
    while (k < times.length - 1 && (times[k] ?? 0) <= time) k++;
    const [start = 0, end = 0] = [times[k - 1], times[k]];
    const [before = NaN, after = before] = [values[k - 1], values[k]];
    const part = end > start ? Math.min(1, Math.max(0, (time - start) / (end - start))) : 1;
    out[index] = before + (after - before) * part;
  });
  return out;
}
