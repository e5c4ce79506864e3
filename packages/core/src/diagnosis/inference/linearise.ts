/** Statistical linearisation: the straight line that fits the predictions best over a weighted cloud of draws.
 *
 *    g(u) ≈ a + B u + r,   cov r = Q      (weighted least squares, drawn towards the previous slopes)
 *    precision  P = I + Bᵀ R⁻¹ B,  mean  m = P⁻¹ Bᵀ R⁻¹ (y − a),   R = own errors + Q
 *  g prediction of each reading (for an answer: its chance)  u unknowns, with the common errors after them
 *  What is not straight becomes extra noise, so a proposal made this way is too broad rather than too narrow.
 *  Readings that look like slips: each set of suspected slips has its own normal, weighted by its evidence.
 *  Source: [GARCIA2015] (posterior linearisation), [EVENSEN2009] (ensemble regression)
 */
import { factorise, inverseFromFactor, solveLower, solveUpper } from './matrix.ts';
import { slipConfigurations } from './slips.ts';
import type { PreparedReading } from './likelihood.ts';
import type { LinearModel } from './linear-model.ts';

/** A normal proposal; `factor` is the lower Cholesky factor of its precision. */
export interface Component {
  readonly mean: Float64Array;
  readonly factor: Float64Array;
  readonly halfLogDeterminant: number;
  readonly share: number;
}

export interface Cloud {
  readonly count: number;
  /** Unknowns and common errors, row by row. */
  readonly rows: Float64Array;
  readonly dimensions: number;
  /** Leading coordinates that the predictor depends on. */
  readonly predictive: number;
  /** Sum 1. */
  readonly weights: Float64Array;
  readonly effective: number;
  /** Predictions as the linear model sees them, draw by draw. */
  readonly targets: Float64Array;
}

/** Centre and scatter of the unknowns of a cloud, the scatter as its lower Cholesky factor. */
export interface Scatter {
  readonly centre: Float64Array;
  readonly factor: Float64Array;
}

/** Scatter of draws that count alike. */
export function evenScatter(u: Float64Array, count: number, d: number): Scatter {
  const centre = new Float64Array(d);
  for (let i = 0; i < count; i++) for (let j = 0; j < d; j++) centre[j]! += u[i * d + j]! / count;
  const factor = new Float64Array(d * d);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < d; j++) {
      const part = (u[i * d + j]! - centre[j]!) / count;
      for (let l = 0; l <= j; l++) factor[j * d + l]! += part * (u[i * d + l]! - centre[l]!);
    }
  for (let j = 0; j < d; j++) factor[j * d + j]! += 1e-9;
  factorise(factor, d);
  return { centre, factor };
}

/** The linear model of draws that count alike, whose scatter is known. */
export function evenLinearModel(
  readings: readonly PreparedReading[],
  cloud: Cloud,
  scatter: Scatter,
): LinearModel {
  const { count, rows, dimensions, predictive: d, targets } = cloud;
  const size = readings.length;
  const { centre, factor } = scatter;
  const middle = new Float64Array(size);
  const cross = new Float64Array(size * d);
  const residual = new Float64Array(size * size);
  for (let i = 0; i < count; i++) for (let k = 0; k < size; k++) middle[k]! += targets[i * size + k]! / count;
  const gap = new Float64Array(size);
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < size; k++) gap[k] = (targets[i * size + k]! - middle[k]!) / count;
    for (let k = 0; k < size; k++) {
      const part = gap[k]!;
      for (let j = 0; j < d; j++) cross[k * d + j]! += part * rows[i * dimensions + j]!;
      for (let l = 0; l <= k; l++) residual[k * size + l]! += part * gap[l]! * count;
    }
  }
  const fitted = cross.slice();
  for (let k = 0; k < size; k++) {
    solveLower(factor, d, fitted, k * d);
    solveUpper(factor, d, fitted, k * d);
  }
  for (let k = 0; k < size; k++)
    for (let l = 0; l <= k; l++) {
      let explained = 0;
      for (let j = 0; j < d; j++) explained += fitted[k * d + j]! * cross[l * d + j]!;
      const left = residual[k * size + l]! - explained;
      residual[k * size + l] = k === l ? Math.max(0, left) : left;
    }
  return assembled(readings, cloud, fitted, centre, middle, residual);
}

/** The linear model of a weighted cloud. `previous` with its covariance acts as (d + 1)/2 further draws. */
export function linearModel(
  readings: readonly PreparedReading[],
  cloud: Cloud,
  previous: { readonly model: LinearModel; readonly component: Component },
): LinearModel {
  const { count, rows, dimensions, predictive: d, weights, targets } = cloud;
  const size = readings.length;
  const centre = new Float64Array(d);
  const middle = new Float64Array(size);
  for (let i = 0; i < count; i++) {
    const w = weights[i]!;
    if (w === 0) continue;
    for (let j = 0; j < d; j++) centre[j]! += w * rows[i * dimensions + j]!;
    for (let k = 0; k < size; k++) middle[k]! += w * targets[i * size + k]!;
  }
  const spread = new Float64Array(d * d);
  const cross = new Float64Array(size * d);
  const row = new Float64Array(d);
  for (let i = 0; i < count; i++) {
    const w = weights[i]!;
    if (w < 1e-12) continue;
    for (let j = 0; j < d; j++) row[j] = rows[i * dimensions + j]! - centre[j]!;
    for (let j = 0; j < d; j++) {
      const part = w * row[j]!;
      for (let l = 0; l <= j; l++) spread[j * d + l]! += part * row[l]!;
    }
    for (let k = 0; k < size; k++) {
      const part = w * (targets[i * size + k]! - middle[k]!);
      for (let j = 0; j < d; j++) cross[k * d + j]! += part * row[j]!;
    }
  }
  addPrevious(spread, cross, previous, (0.5 * (d + 1)) / cloud.effective, d, dimensions, size);
  factorise(spread, d);
  for (let k = 0; k < size; k++) {
    solveLower(spread, d, cross, k * d);
    solveUpper(spread, d, cross, k * d);
  }
  return assembled(readings, cloud, cross, centre, middle, undefined);
}

