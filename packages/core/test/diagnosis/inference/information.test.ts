/** Expected information against exact values, and its laws. */
import { describe, expect, it } from 'vitest';
import {
  createCache,
  gainPerMinute,
  informationOf,
  posteriorGiven,
  posteriorMean,
  posteriorQuantiles,
  posteriorSample,
  sampleColumns,
  weightedQuantiles,
} from '../../../src/diagnosis/inference/index.ts';
import { normalCumulative, normalQuantile } from '../../../src/diagnosis/inference/normal.ts';
import type { Candidate, CandidateInformation, Model } from '../../../src/diagnosis/inference/index.ts';

/** Two hypotheses: a number at −gap/2 or +gap/2 with spread, and an answer with given chances. */
function modelOf(gap: number, spread: number, answers: readonly (readonly number[])[]): Model {
  return {
    dimensions: 3,
    observables: [
      { kind: 'numeric', low: -100, high: 100 },
      { kind: 'categorical', outcomes: answers[0]!.length },
      { kind: 'numeric', low: -100, high: 100 },
    ],
    predict(h, u, wanted, out) {
      let at = 0;
      for (const k of wanted) {
        if (k === 0) out[at++] = (h - 0.5) * gap + spread * u[0]!;
        else if (k === 2) out[at++] = u[1]!;
        else for (const p of answers[h]!) out[at++] = p;
      }
    },
  };
}

function informationFor(model: Model, candidate: Candidate, priors = [0.5, 0.5]): CandidateInformation {
  const { posterior } = posteriorGiven(createCache(model), priors, [], { nothingFits: 0 });
  const sample = posteriorSample(posterior, { perHypothesis: 48 });
  const column = sampleColumns(model, sample, [candidate.observable]).get(candidate.observable)!;
  return informationOf(model.observables, sample, column, candidate);
}

