import { describe, expect, it } from 'vitest';
import { metricPreference } from '@ampwright/core';
import { figureBandWords } from '../src/words/run-words.ts';

const hours = (low: number, middle: number, high: number) =>
  figureBandWords(
    { low: 3600 * low, middle: 3600 * middle, high: 3600 * high },
    'time',
    metricPreference,
    'not within this plan',
  );

describe('bands of a run in words', () => {
  it('[rule] a band is said with both its ends, one value alone', () => {
    expect(hours(2, 3, 4)).toBe('3 h (2 h to 4 h)');
    expect(hours(3, 3, 3)).toBe('3 h');
  });

  it('[rule] what some boats never reach is said so once, and never as a number', () => {
    expect(hours(2, 3, Infinity)).toBe('3 h (at best 2 h, perhaps not within this plan)');
    expect(hours(0, Infinity, Infinity)).toBe('not within this plan (at best 0 s)');
    expect(hours(Infinity, Infinity, Infinity)).toBe('not within this plan');
  });
});
