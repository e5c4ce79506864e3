import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { percent, plain, width, wrapped } from '../src/say.ts';

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
});
