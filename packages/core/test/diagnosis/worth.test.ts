/** What a check is worth: laws of the expected cost of repair. Prices are those of the table in use. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boatFromTemplate } from '../../src/boat/index.ts';
import { createSession } from '../../src/diagnosis/index.ts';
import type { Outcome } from '../../src/diagnosis/inference/index.ts';
import { repairCost, savingOf, worthOfBit } from '../../src/diagnosis/worth.ts';
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

  it('[HECKERMAN1995, two causes, by hand] a fault told as normal costs what it does meanwhile, too', () => {
    const chance = 0.02;
    const left = chance * (middleOf(callBack) + middleOf(leftBehind) + price('belt-broken'));
    expect(repairCost(tariff, chances({ 'all-well': 1 - chance, [belt]: chance }))).toBeCloseTo(left, 9);
  });

  it('[law] one remedy is paid once: to tell a sulphated bank from a worn one saves nothing', () => {
    const even = chances({ 'battery-sulphated@battery': 0.5, 'battery-capacity-lost@battery': 0.5 });
    expect(repairCost(tariff, even)).toBeCloseTo(price('battery-capacity-lost'), 9);
    expect(worthOfBit(tariff, even)).toBeCloseTo(0, 9);
  });

  it('[definition] a check that tells the cause for sure is worth its bits, both ways counted', () => {
    const even = chances({ [belt]: 0.5, [lamp]: 0.5 });
    const sure: readonly Outcome[] = [belt, lamp].map((id, answer) => ({
      answer,
      probability: 0.5,
      posterior: chances({ [id]: 1 }),
    }));
    expect(savingOf(tariff, sure)).toBeGreaterThan(0);
    expect(savingOf(tariff, sure)).toBeCloseTo(worthOfBit(tariff, even), 9);
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

  it('[law] a check whose outcomes change nothing saves nothing, on even chances of all states too', () => {
    const even = new Float64Array(hypotheses.length + 1).fill(1 / (hypotheses.length + 1));
    const same = [0.2, 0.8].map((probability, answer): Outcome => ({ answer, probability, posterior: even }));
    expect(savingOf(tariff, same)).toBeCloseTo(0, 9);
  });
});
