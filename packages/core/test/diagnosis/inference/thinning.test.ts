/** Fewer weighted draws for the same evidence. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thinned } from '../../../src/diagnosis/inference/thinning.ts';

const clouds = fc.array(fc.double({ min: -30, max: 0, noNaN: true }), { minLength: 50, maxLength: 300 });

describe('thinning', () => {
  it('[law] as many draws as wanted, heavy ones as they were, the others alike, and a sum off by one of those at most', () => {
    fc.assert(
      fc.property(clouds, fc.integer({ min: 5, max: 40 }), (logs, wanted) => {
        const weights = logs.map(Math.exp);
        const { chosen, chance } = thinned(Float64Array.from(logs), wanted);
        expect(Math.abs(chosen.length - wanted)).toBeLessThanOrEqual(1);
        const after = chosen.map((i, k) => weights[i]! / chance[k]!);
        const alike = after.filter((_, k) => chance[k]! < 1);
        const limit = alike[0] ?? 0;
        for (const one of alike) expect(one / limit).toBeCloseTo(1, 9);
        // Every draw heavier than that was kept, with certainty.
        expect(weights.filter((one) => one > limit * (1 + 1e-9))).toHaveLength(chosen.length - alike.length);
        const sum = (list: readonly number[]): number => list.reduce((total, one) => total + one, 0);
        expect(Math.abs(sum(after) - sum(weights))).toBeLessThanOrEqual(0.5 * limit * (1 + 1e-9));
      }),
      { seed: 20 },
    );
  });

  it('[limit] draws that are few enough stay, those without weight do not', () => {
    const { chosen, chance } = thinned(Float64Array.of(-3, -Infinity, 0, -800), 10);
    expect(chosen).toEqual([0, 2]);
    expect([...chance]).toEqual([1, 1]);
  });
});
