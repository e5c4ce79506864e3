/** Cuts a text into runs, each in a font that has its letters. */
import type { Family } from './fonts.ts';

export interface Run {
  readonly text: string;
  readonly font: Family;
}

/** Signs that the fonts lack, said in signs that they have. */
const plainSigns: Readonly<Record<string, string>> = {
  '≈': '~',
  '≤': '<=',
  '≥': '>=',
  '√': 'sqrt ',
  '→': '->',
  '✓': 'yes',
  '⚠': '!',
  Ω: 'Ω',
};

/** Unicode ranges of the font files, from fontsource's style sheet for them. */
const ranges: readonly (readonly [Family, RegExp])[] = [
  [
    'Latin',
    /[\u0020-\u007e\u00a0-\u00ff\u0131\u0152\u0153\u02bb\u02bc\u02c6\u02da\u02dc\u2009-\u200a\u2010-\u2027\u2030-\u203a\u20ac\u2122\u2191\u2193\u2212\u2215]/u,
  ],
  ['Greek', /[\u0384-\u038a\u038c\u038e-\u03a1\u03a3-\u03ff]/u],
  ['LatinExtended', /[\u0100-\u02ba\u1e00-\u1e9f\u1ef2-\u1eff]/u],
  ['Cyrillic', /[\u0400-\u045f\u0490\u0491\u04b0\u04b1\u2116]/u],
];

/** The text in runs. What no font has becomes "?"; control signs become blanks.  */
export function runsOf(text: string): Run[] {
  const runs: { text: string; font: Family }[] = [];
  for (const sign of spelt(text)) {
    const found = ranges.find(([, range]) => range.test(sign))?.[0];
    const last = runs.at(-1);
    const font = found ?? 'Latin';
    const shown = found === undefined ? '?' : sign;
    if (last !== undefined && (last.font === font || shown === ' ')) last.text += shown;
    else runs.push({ text: shown, font });
  }
  return runs;
}

/** A text of Latin letters only, for drawings, which have one font. */
export function latinOf(text: string): string {
  return Array.from(spelt(text), (sign) => (ranges[0]?.[1].test(sign) ? sign : '?')).join('');
}

function spelt(text: string): string {
  return text
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ')
    .replace(/[≈≤≥√→✓⚠\u2126]/gu, (sign) => plainSigns[sign.normalize('NFC')] ?? plainSigns[sign] ?? '?');
}
