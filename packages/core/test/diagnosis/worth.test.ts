/** What a check is worth: laws of the expected cost of repair. Prices are those of the table in use. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boatFromTemplate } from '../../src/boat/index.ts';
import { createSession } from '../../src/diagnosis/index.ts';
import type { Outcome } from '../../src/diagnosis/inference/index.ts';
import {
  inOrderOfWorth,
  isWorthIt,
  repairCost,
  savingOf,
  worthOf,
  worthOfBit,
  type Worth,
} from '../../src/diagnosis/worth.ts';
import { faultById, middleOf, priceTable, remedyPrice } from '../../src/faults/index.ts';

const { model, tariff } = createSession(boatFromTemplate('one-battery', {})).state([]);
const { hypotheses } = model;
const { 'call-back': callBack, specialist, 'left-behind': leftBehind } = priceTable.visits;
const chances = (of: Readonly<Record<string, number>>): Float64Array => {
  const all = new Float64Array(hypotheses.length + 1);
  for (const [id, chance] of Object.entries(of)) {
    const h = hypotheses.findIndex((one) => one.id === id);
    if (h < 0) throw new RangeError(`no state ${id} on this boat`);
    all[h] = chance;
  }
  return all;
};
const price = (fault: string): number => middleOf(remedyPrice(faultById(fault)));
const belt = 'belt-broken@belt';
const lamp = 'charge-lamp-blown@lamp';

describe('expected cost of repair', () => {
  it('[limit] what is known costs its remedy, and nothing where all is well', () => {
    expect(repairCost(tariff, chances({ [belt]: 1 }))).toBeCloseTo(price('belt-broken'), 9);
    expect(repairCost(tariff, chances({ 'all-well': 1 }))).toBeCloseTo(0, 9);
  });

  it('[HECKERMAN1995, two causes, by hand] the remedy that failed is paid, and a call for the next', () => {
    const [a, b] = [price('belt-broken'), price('charge-lamp-blown')];
    const inOrder = (first: number, then: number): number => first + 0.5 * (middleOf(callBack) + then);
    expect(repairCost(tariff, chances({ [belt]: 0.5, [lamp]: 0.5 }))).toBeCloseTo(
      Math.min(inOrder(a, b), inOrder(b, a)),
      9,
    );
  });

  it('[definition, by hand] a fault told as normal costs what it does meanwhile, too', () => {
    const chance = 0.02;
    const left = chance * (middleOf(callBack) + middleOf(leftBehind) + price('belt-broken'));
    expect(repairCost(tariff, chances({ 'all-well': 1 - chance, [belt]: chance }))).toBeCloseTo(left, 9);
  });

  it('[law] one remedy is paid once: to tell a sulphated bank from a worn one saves nothing', () => {
    const even = chances({ 'battery-sulphated@battery': 0.5, 'battery-capacity-lost@battery': 0.5 });
    expect(repairCost(tariff, even)).toBeCloseTo(price('battery-capacity-lost'), 9);
    expect(worthOfBit(tariff, even)).toBeCloseTo(0, 9);
  });

  it('[law] what a cheaper remedy would put right for less is not cured by it', () => {
    const thin = 'charge-cable-undersized@charge-cable';
    expect(price('charge-cable-undersized')).toBeGreaterThan(price('charge-cable-open'));
    const belief = chances({ [thin]: 0.99, 'charge-cable-open@charge-cable': 0.01 });
    expect(repairCost(tariff, belief)).toBeGreaterThanOrEqual(
      0.99 * price('charge-cable-undersized') + 0.01 * price('charge-cable-open'),
    );
  });

  it.each([
    { told: 'between two causes', of: { [belt]: 0.5, [lamp]: 0.5 } },
    { told: 'between a cause and nothing that is known', of: { [belt]: 0.5 } },
  ])('[definition] a check that tells for sure is worth its bit, both ways counted: $told', ({ of }) => {
    const even = chances(of);
    if (!(lamp in of)) even[hypotheses.length] = 0.5;
    const sure = Array.from(even.keys())
      .filter((h) => even[h]! > 0)
      .map((h, answer): Outcome => {
        const posterior = new Float64Array(even.length);
        posterior[h] = 1;
        return { answer, probability: 0.5, posterior };
      });
    expect(savingOf(tariff, sure)).toBeGreaterThan(0);
    expect(savingOf(tariff, sure)).toBeCloseTo(worthOfBit(tariff, even), 9);
  });

  it('[definition] where parts of the draws would choose wrongly for each other, half of that is paid', () => {
    const [a, b] = [chances({ [belt]: 1 }), chances({ [lamp]: 1 })];
    const outcomes = (misled: boolean): readonly Outcome[] =>
      [a, b].map((posterior, answer) => {
        const own = posterior.map((p) => p / 2);
        return {
          answer,
          probability: 0.5,
          posterior,
          parts: [{ own, others: misled && answer === 0 ? b : own }],
        };
      });
    // What is said to be the lamp is the belt: the lamp is paid in vain, a call, and the belt.
    const inVain = 0.5 * (price('charge-lamp-blown') + middleOf(callBack));
    const before = repairCost(tariff, chances({ [belt]: 0.5, [lamp]: 0.5 }));
    const sure = savingOf(tariff, outcomes(false));
    expect(sure).toBeCloseTo(before - 0.5 * (price('belt-broken') + price('charge-lamp-blown')), 9);
    expect(savingOf(tariff, outcomes(true))).toBeCloseTo(Math.max(0, sure - inVain / 2), 9);
  });

  it('[law] never below the remedies of what is wrong, never above them and a specialist to find it', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
          minLength: hypotheses.length + 1,
          maxLength: hypotheses.length + 1,
        }),
        fc.integer({ min: 0, max: hypotheses.length }),
        (weights, peak) => {
          const all = Float64Array.from(weights, (w, h) => (h === peak ? 1 : w ** 8));
          const whole = all.reduce((sum, w) => sum + w, 0);
          const belief = all.map((w) => w / whole);
          const known = belief.reduce((sum, p, h) => sum + p * tariff.costIfKnown(h), 0);
          const cost = repairCost(tariff, belief);
          expect(cost).toBeGreaterThanOrEqual(known - 1e-9);
          expect(cost).toBeLessThanOrEqual(known + middleOf(specialist) + 1e-9);
        },
      ),
      { seed: 15, numRuns: 100 },
    );
  });

  it('[law] what is told by outcomes that leave the order of remedies as it is saves nothing', () => {
    const outcomes = [0.9, 0.7].map((chance, answer): Outcome => ({
      answer,
      probability: 0.5,
      posterior: chances({ [lamp]: chance, [belt]: 1 - chance }),
    }));
    expect(savingOf(tariff, outcomes)).toBeCloseTo(0, 9);
  });
});

describe('which check is made', () => {
  const check = (name: string, worth: number, costs: number, bitsPerMinute: number): Worth => ({
    check: name,
    worth,
    costs,
    bitsPerMinute,
  });

  it('[rule] what is worth it comes first, and of that the most worth for its cost', () => {
    const dear = check('dear', 9, 10, 0.05);
    const slow = check('slow', 90, 10, 0.005);
    const good = check('good', 30, 10, 0.02);
    const better = check('better', 20, 5, 0.02);
    expect([dear, slow, good, better].filter(isWorthIt)).toEqual([good, better]);
    expect(inOrderOfWorth([dear, slow, good, better])).toEqual([better, good, slow, dear]);
  });

  it('[limit] where an hour costs nothing, the most worth comes first, and what is worth nothing is not made', () => {
    const free = [check('a', 0, 0, 0), check('b', 3, 0, 0.01), check('c', 7, 0, 0.01)];
    expect(inOrderOfWorth(free).map((one) => one.check)).toEqual(['c', 'b', 'a']);
    expect(free.filter(isWorthIt).map((one) => one.check)).toEqual(['b', 'c']);
  });

  it('[rule] what tells next to nothing is worth nothing, whatever few draws say that it saves', () => {
    expect(worthOf(100, 0.001, 50)).toBe(0);
    expect(worthOf(100, 0.5, 50)).toBe(100);
    expect(worthOf(10, 0.5, 50)).toBe(25);
  });
});
