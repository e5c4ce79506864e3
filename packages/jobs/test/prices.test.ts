/** Own prices of a job: what stands in the place of the usual table, and that the choice of checks minds it. */
import { boatFromTemplate, createSession, priceTable } from '@ampwright/core';
import { describe, expect, it } from 'vitest';
import { priceNotes, pricesOf } from '../src/prices.ts';

describe('own prices', () => {
  it('[rule] stand in the place of the usual ones, by key, and leave all others', () => {
    const own = pricesOf({ currency: 'shells', labour_hour: 70, items: { belt: 9, 'call-back': 33 } });
    expect(own.currency).toBe('shells');
    expect(own.labourPerHour).toEqual({ low: 70, high: 70 });
    expect(own.parts['belt']).toEqual({ words: priceTable.parts['belt']!.words, low: 9, high: 9 });
    expect(own.parts['lamp']).toEqual(priceTable.parts['lamp']);
    expect(own.visits['call-back']).toMatchObject({ low: 33, high: 33 });
    expect(pricesOf(undefined)).toBe(priceTable);
  });

  it('[rule] of what the table has not are kept, and told with the nearest name', () => {
    const prices = { items: { belts: 9, lamp: 5 } };
    const notes = priceNotes({ prices }, prices);
    expect(notes.map(({ kind, pointer, value, nearest }) => [kind, pointer, value, nearest?.[0]])).toEqual([
      ['unknown-field', '/prices/items/belts', '9', 'belt'],
    ]);
  });

  it('[law] prices in another money change no check; dear labour makes fewer of them worth their minutes', () => {
    const boat = boatFromTemplate('one-battery', {});
    const scaled = (labour: number, rest: number) =>
      pricesOf({
        labour_hour: labour * 80,
        items: Object.fromEntries(
          Object.entries({ ...priceTable.parts, ...priceTable.visits }).map(([key, { low, high }]) => [
            key,
            (rest * (low + high)) / 2,
          ]),
        ),
      });
    const nextAt = (labour: number, rest: number) =>
      createSession(boat, { draws: 32, prices: scaled(labour, rest) }).diagnose([]).next;
    const worthIt = (labour: number, rest: number): number =>
      nextAt(labour, rest).filter(({ worth, costs }) => worth > costs).length;
    expect(nextAt(7, 7).map(({ check }) => check)).toEqual(nextAt(1, 1).map(({ check }) => check));
    expect(worthIt(10, 1)).toBeLessThan(worthIt(1, 1));
  });
});
