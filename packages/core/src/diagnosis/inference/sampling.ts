/** Inner steps of adaptive importance sampling: drawing from a normal, densities, likelihood over a batch. Hot. */
import { normalStream } from './cache.ts';
import { addLogLikelihood, linearTarget } from './likelihood.ts';
import { solveUpper } from './matrix.ts';
import { largestOf } from './pareto.ts';
import type { Batch, DrawCache } from './cache.ts';
import type { Evidence } from './likelihood.ts';
import type { Component } from './linearise.ts';

/** Writes `draws` stratified draws of a normal into `rows`, from row `at` on.
 *    z = m + L⁻ᵀ x,  x ~ N(0, I),  precision L Lᵀ */
export function drawFrom(
  cache: DrawCache,
  component: Component,
  draws: number,
  stream: number,
  rows: Float64Array,
  at: number,
  width: number,
): void {
  for (let j = 0; j < width; j++) {
    const column = normalStream(cache, draws, stream, j);
    for (let i = 0; i < draws; i++) rows[(at + i) * width + j] = column[i]!;
  }
  for (let i = at; i < at + draws; i++) {
    solveUpper(component.factor, width, rows, i * width);
    for (let j = 0; j < width; j++) rows[i * width + j]! += component.mean[j]!;
  }
}

/** Adds a part to Σ_c n_c q_c / π, for the draws from number `from` on.
 *    log q/π = ½ log|P| − ½ |Lᵀ(z − m)|² + ½ |z|²
 *  Draws with `skip` set are left out: see `negligible`. */
export function addDensity(
  part: { readonly component: Component; readonly draws: number },
  rows: Float64Array,
  width: number,
  mixture: Float64Array,
  from: number,
  skip?: Uint8Array,
): void {
  const { mean, factor, halfLogDeterminant } = part.component;
  const { draws } = part;
  const gap = new Float64Array(width);
  const upper = new Float64Array(width * width);
  for (let k = 0; k < width; k++) for (let j = 0; j <= k; j++) upper[j * width + k] = factor[k * width + j]!;
  for (let i = from; i < mixture.length; i++) {
    if (skip !== undefined && skip[i] === 1) continue;
    const at = i * width;
    let half = 0;
    for (let j = 0; j < width; j++) {
      const z = rows[at + j]!;
      gap[j] = z - mean[j]!;
      half += z * z;
    }
    for (let j = 0; j < width; j++) {
      let sum = 0;
      for (let k = j; k < width; k++) sum += upper[j * width + k]! * gap[k]!;
      half -= sum * sum;
    }
    mixture[i]! += draws * Math.exp(Math.min(690, halfLogDeterminant + 0.5 * half));
  }
}

/** Draws before number `from` whose weight is below e⁻³⁰ of the largest weight after it, whatever parts are added: a further part
 *  only lowers a weight. */
export function negligible(logLikelihood: Float64Array, mixture: Float64Array, from: number): Uint8Array {
  let top = -Infinity;
  for (let i = from; i < mixture.length; i++) top = Math.max(top, logLikelihood[i]! - Math.log(mixture[i]!));
  const skip = new Uint8Array(mixture.length);
  for (let i = 0; i < from; i++) if (logLikelihood[i]! - Math.log(mixture[i]!) < top - 30) skip[i] = 1;
  return skip;
}

/** Log likelihood of all readings for each draw of a batch. */
export function logLikelihoodOf(evidence: Evidence, batch: Batch, errors: Float64Array): Float64Array {
  const total = new Float64Array(batch.count);
  for (const reading of evidence.readings)
    addLogLikelihood(reading, batch.columns.get(reading.observable)!, errors, total);
  return total;
}

