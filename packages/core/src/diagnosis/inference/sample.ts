/** A small even sample of a posterior over hypotheses and unknowns, and what it predicts: for intervals and next checks. */
import { observableAt, widthOf } from './types.ts';
import type { Model } from './types.ts';
import type { Posterior } from './posterior.ts';

export interface PosteriorSample {
  readonly count: number;
  readonly hypothesis: Int32Array;
  /** Sum is the chance that the sample covers. */
  readonly weights: Float64Array;
  /** Unknowns followed by common errors, row by row. */
  readonly rows: Float64Array;
  readonly rowLength: number;
  readonly common: readonly string[];
  /** Chance of each hypothesis; the last is "nothing fits". */
  readonly probability: Float64Array;
}

/** An even sample: so many draws of each hypothesis whose chance is at least `leastChance`, half as many of those below
 *  `unlikely`. Draws are taken at equal steps of the cumulative weight, so no randomness enters. */
export function posteriorSample(
  posterior: Posterior,
  options: { perHypothesis?: number; leastChance?: number; unlikely?: number } = {},
): PosteriorSample {
  const { perHypothesis = 32, leastChance = 1e-3, unlikely = 0 } = options;
  const drawsOf = (h: number): number =>
    posterior.probability[h]! < unlikely ? Math.ceil(perHypothesis / 2) : perHypothesis;
  const chosen: number[] = [];
  posterior.draws.forEach((draws, h) => {
    if (draws !== undefined && posterior.probability[h]! >= leastChance) chosen.push(h);
  });
  const count = chosen.reduce((sum, h) => sum + drawsOf(h), 0);
  const rowLength = posterior.draws[chosen[0] ?? -1]?.rowLength ?? 0;
  const hypothesis = new Int32Array(count);
  const weights = new Float64Array(count);
  const rows = new Float64Array(count * rowLength);
  let at = 0;
  for (const h of chosen) {
    const draws = posterior.draws[h]!;
    const wanted = drawsOf(h);
    let sum = 0;
    let next = 0;
    for (let i = 0; i < draws.count && next < wanted; i++) {
      sum += draws.weights[i]!;
      while (next < wanted && (sum > (next + 0.5) / wanted || i === draws.count - 1)) {
        hypothesis[at] = h;
        weights[at] = posterior.probability[h]! / wanted;
        for (let j = 0; j < rowLength; j++) rows[at * rowLength + j] = draws.rows[i * rowLength + j]!;
        at++;
        next++;
      }
    }
  }
  const { common, probability } = posterior;
  return { count, hypothesis, weights, rows, rowLength, common, probability };
}

/** Every so-manyth draw of a sample, each weighing for those left out as well. */
export function thinnedSample(sample: PosteriorSample, every: number): PosteriorSample {
  const { hypothesis, weights, rows, rowLength } = sample;
  const first = Math.floor(every / 2);
  const kept = Array.from(hypothesis.keys()).filter((i) => i % every === first);
  const whole = new Map<number, number>();
  const left = new Map<number, number>();
  hypothesis.forEach((h, i) => whole.set(h, (whole.get(h) ?? 0) + weights[i]!));
  for (const i of kept) left.set(hypothesis[i]!, (left.get(hypothesis[i]!) ?? 0) + weights[i]!);
  return {
    ...sample,
    count: kept.length,
    hypothesis: Int32Array.from(kept, (i) => hypothesis[i]!),
    weights: Float64Array.from(kept, (i) => {
      const h = hypothesis[i]!;
      return (weights[i]! * whole.get(h)!) / left.get(h)!;
    }),
    rows: Float64Array.from(kept.flatMap((i) => [...rows.subarray(i * rowLength, (i + 1) * rowLength)])),
  };
}

/** Predictions of the wanted observables for every draw of a sample, one call of the predictor per draw. */
export function sampleColumns(
  model: Model,
  sample: PosteriorSample,
  wanted: readonly number[],
): Map<number, Float64Array> {
  const widths = wanted.map((observable) => widthOf(observableAt(model.observables, observable)));
  const columns = widths.map((width) => new Float64Array(width * sample.count));
  const out = new Float64Array(widths.reduce((sum, width) => sum + width, 0));
  const u = new Float64Array(model.dimensions);
  for (let i = 0; i < sample.count; i++) {
    for (let j = 0; j < u.length; j++) u[j] = sample.rows[i * sample.rowLength + j]!;
    model.predict(sample.hypothesis[i]!, u, wanted, out);
    let at = 0;
    widths.forEach((width, k) => {
      for (let slot = 0; slot < width; slot++) columns[k]![i * width + slot] = out[at++]!;
    });
  }
  return new Map(wanted.map((observable, k) => [observable, columns[k]!]));
}

/** Posterior mean of a function of (hypothesis, unknowns) over all draws; "nothing fits" is left out. */
export function posteriorMean(
  posterior: Posterior,
  value: (hypothesis: number, u: Float64Array) => number,
): number {
  let sum = 0;
  let whole = 0;
  forEachDraw(posterior, (h, u, weight) => {
    const x = value(h, u);
    if (!Number.isFinite(x)) return;
    sum += weight * x;
    whole += weight;
  });
  return sum / whole;
}

/** Posterior quantiles of a function of (hypothesis, unknowns); "nothing fits" and values that are not numbers are left out.
 *  Errors: RangeError for a share outside 0 to 1 */
export function posteriorQuantiles(
  posterior: Posterior,
  value: (hypothesis: number, u: Float64Array) => number,
  shares: readonly number[],
): number[] {
  const values: number[] = [];
  const weights: number[] = [];
  forEachDraw(posterior, (h, u, weight) => {
    const x = value(h, u);
    if (!Number.isFinite(x)) return;
    values.push(x);
    weights.push(weight);
  });
  return weightedQuantiles(values, weights, shares);
}

/** Quantiles of a weighted sample, by steps interpolated between the middles of the weights.
 *  Errors: RangeError for a share outside 0 to 1 or an empty sample */
export function weightedQuantiles(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  shares: readonly number[],
): number[] {
  if (values.length === 0) throw new RangeError('weightedQuantiles: the sample is empty');
  const order = Array.from({ length: values.length }, (_, i) => i).sort(
    (a, b) => values[a]! - values[b]! || a - b,
  );
  const whole = order.reduce((sum, i) => sum + weights[i]!, 0);
  return shares.map((share) => {
    if (!(share >= 0 && share <= 1))
      throw new RangeError(`weightedQuantiles: share = ${share} is outside 0 to 1`);
    let sum = 0;
    let [lastMiddle, lastValue] = [0, values[order[0]!]!];
    for (const i of order) {
      const middle = (sum + 0.5 * weights[i]!) / whole;
      if (middle >= share) {
        const step = middle - lastMiddle;
        return step > 0 ? lastValue + ((share - lastMiddle) / step) * (values[i]! - lastValue) : values[i]!;
      }
      sum += weights[i]!;
      [lastMiddle, lastValue] = [middle, values[i]!];
    }
    return lastValue;
  });
}

function forEachDraw(
  posterior: Posterior,
  visit: (h: number, u: Float64Array, weight: number) => void,
): void {
  posterior.draws.forEach((draws, h) => {
    const chance = posterior.probability[h]!;
    if (draws === undefined || chance < 1e-9) return;
    const u = new Float64Array(draws.dimensions);
    for (let i = 0; i < draws.count; i++) {
      const weight = chance * draws.weights[i]!;
      if (weight < 1e-12) continue;
      for (let j = 0; j < u.length; j++) u[j] = draws.rows[i * draws.rowLength + j]!;
      visit(h, u, weight);
    }
  });
}
