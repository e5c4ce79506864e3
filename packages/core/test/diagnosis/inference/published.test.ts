/** Answers published elsewhere, or computed from published inputs by a rule that is not ours. */
import { describe, expect, it } from 'vitest';
import {
  costOfActions,
  entropyCost,
  greedyActions,
  greedyInformation,
  lookAhead,
  networkPosterior,
  optimalPolicy,
  policyCost,
} from '../../../src/diagnosis/inference/index.ts';
import type { CheckProblem } from '../../../src/diagnosis/inference/index.ts';

/** Tables of Lauritzen and Spiegelhalter, JRSS-B 50(2) 1988: A, S, T, L, B, E, X, D. */
const asia = [
  { parents: [], chanceOfYes: [0.01] },
  { parents: [], chanceOfYes: [0.5] },
  { parents: [0], chanceOfYes: [0.01, 0.05] },
  { parents: [1], chanceOfYes: [0.01, 0.1] },
  { parents: [1], chanceOfYes: [0.3, 0.6] },
  { parents: [2, 3], chanceOfYes: [0, 1, 1, 1] },
  { parents: [5], chanceOfYes: [0.05, 0.98] },
  { parents: [5, 4], chanceOfYes: [0.1, 0.8, 0.7, 0.9] },
];
const [A, X, D] = [0, 6, 7];

describe('small network', () => {
  const rows: [string, [number, boolean][], number[]][] = [
    ['nothing', [], [0.0104, 0.055, 0.45, 0.064828, 0.11029, 0.435971]],
    [
      'A, D',
      [
        [A, true],
        [D, true],
      ],
      [0.087751, 0.099525, 0.811402, 0.1823, 0.219539, 1],
    ],
    [
      'A, D, X',
      [
        [A, true],
        [D, true],
        [X, true],
      ],
      [0.391712, 0.444271, 0.628822, 0.813769, 1, 1],
    ],
    [
      'A, D, not X',
      [
        [A, true],
        [D, true],
        [X, false],
      ],
      [0.002249, 0.00255, 0.862761, 0.004672, 0, 1],
    ],
    [
      'D, X',
      [
        [D, true],
        [X, true],
      ],
      [0.113933, 0.621253, 0.681869, 0.728725, 1, 1],
    ],
  ];
  for (const [name, known, expected] of rows)
    it(`[LAURITZEN1988, tables] posterior given ${name}`, () => {
      const chances = networkPosterior(asia, new Map(known));
      // The listed values have six digits.
      expected.forEach((value, k) => expect(Math.abs(chances[k + 2]! - value)).toBeLessThan(5.1e-7));
    });
});

describe('actions that may cure', () => {
  const chances = [0.8, 0.15, 0.05];
  const actions = [
    { cost: 1, cure: [1, 0, 0] },
    { cost: 2, cure: [0, 0.95, 0] },
    { cost: 25, cure: [0.99, 0.99, 0] },
    { cost: 500, cure: [1, 1, 1] },
  ];
  it('[JENSEN2007, troubleshooting exercise] best order costs 27.875, the next 29.3325', () => {
    // What follows a sure cure costs nothing, so that some orders cost the same.
    const ranked = permutations([0, 1, 2, 3])
      .map((order) => ({ order, cost: costOfActions(chances, actions, order) }))
      .sort((a, b) => a.cost - b.cost);
    expect(ranked[0]!.order).toEqual([0, 1, 2, 3]);
    expect(ranked[0]!.cost).toBeCloseTo(27.875, 10);
    expect(ranked.find(({ cost }) => cost > ranked[0]!.cost + 1e-9)!.cost).toBeCloseTo(29.3325, 10);
  });
  it('[JENSEN2007, troubleshooting exercise] chance of cure per cost finds the best order', () => {
    expect(greedyActions(chances, actions)).toEqual([0, 1, 2, 3]);
    expect(costOfActions(chances, actions, [0, 1, 2, 3])).toBeCloseTo(27.875, 10);
  });
});

describe('looking and repairing', () => {
  const parts = [
    { look: 5, repair: 40 },
    { look: 1, repair: 10 },
    { look: 8, repair: 100 },
    { look: 3, repair: 5 },
  ];
  const chances = [0.4, 0.1, 0.3, 0.15];
  it('[HECKERMAN1995, equation for ECR] an action that looks first takes the repair back where it was not the cause', () => {
    const actions = parts.map(({ look, repair }, i) => ({
      cost: look + repair,
      cure: parts.map((_, c) => (c === i ? 1 : 0)),
      fails: -repair,
    }));
    for (const order of permutations([0, 1, 2, 3])) {
      let [left, sum] = [1, 0];
      for (const i of order) {
        sum += left * parts[i]!.look + chances[i]! * parts[i]!.repair;
        left -= chances[i]!;
      }
      expect(costOfActions([...chances, 0.05], actions, order, 300)).toBeCloseTo(sum + left * 300, 10);
    }
  });
});

describe('checks in the best order', () => {
  const codes = ['00000', '01001', '00110', '10011', '11000'];
  const problem: CheckProblem = {
    prior: [0.7, 0.01, 0.02, 0.1, 0.17],
    checks: [0, 1, 2, 3, 4].map((t) => ({
      cost: 1,
      chances: codes.map((code) => (code[t] === '1' ? [0, 1] : [1, 0])),
    })),
    stop: (belief) => (belief.some((p) => p > 1 - 1e-9) ? 0 : Infinity),
  };
  it('[rival] five states, five checks: the optimum needs 2.12 checks, greedy information 2.71', () => {
    expect(optimalPolicy(problem).cost).toBeCloseTo(2.12, 10);
    expect(policyCost(problem, greedyInformation(problem))).toBeCloseTo(2.71, 10);
  });
  it('[definition] entropy 1.3063 bit; with a check for every split the optimum is the Huffman code, 1.46', () => {
    expect(entropyCost(1)(problem.prior)).toBeCloseTo(1.3063, 4);
    const everySplit = Array.from({ length: 15 }, (_, k) => ({
      cost: 1,
      chances: problem.prior.map((_, state) => (((k + 1) >> state) & 1 ? [0, 1] : [1, 0])),
    }));
    expect(optimalPolicy({ ...problem, checks: everySplit }).cost).toBeCloseTo(1.46, 10);
  });
  it('[rival] looking two checks ahead needs 2.18, looking on to the end 2.12', () => {
    const cost = policyCost(problem, lookAhead(problem, 2, entropyCost(1)));
    expect(cost).toBeCloseTo(2.18, 10);
    expect(cost).toBeGreaterThanOrEqual(2.12 - 1e-12);
    expect(policyCost(problem, lookAhead(problem, 5))).toBeCloseTo(2.12, 10);
  });
});

function permutations(items: number[]): number[][] {
  if (items.length < 2) return [items];
  return items.flatMap((item) =>
    permutations(items.filter((other) => other !== item)).map((rest) => [item, ...rest]),
  );
}
