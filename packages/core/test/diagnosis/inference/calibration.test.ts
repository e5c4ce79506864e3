/** Probabilities that mean what they say: 1000 cases drawn from the model itself, slips and common meter error included. */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { expect, it } from 'vitest';
import { normalQuantile } from '../../../src/diagnosis/inference/normal.ts';
import { createCache, posteriorGiven, posteriorQuantiles } from '../../../src/diagnosis/inference/index.ts';
import type { Model, Reading } from '../../../src/diagnosis/inference/index.ts';

const size = 8;
const priors = [0.3, 0.2, 0.15, 0.1, 0.1, 0.05, 0.05, 0.05];
const model: Model = {
  dimensions: 8,
  observables: [
    ...[0, 1, 2, 3, 4].map(() => ({ kind: 'numeric' as const, low: -12, high: 12 })),
    { kind: 'categorical', outcomes: 3 },
  ],
  predict(h, u, wanted, out) {
    let at = 0;
    for (const k of wanted) {
      if (k < 5) {
        const own = (h >> (k % 3)) & 1 ? 1.6 * Math.exp(0.5 * u[7]!) : 0;
        const late = h === 5 && u[6]! > 0.3 && k === 2 ? 4 : 0;
        out[at++] = own + late + 0.7 * u[k]! + 0.4 * u[5]! + 0.2 * u[5]! * u[k]!;
      } else {
        const a = 1 / (1 + Math.exp(2 - (h & 3) - u[6]!));
        out[at++] = a;
        out[at++] = (1 - a) * 0.6;
        out[at++] = (1 - a) * 0.4;
      }
    }
  },
};

it('[law] over 1000 cases drawn from the model (seed 20), chances and intervals are calibrated', () => {
  const generator = xoroshiro128plus(20);
  const uniform = (): number => Math.max(1e-12, uniformFloat64(generator));
  const normal = (): number => normalQuantile(Math.min(1 - 1e-12, uniform()));
  const cache = createCache(model, { seed: 3, draws: 128 });
  const bins = Array.from({ length: 10 }, () => ({ count: 0, said: 0, came: 0 }));
  const cases = 1000;
  let inside = 0;
  for (let n = 0; n < cases; n++) {
    let [truth, left] = [0, uniform()];
    while (truth < size - 1 && left > priors[truth]!) left -= priors[truth++]!;
    const u = Float64Array.from({ length: 8 }, normal);
    const meter = normal();
    const out = new Float64Array(8);
    model.predict(truth, u, [0, 1, 2, 3, 4, 5], out);
    const readings: Reading[] = [];
    for (let k = 0; k < 5; k++) {
      if (uniform() < 0.3) continue;
      const value = uniform() < 0.02 ? -12 + 24 * uniform() : out[k]! + 0.2 * normal() + 0.3 * meter;
      readings.push({
        kind: 'numeric',
        observable: k,
        value,
        sigma: 0.2,
        shared: [{ group: 'meter', sigma: 0.3 }],
      });
    }
    let [outcome, rest] = [0, uniform()];
    while (outcome < 2 && rest > 0.98 * out[5 + outcome]! + 0.02 / 3)
      rest -= 0.98 * out[5 + outcome++]! + 0.02 / 3;
    readings.push({ kind: 'categorical', observable: 5, outcome });
    const { posterior } = posteriorGiven(cache, priors, readings, {
      nothingFits: 0,
      evidence: {
        refineDraws: 64,
        maximumRounds: 4,
        leaderRounds: 4,
        leaderFrom: 1,
        wantedError: 0.2,
        mostError: 0.5,
        wantedEffective: 30,
        carried: [],
      },
    });
    for (let h = 0; h < size; h++) {
      const p = posterior.probability[h]!;
      const bin = bins[Math.min(9, Math.floor(10 * p))]!;
      bin.count++;
      bin.said += p;
      bin.came += h === truth ? 1 : 0;
    }
    const [low, high] = posteriorQuantiles(posterior, (_, v) => v[5]!, [0.05, 0.95]);
    if (u[5]! >= low! && u[5]! <= high!) inside++;
  }
  const error = bins.reduce((sum, { said, came }) => sum + Math.abs(said - came), 0) / (cases * size);
  // Chance alone gives about 0.007 with 8000 pairs in ten bins: Σ √(p(1−p)n) · 0.8 / 8000.
  expect(error).toBeLessThan(0.015);
  // 900 expected, standard deviation 9.5; three of them, and 2 % because about 30 effective draws give too narrow an interval:
  // 860 come out inside here, 893 with the default options, which take twice as long.
  expect(Math.abs(inside / cases - 0.9)).toBeLessThan(0.03 + 0.02);
  for (const { count, said, came } of bins)
    if (count > 50) expect(Math.abs(came - said)).toBeLessThan(4 * Math.sqrt(said * (1 - said / count) + 1));
});
