/** The tail of a model's error: a normal with a wider one beside it. */
import { describe, expect, it } from 'vitest';
import { addLogLikelihood, preparedEvidence } from '../../../src/diagnosis/inference/likelihood.ts';
import { tailChance, type NumericReading } from '../../../src/diagnosis/inference/types.ts';

const reading: NumericReading = { kind: 'numeric', observable: 0, value: 0, sigma: 1, slip: 0 };

function logLikelihood(read: NumericReading, prediction: number): number {
  const { readings } = preparedEvidence([{ kind: 'numeric', low: -100, high: 100 }], [read]);
  const total = new Float64Array(1);
  addLogLikelihood(readings[0]!, Float64Array.of(prediction), new Float64Array(0), total);
  return total[0]!;
}

describe('tail of an error', () => {
  it('[law] is a density: sums to one over all predictions', () => {
    let sum = 0;
    // Trapezoids of 0.05 over 16 wide errors each way: exact to rounding for normals.
    for (let k = -1000; k <= 1000; k++)
      sum += 0.05 * Math.exp(logLikelihood({ ...reading, tail: 3 }, 0.05 * k));
    expect(sum).toBeCloseTo(1, 9);
  });

  it('[limit] without one the density is normal, with one of no width too', () => {
    for (const gap of [0, 1, 3]) {
      const normal = -0.5 * gap * gap - 0.5 * Math.log(2 * Math.PI);
      expect(logLikelihood(reading, gap)).toBeCloseTo(normal, 12);
      expect(logLikelihood({ ...reading, tail: 1e-9 }, gap)).toBeCloseTo(normal, 12);
    }
  });

  it('[limit] far out the wide part alone is left', () => {
    const wide = Math.hypot(1, 3);
    const expected = Math.log(tailChance) - 0.5 * (10 / wide) ** 2 - Math.log(wide * Math.sqrt(2 * Math.PI));
    expect(logLikelihood({ ...reading, tail: 3 }, 10)).toBeCloseTo(expected, 9);
  });
});