/** What the linear model sees of each reading, draw by draw. */
export function targetsOf(
  evidence: Evidence,
  batch: Batch,
  rows: Float64Array,
  width: number,
  predictive: number,
): Float64Array {
  const size = evidence.readings.length;
  const targets = new Float64Array(batch.count * size);
  evidence.readings.forEach((reading, k) => {
    const column = batch.columns.get(reading.observable)!;
    for (let i = 0; i < batch.count; i++) {
      let f = column[i * reading.width + reading.slot]!;
      if (reading.form === 'above' || reading.form === 'below')
        for (let g = 0; g < reading.loading.length; g++)
          f += reading.loading[g]! * rows[i * width + predictive + g]!;
      targets[i * size + k] = linearTarget(reading, f);
    }
    fillMissing(targets, k, size);
  });
  return targets;
}

/** A draw without a prediction stands at the mean of the others: it then has no say on the slope. */
function fillMissing(targets: Float64Array, k: number, size: number): void {
  let sum = 0;
  let known = 0;
  for (let at = k; at < targets.length; at += size) {
    if (!Number.isFinite(targets[at])) continue;
    sum += targets[at]!;
    known++;
  }
  if (known * size === targets.length) return;
  for (let at = k; at < targets.length; at += size)
    if (!Number.isFinite(targets[at])) targets[at] = known > 0 ? sum / known : 0;
}

/** Weights to the largest power (at most 1) at which `wanted` draws are effective; sum 1. */
export function temperedWeights(
  logWeights: Float64Array,
  wanted: number,
): { weights: Float64Array; effective: number } {
  const count = logWeights.length;
  const top = largestOf(logWeights);
  const weights = new Float64Array(count);
  const effectiveAt = (power: number): number => {
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < count; i++) {
      const w = Math.exp(power * Math.max(-1e6, logWeights[i]! - top));
      weights[i] = w;
      sum += w;
      squares += w * w;
    }
    for (let i = 0; i < count; i++) weights[i]! /= sum;
    return (sum * sum) / squares;
  };
  let effective = effectiveAt(1);
  if (effective >= wanted) return { weights, effective };
  let [low, high] = [0, 1];
  for (let step = 0; step < 30; step++) {
    const power = low === 0 ? high / 4 : Math.sqrt(low * high);
    effective = effectiveAt(power);
    if (effective >= wanted) low = power;
    else high = power;
    if (low > 0 && high / low < 1.05) break;
  }
  return { weights, effective: effectiveAt(low) };
}

/** Unknowns and common errors side by side. */
export function joined(
  u: Float64Array,
  errors: Float64Array,
  count: number,
  dimensions: number,
  groups: number,
): Float64Array {
  if (groups === 0) return u;
  const width = dimensions + groups;
  const rows = new Float64Array(count * width);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < dimensions; j++) rows[i * width + j] = u[i * dimensions + j]!;
    for (let g = 0; g < groups; g++) rows[i * width + dimensions + g] = errors[i * groups + g]!;
  }
  return rows;
}

/** A batch without predictions, and the common errors, from rows that hold both. */
export function splitRows(
  rows: Float64Array,
  count: number,
  width: number,
  dimensions: number,
): { batch: Batch; errors: Float64Array } {
  const groups = width - dimensions;
  const u = new Float64Array(count * dimensions);
  const errors = new Float64Array(count * groups);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < dimensions; j++) u[i * dimensions + j] = rows[i * width + j]!;
    for (let g = 0; g < groups; g++) errors[i * groups + g] = rows[i * width + dimensions + g]!;
  }
  return { batch: { count, u, columns: new Map() }, errors };
}

/** Two batches as one, with the predictions that both have. */
export function joinedBatch(first: Batch, second: Batch): Batch {
  const columns = new Map<number, Float64Array>();
  for (const [observable, column] of first.columns) {
    const more = second.columns.get(observable);
    if (more !== undefined) columns.set(observable, appended(column, more));
  }
  return { count: first.count + second.count, u: appended(first.u, second.u), columns };
}

export function appended(first: Float64Array, second: Float64Array): Float64Array {
  const whole = new Float64Array(first.length + second.length);
  whole.set(first);
  whole.set(second, first.length);
  return whole;
}
