import { describe, expect, it } from 'vitest';
import { faultById, faultCatalogue, partsPrice, priceTable, remedyPrice } from '../../src/faults/index.ts';

const prices = {
  currency: 'shells',
  labourPerHour: { low: 10, high: 20 },
  visits: priceTable.visits,
  parts: {
    belt: { words: 'Belt', low: 3, high: 5 },
    'cleaning-materials': { words: 'Cleaning materials', low: 1, high: 2 },
  },
};

describe('prices', () => {
  it('[rule] every part is bought by some remedy, and its range runs upwards', () => {
    const bought = new Set(faultCatalogue.flatMap(({ buys }) => buys));
    for (const [key, { low, high }] of Object.entries(priceTable.parts)) {
      expect(bought.has(key), key).toBe(true);
      expect(low, key).toBeGreaterThan(0);
      expect(high, key).toBeGreaterThan(low);
    }
  });

  it('[rule] prices of visits run upwards', () => {
    for (const [key, { low, high }] of Object.entries(priceTable.visits))
      expect(high, key).toBeGreaterThan(low);
  });

  it('[law] a remedy costs its parts and its hours', () => {
    const fault = faultById('belt-misaligned'); // belt, cleaning materials, 1.5 h
    expect(partsPrice(fault, prices)).toEqual({ low: 4, high: 7 });
    expect(remedyPrice(fault, prices)).toEqual({ low: 4 + 15, high: 7 + 30 });
  });

  it('[rule] a part that an edited table lacks is named', () => {
    expect(() => partsPrice(faultById('main-fuse-open'), prices)).toThrow(/main-fuse-open.*"fuse"/);
  });
});
