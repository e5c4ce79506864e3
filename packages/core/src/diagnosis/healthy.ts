/** Where readings would lie if all were well: the boat without any fault, at whatever state of charge the readings taken
 *  with the engine off leave open. */
import type { PlacedCheck } from '../checks/index.ts';
import {
  posteriorGiven,
  posteriorSample,
  sampleColumns,
  weightedQuantiles,
  type DrawCache,
} from './inference/index.ts';
import { errorScaleOf } from './error-scale.ts';
import { errorsAt } from './errors.ts';
import { healthyHypothesis } from './hypothesis.ts';
import type { BoatModel } from './model.ts';
import type { Joined } from './readings-as-evidence.ts';
import type { State } from './state.ts';
import type { HealthyView } from './healthy-view.ts';
import type { Band } from './verdict.ts';

const DRAWS = 32;
const TAIL = 0.05;

export function healthyDraws(model: BoatModel, cache: DrawCache, joined: readonly Joined[]): HealthyView {
  const priors = model.hypotheses.map((_, h) => (h === healthyHypothesis ? 1 : 0));
  const still = stillOf(joined);
  const { posterior } = posteriorGiven(
    cache,
    priors,
    still.map((one) => one.evidence),
    { nothingFits: 0.05 },
  );
  return { sample: posteriorSample(posterior, { perHypothesis: DRAWS, leastChance: 0 }), columns: new Map() };
}

/** What the healthy view depends on: readings taken with the engine off. Equal keys, equal views. */
export function healthyKey(joined: readonly Joined[]): string {
  return JSON.stringify(stillOf(joined).map(({ evidence }) => evidence));
}

function stillOf(joined: readonly Joined[]): readonly Joined[] {
  return joined.filter(({ check }) => check.outcome.kind === 'number' && check.condition.engine === 'off');
}

/** Predictions of several observables with one pass over the draws. */
export function healthyColumns(
  state: State,
  observables: readonly number[],
): ReadonlyMap<number, Float64Array> {
  const { sample, columns } = state.healthy;
  const missing = observables.filter((observable) => !columns.has(observable));
  for (const [observable, column] of sampleColumns(state.model, sample, missing))
    columns.set(observable, column);
  return columns;
}

/** The 90 % band of a number in its unit, from predictions on its error scale, widened by the errors of meter and model. */
export function bandOf(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  check: PlacedCheck,
): Band | undefined {
  if (check.outcome.kind !== 'number') return undefined;
  const numbers: number[] = [];
  const kept: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (!Number.isFinite(value)) continue;
    numbers.push(value);
    kept.push(weights[i] ?? 0);
  }
  if (numbers.length === 0) return undefined;
  const [low = 0, middle = 0, high = 0] = weightedQuantiles(numbers, kept, [TAIL, 0.5, 1 - TAIL]);
  const { from } = errorScaleOf(check.outcome);
  const { sigma: own, discrepancy } = errorsAt(check, undefined, from(middle));
  const error = 1.645 * Math.hypot(own, discrepancy);
  // Two spreads, one known by its quantiles and one normal, add in squares (exact when both are normal).
  return {
    low: from(middle - Math.hypot(middle - low, error)),
    middle: from(middle),
    high: from(middle + Math.hypot(high - middle, error)),
  };
}

/** Bands of all placed checks with a number. */
export function healthyBands(state: State, checks: readonly PlacedCheck[]): ReadonlyMap<string, Band> {
  const wanted = checks.map((check) => state.model.checks.findIndex((one) => one.id === check.id));
  const numbers = wanted.filter((index) => state.model.checks[index]?.outcome.kind === 'number');
  const columns = healthyColumns(state, numbers);
  const bands = new Map<string, Band>();
  for (const [observable, column] of columns) {
    const check = state.model.checks[observable];
    const band = check && bandOf(column, state.healthy.sample.weights, check);
    if (check && band) bands.set(check.id, band);
  }
  return bands;
}
