/** Draws from the prior and what each hypothesis predicts for them: kept from reading to reading.
 *  The draws are the same for every hypothesis and every set of readings, so a further reading costs only the predictions of
 *  its own observable, and the error that the draws cause is largely common to all hypotheses.
 */
import { hashOf, normalColumn, normalDraws } from './draws.ts';
import { evenScatter } from './linearise.ts';
import { observableAt, widthOf } from './types.ts';
import type { Scatter } from './linearise.ts';
import type { Model } from './types.ts';

/** Draws of one hypothesis from one source, with the predictions made so far. */
export interface Batch {
  readonly count: number;
  /** Unknowns, row by row. */
  readonly u: Float64Array;
  /** Predictions by observable, draw by draw. */
  readonly columns: Map<number, Float64Array>;
}

export interface DrawCache {
  readonly model: Model;
  readonly seed: number;
  readonly draws: number;
  /** Shared by all hypotheses. */
  readonly u: Float64Array;
  readonly prior: Map<number, Batch>;
  readonly streams: Map<string, Float64Array>;
  /** Of the shared draws. */
  readonly scatter: Scatter;
  /** Calls of the predictor so far, for reports on cost. */
  predictions: number;
}

/** A cache without predictions.
 *  Errors: RangeError for fewer than 32 draws */
export function createCache(model: Model, options: { seed?: number; draws?: number } = {}): DrawCache {
  const { seed = 1, draws = 256 } = options;
  if (!(Number.isInteger(draws) && draws >= 32))
    throw new RangeError(`createCache: draws = ${draws}, must be 32 or more`);
  const u = normalDraws(seed, 0, draws, model.dimensions);
  return {
    model,
    seed,
    draws,
    u,
    prior: new Map(),
    streams: new Map(),
    scatter: evenScatter(u, draws, model.dimensions),
    predictions: 0,
  };
}

/** The prior draws of a hypothesis, with predictions of the wanted observables. */
export function priorBatch(cache: DrawCache, hypothesis: number, wanted: readonly number[]): Batch {
  let batch = cache.prior.get(hypothesis);
  if (batch === undefined) {
    batch = { count: cache.draws, u: cache.u, columns: new Map() };
    cache.prior.set(hypothesis, batch);
  }
  fillColumns(cache, hypothesis, batch, wanted);
  return batch;
}

/** Predicts what is wanted and not yet there, with its companions, each draw in one call. */
export function fillColumns(
  cache: DrawCache,
  hypothesis: number,
  batch: Batch,
  wanted: readonly number[],
): void {
  const { model } = cache;
  const isMissing = (observable: number): boolean => !batch.columns.has(observable);
  const asked = wanted.filter(isMissing);
  if (asked.length === 0) return;
  const along = asked.flatMap((observable) => model.companions?.(observable) ?? []).filter(isMissing);
  const missing = [...new Set([...asked, ...along])];
  const widths = missing.map((observable) => widthOf(observableAt(model.observables, observable)));
  const columns = widths.map((width) => new Float64Array(width * batch.count));
  const out = new Float64Array(widths.reduce((sum, width) => sum + width, 0));
  const d = model.dimensions;
  const row = new Float64Array(d);
  for (let i = 0; i < batch.count; i++) {
    for (let j = 0; j < d; j++) row[j] = batch.u[i * d + j]!;
    model.predict(hypothesis, row, missing, out);
    let at = 0;
    for (let k = 0; k < missing.length; k++) {
      const width = widths[k]!;
      const column = columns[k]!;
      for (let slot = 0; slot < width; slot++) column[i * width + slot] = out[at++]!;
    }
  }
  cache.predictions += batch.count;
  missing.forEach((observable, k) => batch.columns.set(observable, columns[k]!));
}

/** Standard-normal draws of the common errors, draw by draw. Each is called by its name, so adding one changes no other. */
export function commonErrors(
  cache: DrawCache,
  common: readonly string[],
  count: number,
  stream: number,
): Float64Array {
  const errors = new Float64Array(count * common.length);
  common.forEach((name, g) => {
    const column = normalStream(cache, count, stream, 1_000_003 + (hashOf(name) >>> 1));
    for (let i = 0; i < count; i++) errors[i * common.length + g] = column[i]!;
  });
  return errors;
}

/** `normalColumn` with this cache's seed, remembered. */
export function normalStream(
  cache: DrawCache,
  count: number,
  stream: number,
  coordinate: number,
): Float64Array {
  const key = `${count} ${stream} ${coordinate}`;
  let column = cache.streams.get(key);
  if (column === undefined) {
    column = normalColumn(cache.seed, stream, coordinate, count);
    cache.streams.set(key, column);
  }
  return column;
}
