/** How each part stands in the light of the readings: suspected, with its whole chance, or cleared. */
import { percent } from '../words/odds.ts';
import { lower } from '../work/contract.ts';
import type { Verdict } from '../work/contract.ts';

export interface Standing {
  readonly kind: 'suspect' | 'cleared';
  readonly chance: number;
  readonly words: string;
}

/** Chance from which a part is shown as suspected. */
const worthShading = 0.03;

export function standingOf(verdict: Verdict | undefined): ReadonlyMap<string, Standing> {
  const standing = new Map<string, Standing>();
  for (const { id, words } of verdict?.cleared ?? []) {
    const part = id.split('@')[1];
    if (part !== undefined)
      standing.set(part, { kind: 'cleared', chance: 0, words: `cleared: ${lower(words)}` });
  }
  const whole = new Map<string, { chance: number; words: string[] }>();
  for (const { part, probability, words, nature } of verdict?.suspects ?? []) {
    if (part === '' || nature === 'normal') continue;
    const known = whole.get(part) ?? { chance: 0, words: [] };
    known.chance += probability;
    if (probability >= 0.01) known.words.push(`${words} ${percent(probability)}`);
    whole.set(part, known);
  }
  for (const [part, { chance, words }] of whole) {
    if (chance >= worthShading) standing.set(part, { kind: 'suspect', chance, words: words.join(', ') });
    else if (!standing.has(part) && chance > 0.005) standing.delete(part);
  }
  return standing;
}
