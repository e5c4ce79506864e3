/** Own prices of a job: what stands in the place of the usual table, and that the choice of checks minds it. */
import { boatFromTemplate, createSession, priceTable } from '@ampwright/core';
import { describe, expect, it } from 'vitest';
import type { JobPrices } from '../src/job.ts';
import { priceNotes, pricesOf } from '../src/prices.ts';

describe('own prices', () => {
  it('[rule] stand in the place of the usual ones, by key, and leave all others', () => {
    const own = pricesOf({ labour_hour: 70, items: { belt: 9, 'call-back': 33 } });
    expect(own.currency).toBe(priceTable.currency);
    expect(own.labourPerHour).toEqual({ low: 70, high: 70 });
    expect(own.parts['belt']).toEqual({ words: priceTable.parts['belt']!.words, low: 9, high: 9 });
    expect(own.parts['lamp']).toEqual(priceTable.parts['lamp']);
    expect(own.visits['call-back']).toMatchObject({ low: 33, high: 33 });
    expect(pricesOf(undefined)).toBe(priceTable);
  });

  it('[rule] in another currency, what is not priced follows the hour', () => {
    const own = pricesOf({ currency: 'shells', labour_hour: 800, items: { belt: 9 } });
    expect(own.currency).toBe('shells');
    expect(own.parts['belt']).toMatchObject({ low: 9, high: 9 });
    expect(own.parts['lamp']).toMatchObject({ low: 30, high: 150 });
    expect(own.visits.specialist).toMatchObject({ low: 4000, high: 8000 });
  });

  it('[rule] of what the table has not are kept, and told with the nearest name', () => {
    const prices = { items: { belts: 9, lamp: 5 } };
    const notes = priceNotes({ prices }, prices);
    expect(notes.map(({ kind, pointer, value, nearest }) => [kind, pointer, value, nearest?.[0]])).toEqual([
      ['unknown-field', '/prices/items/belts', '9', 'belt'],
    ]);
  });

  const boat = boatFromTemplate('one-battery', {});
  const nextAt = (prices: JobPrices) =>
    createSession(boat, { draws: 32, prices: pricesOf(prices) }).diagnose([]).next;

  it('[law] prices in another money change no check', () => {
    const usual = nextAt({ labour_hour: 80 });
    const shells = nextAt({ currency: 'shells', labour_hour: 560 });
    expect(shells.map(({ check }) => check)).toEqual(usual.map(({ check }) => check));
    expect(shells[0]!.worth).toBeCloseTo(7 * usual[0]!.worth, 6);
  });

  it('[law] dear labour makes fewer checks worth their minutes; where it is free, the most worth comes first', () => {
    const worthIt = (labour_hour: number): number =>
      nextAt({ labour_hour }).filter(({ worth, costs }) => worth > costs).length;
    expect(worthIt(800)).toBeLessThan(worthIt(80));
    const free = nextAt({ labour_hour: 0 }).slice(0, 12);
    expect(free[0]!.worth).toBeGreaterThan(0);
    expect(free[0]!.worth).toBe(Math.max(...free.map(({ worth }) => worth)));
  });
});