/** Mutual information of a fair coin and N(±gap/2, sd²), by Simpson's rule with 4001 points [nat]. */
function exactGain(gap: number, sd: number): number {
  const [from, steps] = [-gap / 2 - 8 * sd, 4000];
  const h = (gap + 16 * sd) / steps;
  const density = (y: number, m: number): number =>
    Math.exp(-0.5 * ((y - m) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const y = from + i * h;
    const [a, b] = [density(y, -gap / 2), density(y, gap / 2)];
    const f =
      0.5 * (a > 0 ? a * Math.log((2 * a) / (a + b)) : 0) +
      0.5 * (b > 0 ? b * Math.log((2 * b) / (a + b)) : 0);
    sum += f * (i === 0 || i === steps ? 1 : i % 2 ? 4 : 2);
  }
  return (sum * h) / 3;
}

describe('information of a candidate', () => {
  const fair = [
    [0.5, 0.5],
    [0.5, 0.5],
  ];
  for (const [gap, spread, sigma] of [
    [2, 0, 1],
    [2, 0.8, 0.6],
    [1, 1, 0.3],
    [5, 1, 0.1],
  ] as const)
    it(`[LINDLEY1956, definition] two normals ${gap} apart, spread ${spread}, sigma ${sigma}: equals the integral`, () => {
      const { gain } = informationFor(modelOf(gap, spread, fair), { observable: 0, sigma, slip: 0 });
      // 48 smoothed draws per hypothesis and 40 cells: a few hundredths of a nat.
      expect(Math.abs(gain - exactGain(gap, Math.hypot(spread, sigma)))).toBeLessThan(0.03);
    });

  it('[limit] ten hypotheses that predict one spread alike tell nothing, though a dozen draws of each fall differently', () => {
    const alike: Model = {
      dimensions: 10,
      observables: [{ kind: 'numeric', low: -100, high: 100 }],
      predict: (h, u, _, out) => {
        out[0] = u[h]!;
      },
    };
    const seeds = Array.from({ length: 40 }, (_, k) => k + 1);
    const gains = seeds.map((seed) => {
      const cache = createCache(alike, { seed, draws: 64 });
      const { posterior } = posteriorGiven(cache, Array<number>(10).fill(0.1), [], { nothingFits: 0 });
      const sample = posteriorSample(posterior, { perHypothesis: 12 });
      const column = sampleColumns(alike, sample, [0]).get(0)!;
      return informationOf(alike.observables, sample, column, { observable: 0, sigma: 0.1, slip: 0 }).gain;
    });
    // The plain sum over the cells says 0.1 nat.
    expect(gains.reduce((sum, gain) => sum + gain, 0) / gains.length).toBeLessThan(0.02);
  });

  it('[limit] a number that all hypotheses predict alike tells nothing', () => {
    expect(informationFor(modelOf(2, 0, fair), { observable: 2, sigma: 0.1 }).gain).toBeLessThan(0.01);
  });

  it('[LINDLEY1956, definition] an answer: binary symmetric channel, ln 2 − H(0.1)', () => {
    const model = modelOf(0, 0, [
      [0.9, 0.1],
      [0.1, 0.9],
    ]);
    const { gain, outcomes } = informationFor(model, { observable: 1, slip: 0 });
    const exact = Math.log(2) + 0.9 * Math.log(0.9) + 0.1 * Math.log(0.1);
    expect(gain).toBeCloseTo(exact, 10);
    expect(outcomes.map(({ answer }) => answer)).toEqual([0, 1]);
    expect(outcomes[0]!.posterior[0]).toBeCloseTo(0.9, 10);
  });

  it('[law] outcomes share the whole chance, and their posteriors average to the chances before', () => {
    const model = modelOf(3, 0.7, fair);
    for (const candidate of [
      { observable: 0, sigma: 0.2 },
      { observable: 0, sigma: 0.2, band: [-2, 0] as const },
    ]) {
      const { outcomes } = informationFor(model, candidate, [0.3, 0.7]);
      expect(outcomes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 10);
      expect(outcomes.reduce((sum, o) => sum + o.probability * o.posterior[0]!, 0)).toBeCloseTo(0.3, 6);
    }
  });

  it('[law] parts of the draws add up to the outcome; what the others say keeps the chances of the hypotheses', () => {
    const { outcomes } = informationFor(modelOf(2, 0.7, fair), { observable: 0, sigma: 0.4 }, [0.3, 0.7]);
    const parts = outcomes.map((one) => one.parts!);
    for (const h of [0, 1]) {
      outcomes.forEach(({ probability, posterior }, o) =>
        expect(parts[o]!.reduce((sum, { own }) => sum + own[h]!, 0)).toBeCloseTo(
          probability * posterior[h]!,
          10,
        ),
      );
      for (let part = 0; part < parts[0]!.length; part++)
        expect(parts.reduce((sum, one) => sum + one[part]!.others[h]!, 0)).toBeCloseTo(
          h === 0 ? 0.3 : 0.7,
          6,
        );
    }
  });

  it('[law] a band gives three outcomes: below, within, above', () => {
    const { outcomes } = informationFor(modelOf(3, 0.1, fair), { observable: 0, sigma: 0.2, band: [-2, 0] });
    expect(outcomes.map(({ low, high }) => [low, high])).toEqual([
      [-Infinity, -2],
      [-2, 0],
      [0, Infinity],
    ]);
    expect(outcomes[2]!.posterior[1]).toBeGreaterThan(0.95);
  });

  it('[law] more noise never tells more', () => {
    const model = modelOf(2, 0.3, fair);
    const gains = [0.1, 0.4, 1, 3].map((sigma) => informationFor(model, { observable: 0, sigma }).gain);
    gains.slice(1).forEach((gain, i) => expect(gain).toBeLessThan(gains[i]! + 0.01));
  });

  it('[limit] minutes and risk divide the gain', () => {
    expect(gainPerMinute(0.6, 2, 1)).toBeCloseTo(0.2, 12);
    expect(() => gainPerMinute(0.6, 0)).toThrow(RangeError);
  });
});

describe('posterior of a function', () => {
  it('[BISHOP2006, eq. 2.116] mean and 90 % interval after a reading of a normal unknown', () => {
    const model = modelOf(0, 1, [
      [1, 0],
      [1, 0],
    ]);
    const { posterior } = posteriorGiven(
      createCache(model, { draws: 512 }),
      [0.5, 0.5],
      [{ kind: 'numeric', observable: 0, value: 1, sigma: 0.5, slip: 0 }],
      { nothingFits: 0 },
    );
    // Posterior N(0.8, 0.2); about 200 effective draws: three standard errors of the mean are 0.09.
    expect(Math.abs(posteriorMean(posterior, (_, u) => u[0]!) - 0.8)).toBeLessThan(0.09);
    const [low, high] = posteriorQuantiles(posterior, (_, u) => u[0]!, [0.05, 0.95]);
    expect(Math.abs(low! - (0.8 - 1.6449 * Math.sqrt(0.2)))).toBeLessThan(0.15);
    expect(Math.abs(high! - (0.8 + 1.6449 * Math.sqrt(0.2)))).toBeLessThan(0.15);
  });

  it('[limit] the median of equal weights is the middle value', () => {
    expect(weightedQuantiles([5, 1, 3], [1, 1, 1], [0.5])).toEqual([3]);
  });
});

describe('normal distribution', () => {
  it('[tables of the normal distribution, from memory] 0.975 at 1.959964, 1e-9 at −5.997807', () => {
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 12);
    expect(normalQuantile(1e-9)).toBeCloseTo(-5.997807015, 8);
    expect(normalCumulative(1)).toBeCloseTo(0.8413447460685429, 13);
  });
  it('[law] cumulative undoes quantile', () => {
    // The source states absolute errors of about 1e-15.
    for (const p of [1e-12, 1e-6, 0.01, 0.3, 0.5, 0.9, 0.999999])
      expect(Math.abs(normalCumulative(normalQuantile(p)) - p)).toBeLessThan(1e-14);
  });
});
