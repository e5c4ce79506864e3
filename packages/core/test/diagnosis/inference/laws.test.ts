/** Laws that any posterior must keep, on a small curved model with six hypotheses. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createCache, posteriorGiven } from '../../../src/diagnosis/inference/index.ts';
import { normalDraws } from '../../../src/diagnosis/inference/draws.ts';
import type { Model, NumericReading, Reading } from '../../../src/diagnosis/inference/index.ts';

const offsets = [
  [0, 0, 0, 0],
  [3, 0, 0, 1],
  [0, 3, 0, 1],
  [0, 0, 3, 0],
  [3, 3, 0, 0],
  [-2, 0, 2, 0],
];
const priors = [0.3, 0.2, 0.2, 0.1, 0.1, 0.1];

/** Four numbers and one answer from six unknowns; `name` renames the hypotheses. */
function modelWith(name: readonly number[]): Model {
  return {
    dimensions: 6,
    observables: [
      ...[0, 1, 2, 3].map(() => ({ kind: 'numeric' as const, low: -15, high: 15 })),
      { kind: 'categorical', outcomes: 2 },
    ],
    predict(h, u, wanted, out) {
      const shift = offsets[name[h]!]!;
      let at = 0;
      for (const k of wanted) {
        if (k < 4) out[at++] = shift[k]! + 0.6 * u[k]! + 0.5 * u[4]! + 0.1 * u[5]! * u[k]!;
        else {
          const yes = 1 / (1 + Math.exp(-shift[0]! - u[5]!));
          out[at++] = 1 - yes;
          out[at++] = yes;
        }
      }
    },
  };
}

const model = modelWith([0, 1, 2, 3, 4, 5]);
const read = (observable: number, value: number, sigma = 0.2): NumericReading => ({
  kind: 'numeric',
  observable,
  value,
  sigma,
});
const answer: Reading = { kind: 'categorical', observable: 4, outcome: 1 };
const chances = (readings: readonly Reading[], seed = 1): Float64Array =>
  posteriorGiven(createCache(model, { seed }), priors, readings).posterior.probability;
const largestMove = (a: Float64Array, b: Float64Array): number =>
  Math.max(...a.map((p, h) => Math.abs(p - b[h]!)));
const entropyOf = (p: Float64Array): number => p.reduce((sum, x) => (x > 0 ? sum - x * Math.log(x) : sum), 0);

