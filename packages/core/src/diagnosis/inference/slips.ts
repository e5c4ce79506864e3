/** Which readings look like slips, judged by a linear model of the predictions. */
import { factorise, inverseFromFactor } from './matrix.ts';
import { logRootTwoPi } from './normal.ts';
import type { LinearModel } from './linear-model.ts';

/** A set of readings taken for slips, its log evidence, and its share among those kept. */
export interface Configuration {
  readonly slipped: ReadonlySet<number>;
  readonly score: number;
  readonly share: number;
}

/** The most credible sets of at most three slips, best first, at most three, with their shares.
 *  Grown one slip at a time, from N(y; a, B Bᵀ + R) and its conditionals. */
export function slipConfigurations(model: LinearModel): Configuration[] {
  const { readings } = model;
  const found: { slipped: Set<number>; score: number }[] = [];
  let slipped = new Set<number>();
  for (let depth = 0; depth <= 3; depth++) {
    const kept = readings.map((_, k) => k).filter((k) => !slipped.has(k));
    const { logDensity, alone } = marginal(model, kept);
    let fixed = 0;
    for (const k of slipped) fixed += Math.log(readings[k]!.slipDensity);
    for (const k of kept) if (readings[k]!.form === 'number') fixed += readings[k]!.trust;
    if (depth === 0) found.push({ slipped: new Set(), score: logDensity + fixed });
    let best: { slipped: Set<number>; score: number } | undefined;
    kept.forEach((k, at) => {
      const reading = readings[k]!;
      if (reading.form !== 'number' || reading.slipDensity === 0) return;
      const score = logDensity + fixed - alone[at]! - reading.trust + Math.log(reading.slipDensity);
      const next = { slipped: new Set(slipped).add(k), score };
      found.push(next);
      if (best === undefined || score > best.score) best = next;
    });
    if (best === undefined || (depth > 0 && best.score < found[0]!.score - 8)) break;
    slipped = best.slipped;
  }
  found.sort((a, b) => b.score - a.score);
  const top = found[0]!.score;
  const near = found.filter(({ score }) => score > top - 3.5).slice(0, 3);
  const sum = near.reduce((total, { score }) => total + Math.exp(score - top), 0);
  return near.map(({ slipped: set, score }) => ({ slipped: set, score, share: Math.exp(score - top) / sum }));
}

/** Log evidence of the numbers under the linear model, slips included; answers and bounds are left out. */
export function linearLogEvidence(model: LinearModel): number {
  const configurations = slipConfigurations(model);
  const top = configurations[0]!.score;
  return top + Math.log(configurations.reduce((sum, { score }) => sum + Math.exp(score - top), 0));
}

/** Log density of the numbers kept, and of each of them given the others. */
function marginal(model: LinearModel, kept: readonly number[]): { logDensity: number; alone: Float64Array } {
  const { dimensions: n, readings, slope, intercept, noise } = model;
  const numbers = kept.filter((k) => readings[k]!.form === 'number');
  const size = numbers.length;
  const covariance = new Float64Array(size * size);
  const gap = new Float64Array(size);
  numbers.forEach((k, row) => {
    gap[row] = readings[k]!.value - intercept[k]!;
    for (let column = 0; column <= row; column++) {
      const l = numbers[column]!;
      let sum = noise[k * readings.length + l]!;
      for (let j = 0; j < n; j++) sum += slope[k * n + j]! * slope[l * n + j]!;
      covariance[row * size + column] = sum;
    }
  });
  const halfLogDeterminant = factorise(covariance, size);
  const inverse = inverseFromFactor(covariance, size);
  const alone = new Float64Array(kept.length);
  let logDensity = -halfLogDeterminant - size * logRootTwoPi;
  numbers.forEach((k, row) => {
    let pull = 0;
    for (let column = 0; column < size; column++) pull += inverse[row * size + column]! * gap[column]!;
    logDensity -= 0.5 * pull * gap[row]!;
    const precision = inverse[row * size + row]!;
    alone[kept.indexOf(k)] = (-0.5 * (pull * pull)) / precision + 0.5 * Math.log(precision) - logRootTwoPi;
  });
  return { logDensity, alone };
}
