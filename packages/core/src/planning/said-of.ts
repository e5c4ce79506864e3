/** What a what-if gains and costs by the figures, in plain sentences; what it asks is the what-if's own. */
import type { Dimension } from '../units/index.ts';
import { comparedRows, comparedText, type ComparedRow } from './compared-rows.ts';
import type { RunFigures } from './run-figures.ts';
import type { Variant } from './variant.ts';

/** Changes smaller than this share of the value are not worth a sentence. */
const WORTH_SAYING = 0.05;
/** Kelvin, shares and volts that are worth a sentence. */
const leastChange: Partial<Record<Dimension, number>> = { temperature: 5, ratio: 0.03, voltage: 0.05 };

export function saidOf(
  base: RunFigures,
  found: RunFigures,
  variant: Variant,
): { readonly gains: string[]; readonly costs: string[] } {
  const gains: string[] = [];
  const costs: string[] = [];
  for (const row of comparedRows(base, [found])) {
    const sentence = sentenceOf(row);
    if (sentence === undefined) continue;
    (sentence.better ? gains : costs).push(sentence.words);
  }
  if (gains.length === 0) costs.push('It gains little here: something else limits the charge.');
  return { gains: [...gains, ...variant.removes], costs };
}

function sentenceOf(row: ComparedRow): { better: boolean; words: string } | undefined {
  const before = row.base;
  const after = row.values[0];
  if (before === undefined && after === undefined) return undefined;
  const words = `${row.words}: ${comparedText(row, after)}, ${comparedText(row, before)} before.`;
  if (before === undefined || after === undefined) return { better: before === undefined, words };
  const moved = Math.abs(after - before);
  if (moved < (leastChange[row.dimension] ?? WORTH_SAYING * Math.abs(before))) return undefined;
  return { better: after < before === (row.better === 'less'), words };
}