/** Normals from which to draw: the best account of the readings, the same with wider noise, and the next likely slips. */
export function proposals(model: LinearModel): Component[] {
  const configurations = slipConfigurations(model);
  const best = configurations[0]!;
  const components = [
    component(model, best.slipped, 1.15, 0.55 * best.share),
    component(model, best.slipped, 4, 0.3 * best.share),
  ];
  for (const other of configurations.slice(1))
    components.push(component(model, other.slipped, 1.5, other.share));
  const total = components.reduce((sum, { share }) => sum + share, 0);
  return components.map((part) => ({ ...part, share: part.share / total }));
}

function addPrevious(
  spread: Float64Array,
  cross: Float64Array,
  previous: { readonly model: LinearModel; readonly component: Component },
  weight: number,
  d: number,
  dimensions: number,
  size: number,
): void {
  const covariance = inverseFromFactor(previous.component.factor, dimensions);
  for (let j = 0; j < d; j++)
    for (let l = 0; l <= j; l++) spread[j * d + l]! += weight * covariance[j * dimensions + l]!;
  for (let k = 0; k < size; k++)
    for (let j = 0; j < d; j++) {
      let sum = 0;
      for (let l = 0; l < d; l++)
        sum += previous.model.slope[k * dimensions + l]! * covariance[l * dimensions + j]!;
      cross[k * d + j]! += weight * sum;
    }
}

function assembled(
  readings: readonly PreparedReading[],
  cloud: Cloud,
  fitted: Float64Array,
  centre: Float64Array,
  middle: Float64Array,
  residual: Float64Array | undefined,
): LinearModel {
  const { dimensions, predictive: d, effective } = cloud;
  const size = readings.length;
  const slope = new Float64Array(size * dimensions);
  const intercept = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    let shift = 0;
    for (let j = 0; j < d; j++) {
      slope[k * dimensions + j] = fitted[k * d + j]!;
      shift += fitted[k * d + j]! * centre[j]!;
    }
    intercept[k] = middle[k]! - shift;
    const reading = readings[k]!;
    if (reading.form === 'number')
      for (let g = 0; g < reading.loading.length; g++) slope[k * dimensions + d + g] = reading.loading[g]!;
  }
  const lost = Math.min(3, effective / Math.max(effective - d - 1, effective / 3));
  const noise = residual ?? residualOf(cloud, size, slope, intercept);
  for (let at = 0; at < noise.length; at++) noise[at]! *= lost;
  for (let k = 0; k < size; k++) {
    const p = Math.min(1, Math.max(0, middle[k]!));
    noise[k * size + k]! += readings[k]!.form === 'number' ? readings[k]!.sd ** 2 : p * (1 - p) + 1e-3;
    for (let l = 0; l < k; l++) noise[l * size + k] = noise[k * size + l]!;
  }
  return { dimensions, readings, slope, intercept, noise };
}

/** Weighted second moment of what the line leaves, lower triangle. */
function residualOf(cloud: Cloud, size: number, slope: Float64Array, intercept: Float64Array): Float64Array {
  const { count, rows, dimensions, predictive: d, weights, targets } = cloud;
  const moment = new Float64Array(size * size);
  const gap = new Float64Array(size);
  for (let i = 0; i < count; i++) {
    const w = weights[i]!;
    if (w < 1e-12) continue;
    for (let k = 0; k < size; k++) {
      let sum = targets[i * size + k]! - intercept[k]!;
      for (let j = 0; j < d; j++) sum -= slope[k * dimensions + j]! * rows[i * dimensions + j]!;
      gap[k] = sum;
    }
    for (let k = 0; k < size; k++)
      for (let l = 0; l <= k; l++) moment[k * size + l]! += w * gap[k]! * gap[l]!;
  }
  return moment;
}

function component(
  model: LinearModel,
  slipped: ReadonlySet<number>,
  temper: number,
  share: number,
): Component {
  const { dimensions: n, readings, slope, intercept, noise } = model;
  const kept = readings.map((_, k) => k).filter((k) => !slipped.has(k));
  const size = kept.length;
  const factorNoise = new Float64Array(size * size);
  const white = new Float64Array(size * n);
  const gap = new Float64Array(size);
  kept.forEach((k, row) => {
    kept.forEach(
      (l, column) => (factorNoise[row * size + column] = temper * noise[k * readings.length + l]!),
    );
    for (let j = 0; j < n; j++) white[row * n + j] = slope[k * n + j]!;
    gap[row] = (readings[k]!.form === 'number' ? readings[k]!.value : 1) - intercept[k]!;
  });
  factorise(factorNoise, size);
  for (let j = 0; j < n; j++) solveLower(factorNoise, size, white, j, n);
  solveLower(factorNoise, size, gap);
  const factor = new Float64Array(n * n);
  const mean = new Float64Array(n);
  for (let j = 0; j < n; j++) factor[j * n + j] = 1;
  for (let row = 0; row < size; row++)
    for (let j = 0; j < n; j++) {
      const part = white[row * n + j]!;
      mean[j]! += part * gap[row]!;
      for (let l = 0; l <= j; l++) factor[j * n + l]! += part * white[row * n + l]!;
    }
  const halfLogDeterminant = factorise(factor, n);
  solveLower(factor, n, mean);
  solveUpper(factor, n, mean);
  return { mean, factor, halfLogDeterminant, share };
}