describe('posterior', () => {
  it('[law] the same input gives the same output, bit for bit', () => {
    const readings = [read(0, 1.4), read(1, 0.2), answer];
    expect(chances(readings)).toEqual(chances(readings));
  });

  it('[law] the order of entry, and readings taken before in the same cache, change nothing', () => {
    const readings = [read(0, 1.4), read(1, 0.2), answer, read(2, 0.1)];
    const cache = createCache(model, { seed: 1 });
    posteriorGiven(cache, priors, readings.slice(0, 2));
    posteriorGiven(cache, priors, readings.slice(0, 3));
    const late = posteriorGiven(cache, priors, readings.slice().reverse()).posterior.probability;
    expect(late).toEqual(chances(readings));
  });

  it('[law] renaming the hypotheses renames the chances and does nothing else', () => {
    const name = [4, 2, 0, 5, 1, 3];
    const readings = [read(0, 1.5), read(3, 0.6), answer];
    const plain = chances(readings);
    const renamed = posteriorGiven(
      createCache(modelWith(name)),
      name.map((h) => priors[h]!),
      readings,
    ).posterior.probability;
    // Only the order of summation differs.
    name.forEach((h, at) => expect(renamed[at]).toBeCloseTo(plain[h]!, 12));
  });

  it('[law] probabilities sum to 1, whatever is read', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 3 }), fc.double({ min: -14, max: 14, noNaN: true })), {
          maxLength: 8,
        }),
        (pairs) => {
          const p = chances(pairs.map(([k, value]) => read(k, value)));
          expect(p.every((x) => x >= 0 && x <= 1)).toBe(true);
          expect(p.reduce((sum, x) => sum + x, 0)).toBeCloseTo(1, 10);
        },
      ),
      { seed: 11, numRuns: 40 },
    );
  });

  it('[law] the same reading again by the same meter hardly moves the answer', () => {
    const same = { ...read(0, 1, 0.05), discrepancy: 0.2, shared: [{ group: 'meter', sigma: 1 }] };
    const fresh = read(0, 1, Math.hypot(0.05, 0.2, 1));
    const times = (reading: Reading, n: number): Float64Array =>
      chances([...new Array<Reading>(n).fill(reading), read(1, 0.1)]);
    // What moves is the chance of a slip (2 %) and a numerical error of about 0.01.
    expect(largestMove(times(same, 1), times(same, 2))).toBeLessThan(0.03);
    expect(largestMove(times(same, 1), times(same, 5))).toBeLessThan(0.03);
    const moved = largestMove(times(same, 1), times(same, 5));
    expect(largestMove(times(fresh, 1), times(fresh, 5))).toBeGreaterThan(2 * moved);
  });

  it('[law] a reading that all hypotheses predict alike moves nothing beyond numerical error', () => {
    const flat: Model = {
      ...model,
      observables: [...model.observables, { kind: 'numeric', low: -15, high: 15 }],
      predict(h, u, wanted, out) {
        model.predict(
          h,
          u,
          wanted.filter((k) => k < 5),
          out,
        );
        let at = 0;
        for (const k of wanted) at += k === 4 ? 2 : k === 5 ? 0 : 1;
        if (wanted.includes(5)) out[at] = u[3]!;
      },
    };
    const base = [read(0, 1.5), read(1, 0.2)];
    const before = posteriorGiven(createCache(flat), priors, base, { nothingFits: 0 });
    const after = posteriorGiven(createCache(flat), priors, [...base, read(5, 0, 0.5)], { nothingFits: 0 });
    const error = Math.max(...before.reliability.standardError, ...after.reliability.standardError);
    expect(largestMove(before.posterior.probability, after.posterior.probability)).toBeLessThan(4 * error);
  });

  it('[law] more noise never sharpens, on average over what may be read', () => {
    const means = [0.1, 0.5, 2].map((sigma) => {
      let sum = 0;
      for (let n = 0; n < 120; n++) {
        const h = n % 6;
        const u = normalDraws(50 + n, 3, 1, 6);
        const out = new Float64Array(4);
        modelWith([0, 1, 2, 3, 4, 5]).predict(h, u, [0, 1, 2, 3], out);
        const e = normalDraws(90 + n, 4, 1, 4);
        const readings = Array.from(out, (f, k) => ({ ...read(k, f + sigma * e[k]!, sigma), slip: 0.02 }));
        sum += entropyOf(
          posteriorGiven(createCache(model, { draws: 64 }), [1, 1, 1, 1, 1, 1], readings).posterior
            .probability,
        );
      }
      return sum / 120;
    });
    expect(means[0]!).toBeLessThan(means[1]!);
    expect(means[1]!).toBeLessThan(means[2]!);
  });

  it('[limit] readings far from every prediction, agreeing among themselves, go to "nothing fits"', () => {
    const odd = [read(0, 12, 0.1), read(1, -12, 0.1), read(2, 12, 0.1), read(3, -12, 0.1)];
    expect(chances(odd)[6]).toBeGreaterThan(0.9);
    expect(chances([read(0, 0.2), read(1, 0.1), read(2, 0), read(3, 0)])[6]).toBeLessThan(0.01);
  });

  it('[limit] one slip among four good readings does not overturn them', () => {
    const good = [read(0, 0.2), read(1, 0.1), read(2, 0.1)];
    expect(chances([...good, read(3, 9)])[0]).toBeGreaterThan(0.5);
  });

  it('[rival] dropping hopeless hypotheses moves no probability by more than the bound stated', () => {
    const readings = [read(0, 0.4, 0.02), read(1, 0.2, 0.02), read(2, 0.3, 0.02), read(3, 0.3, 0.02)];
    const kept = posteriorGiven(createCache(model), priors, readings, { dropBelow: 0 });
    const cut = posteriorGiven(createCache(model), priors, readings, { dropBelow: 1e-2 });
    const error = Math.max(...kept.reliability.standardError, ...cut.reliability.standardError);
    expect(cut.reliability.dropped.length).toBeGreaterThan(0);
    expect(largestMove(kept.posterior.probability, cut.posterior.probability)).toBeLessThan(
      cut.reliability.droppedBound + 3 * error,
    );
  });

  it('[limit] a caller’s mistakes are named', () => {
    expect(() => chances([read(9, 1)])).toThrow(RangeError);
    expect(() => chances([read(0, 1, 0)])).toThrow(/sigma = 0/);
    expect(() => posteriorGiven(createCache(model), [0, 0], [])).toThrow(/priors sum to 0/);
  });
});
