/** Cases with an exact answer: linear predictions, normal errors, no slips.
 *    y = a + B u + ε,  u ~ N(0, I):   y ~ N(a, B Bᵀ + R),   E u = Bᵀ (B Bᵀ + R)⁻¹ (y − a)
 *  Source: [BISHOP2006, eq. 2.115 and 2.116]
 */
import { describe, expect, it } from 'vitest';
import { carriedEvidence } from '../../../src/diagnosis/inference/carried.ts';
import { createCache } from '../../../src/diagnosis/inference/cache.ts';
import {
  convergedEvidence,
  startEvidence,
  weightedDraws,
} from '../../../src/diagnosis/inference/evidence.ts';
import { logEvidenceOf, reliabilityOf } from '../../../src/diagnosis/inference/reliability.ts';
import { preparedEvidence } from '../../../src/diagnosis/inference/likelihood.ts';
import { normalDraws } from '../../../src/diagnosis/inference/draws.ts';
import type { Evidence } from '../../../src/diagnosis/inference/likelihood.ts';
import type { Model, Reading } from '../../../src/diagnosis/inference/types.ts';

interface Linear {
  readonly model: Model;
  readonly slope: Float64Array;
  readonly dimensions: number;
  readonly size: number;
}

function linearCase(dimensions: number, size: number, seed: number): Linear {
  const slope = normalDraws(seed, 99, size, dimensions);
  const model: Model = {
    dimensions,
    observables: Array.from({ length: size }, () => ({ kind: 'numeric', low: -50, high: 50 })),
    predict(_, u, wanted, out) {
      wanted.forEach((k, at) => {
        let sum = k;
        for (let j = 0; j < dimensions; j++) sum += slope[k * dimensions + j]! * u[j]!;
        out[at] = sum;
      });
    },
  };
  return { model, slope, dimensions, size };
}

/** Log evidence and mean of u by Gaussian elimination on B Bᵀ + R: plain, and not the code under test. */
function exact(
  linear: Linear,
  gap: number[],
  covarianceOfErrors: number[][],
): { logEvidence: number; mean: number[] } {
  const { slope, dimensions: d, size: n } = linear;
  const a = gap.map((g, k) => {
    const row = gap.map((_, l) => {
      let sum = covarianceOfErrors[k]![l]!;
      for (let j = 0; j < d; j++) sum += slope[k * d + j]! * slope[l * d + j]!;
      return sum;
    });
    return [...row, g];
  });
  let logDeterminant = 0;
  for (let k = 0; k < n; k++) {
    logDeterminant += Math.log(a[k]![k]!);
    for (let l = 0; l < n; l++) {
      if (l === k) continue;
      const factor = a[l]![k]! / a[k]![k]!;
      for (let c = k; c <= n; c++) a[l]![c]! -= factor * a[k]![c]!;
    }
  }
  const solved = a.map((row, k) => row[n]! / row[k]!);
  const square = gap.reduce((sum, g, k) => sum + g * solved[k]!, 0);
  const mean = Array.from({ length: d }, (_, j) =>
    solved.reduce((sum, x, k) => sum + slope[k * d + j]! * x, 0),
  );
  return { logEvidence: -0.5 * (square + logDeterminant + n * Math.log(2 * Math.PI)), mean };
}

const diagonal = (n: number, x: number, off = 0): number[][] =>
  Array.from({ length: n }, (_, k) => Array.from({ length: n }, (_, l) => (k === l ? x : off)));

describe('linear predictions', () => {
  it('[BISHOP2006, eq. 2.115] readings that come one after another, two of them with a common error: log evidence', () => {
    for (const seed of [1, 2, 3, 4]) {
      const [dimensions, size, sigma, common] = [10, 10, 0.2, 0.4];
      const linear = linearCase(dimensions, size, seed);
      const out = new Float64Array(size);
      linear.model.predict(0, normalDraws(seed, 7, 1, dimensions), [...out.keys()], out);
      const noise = normalDraws(seed, 8, 1, size);
      // The fifth and the eighth reading are those of one meter: the error becomes common with the eighth.
      const isMeter = (k: number): boolean => k === 4 || k === 7;
      const values = Array.from(out, (f, k) => f + sigma * noise[k]! + (isMeter(k) ? 0.3 : 0));
      const readings: Reading[] = values.map((value, k) => ({
        kind: 'numeric',
        observable: k,
        value,
        sigma,
        slip: 0,
        shared: isMeter(k) ? [{ group: 'meter', sigma: common }] : [],
      }));
      const cache = createCache(linear.model, { seed });
      const prepared = (count: number): Evidence =>
        preparedEvidence(linear.model.observables, readings.slice(0, count));
      let state = convergedEvidence(startEvidence(cache, 0, prepared(1)));
      for (let count = 2; count <= size; count++)
        state = convergedEvidence(carriedEvidence(state, prepared(count), 200));
      const covariance = diagonal(size, sigma * sigma).map((row, k) =>
        row.map((x, l) => x + (isMeter(k) && isMeter(l) ? common * common : 0)),
      );
      const known = exact(
        linear,
        values.map((value, k) => value - k),
        covariance,
      );
      const { standardError } = reliabilityOf(state);
      expect(standardError).toBeLessThan(0.12);
      expect(Math.abs(logEvidenceOf(state) - known.logEvidence)).toBeLessThan(4 * standardError);
    }
  });

  for (const [dimensions, size, sigma] of [
    [1, 1, 0.5],
    [2, 3, 0.05],
    [8, 6, 0.01],
    [20, 12, 0.3],
    [20, 12, 0.001],
    [20, 30, 0.01],
    [30, 12, 0.01],
  ] as const) {
    it(`[BISHOP2006, eq. 2.115] ${dimensions} unknowns, ${size} readings of sigma ${sigma}: log evidence and mean`, () => {
      for (const seed of [1, 2, 3]) {
        const linear = linearCase(dimensions, size, seed);
        const truth = normalDraws(seed, 7, 1, dimensions);
        const out = new Float64Array(size);
        linear.model.predict(0, truth, [...out.keys()], out);
        const noise = normalDraws(seed, 8, 1, size);
        const readings: Reading[] = Array.from(out, (f, k) => ({
          kind: 'numeric',
          observable: k,
          value: f + sigma * noise[k]!,
          sigma,
          slip: 0,
        }));
        const known = exact(
          linear,
          Array.from(out, (f, k) => f + sigma * noise[k]! - k),
          diagonal(size, sigma * sigma),
        );
        const cache = createCache(linear.model, { seed });
        const state = convergedEvidence(
          startEvidence(cache, 0, preparedEvidence(linear.model.observables, readings)),
        );
        const { standardError, effectiveDraws } = reliabilityOf(state);
        expect(standardError).toBeLessThan(0.12);
        expect(Math.abs(logEvidenceOf(state) - known.logEvidence)).toBeLessThan(4 * standardError);
        const draws = weightedDraws(state);
        for (let j = 0; j < dimensions; j++) {
          let [mean, square] = [0, 0];
          for (let i = 0; i < draws.count; i++) {
            const x = draws.rows[i * draws.rowLength + j]!;
            mean += draws.weights[i]! * x;
            square += draws.weights[i]! * x * x;
          }
          const error = Math.sqrt(Math.max(0, square - mean * mean) / effectiveDraws);
          expect(Math.abs(mean - known.mean[j]!)).toBeLessThan(4.5 * error + 1e-9);
        }
      }
    });
  }
});
