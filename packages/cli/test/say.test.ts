import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { percent, plain, span, width, wrapped } from '../src/say.ts';

describe('text for a terminal', () => {
  it('[law] no line is longer than the width, and no word is lost', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 300 }), fc.constantFrom('', '  - ', '  CAUTION  '), (text, lead) => {
        const lines = wrapped(text, lead).split('\n');
        expect(lines.every((line) => line.length <= width)).toBe(true);
        const letters = (value: string) => value.replace(/\s+/g, '');
        expect(letters(lines.join(''))).toBe(letters(lead + plain(text)));
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it('[rule] nothing is ever said to be impossible or certain', () => {
    expect([0, 0.004, 0.5, 0.996, 1].map(percent)).toEqual([
      'under 1 %',
      'under 1 %',
      '50 %',
      'over 99 %',
      'over 99 %',
    ]);
  });

  it('[rule] both ends of a range stand to the same digit', () => {
    const said = (low: number, high: number, unit: string) => span({ low, high, unit });
    expect(said(-0.771, 18.83, 'A')).toBe('-0.8 to 18.8 A');
    expect(said(-0.02, 51.64, 'A')).toBe('0.0 to 51.6 A');
    expect(said(0.012, 0.5, 'ohm')).toBe('0.012 to 0.500 ohm');
    expect(said(1480, 1525.4, 'rpm')).toBe('1480 to 1525 rpm');
    expect(said(11.8, 12.563, 'V')).toBe('11.80 to 12.56 V');
  });
});
