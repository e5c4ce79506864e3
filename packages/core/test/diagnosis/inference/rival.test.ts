/** Curved and broken predictions in one and two unknowns, against a dense grid. */
import { describe, expect, it } from 'vitest';
import { createCache } from '../../../src/diagnosis/inference/cache.ts';
import { convergedEvidence, startEvidence } from '../../../src/diagnosis/inference/evidence.ts';
import { logEvidenceOf, reliabilityOf } from '../../../src/diagnosis/inference/reliability.ts';
import { preparedEvidence } from '../../../src/diagnosis/inference/likelihood.ts';
import type { Model, Reading } from '../../../src/diagnosis/inference/types.ts';

type Predictor = (x: number, y: number) => number[];

function modelOf(predictor: Predictor, size: number): Model {
  return {
    dimensions: 2,
    observables: Array.from({ length: size }, () => ({ kind: 'numeric', low: -50, high: 50 })),
    predict(_, u, wanted, out) {
      const all = predictor(u[0]!, u[1]!);
      wanted.forEach((k, at) => (out[at] = all[k]!));
    },
  };
}

/** Log evidence on a grid of 1601 × 1601 points over ±7, with slips of density 0.02/100. */
function gridLogEvidence(predictor: Predictor, values: number[], sigma: number): number {
  const step = 14 / 1600;
  let total = 0;
  for (let i = 0; i <= 1600; i++)
    for (let j = 0; j <= 1600; j++) {
      const [x, y] = [-7 + i * step, -7 + j * step];
      let p = (Math.exp(-0.5 * (x * x + y * y)) / (2 * Math.PI)) * step * step;
      if (p < 1e-14) continue;
      predictor(x, y).forEach((f, k) => {
        const z = (values[k]! - f) / sigma;
        p *= (0.98 * Math.exp(-0.5 * z * z)) / (sigma * Math.sqrt(2 * Math.PI)) + 0.0002;
      });
      total += p;
    }
  return Math.log(total);
}

const cases: { name: string; predictor: Predictor; values: number[]; sigma: number }[] = [
  {
    name: 'a bent curve',
    predictor: (x, y) => [x * x + y, Math.exp(0.5 * x)],
    values: [1.5, 1.6],
    sigma: 0.1,
  },
  { name: 'a ring', predictor: (x, y) => [Math.hypot(x, y)], values: [1.5], sigma: 0.05 },
  {
    name: 'a switch that is on or off',
    predictor: (x, y) => [x > 0.8 ? 10 + y : y, y],
    values: [10.4, 0.3],
    sigma: 0.1,
  },
  { name: 'a rare regime', predictor: (x, y) => [x > 2 ? 10 + y : y, y], values: [10.4, 0.3], sigma: 0.1 },
  { name: 'two readings at odds', predictor: (x, y) => [x, x + 0.01 * y], values: [0.2, 3.1], sigma: 0.05 },
  {
    name: 'a slip among four',
    predictor: (x, y) => [x, y, x + y, x - y],
    values: [0.5, 0.4, 0.9, 8],
    sigma: 0.05,
  },
  {
    name: 'a narrow fit that slips hide',
    predictor: (x, y) => [x + 0.1 * y, x + 0.1 * y, y],
    values: [2.5, 2.5, 0.1],
    sigma: 0.03,
  },
  {
    name: 'a kink',
    predictor: (x, y) => [Math.max(0, x + y), Math.max(0, x - y)],
    values: [0, 1.2],
    sigma: 0.05,
  },
];

describe('two unknowns', () => {
  for (const { name, predictor, values, sigma } of cases)
    it(`[rival] sampling equals a dense grid: ${name}`, () => {
      const known = gridLogEvidence(predictor, values, sigma);
      const model = modelOf(predictor, values.length);
      const readings: Reading[] = values.map((value, observable) => ({
        kind: 'numeric',
        observable,
        value,
        sigma,
      }));
      const evidence = preparedEvidence(model.observables, readings);
      for (const seed of [1, 2, 3, 4]) {
        const state = convergedEvidence(startEvidence(createCache(model, { seed }), 0, evidence));
        const { standardError } = reliabilityOf(state);
        // Four standard errors: one failure in 16 000 if the error means what it says.
        expect(Math.abs(logEvidenceOf(state) - known)).toBeLessThan(4 * standardError);
        expect(standardError).toBeLessThan(0.25);
      }
    });
});
