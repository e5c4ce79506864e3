/** Probabilities in words, on the scale of `sureness`; each word stands beside its figure. */
import { sureness } from '../work/contract.ts';

/** How a chance of "yes" is answered. */
export function answerWords(yes: number): string {
  const how = sureness(Math.max(yes, 1 - yes));
  if (how === 'perhaps') return 'open';
  if (how === 'almost certainly') return yes > 0.5 ? 'yes' : 'no';
  return yes > 0.5 ? how : `${how} not`;
}

/** Which mark stands by a chance of "yes": none where it is less than very likely. */
export function answerMark(yes: number): 'yes' | 'no' | 'open' {
  if (yes >= 0.85) return 'yes';
  return yes <= 0.15 ? 'no' : 'open';
}

/** A chance as a whole percentage; the ends are never claimed outright. */
export function percent(chance: number): string {
  if (chance > 0.99) return 'over\u00a099\u00a0%';
  if (chance < 0.01) return 'under\u00a01\u00a0%';
  return `${Math.round(chance * 100)}\u00a0%`;
}

/** What one reading says of one suspect, from its odds factor. */
export function factorWords(factor: number): string {
  const size = factor >= 1 ? factor : 1 / factor;
  if (size < 1.5) return 'says little';
  const strength = size >= 20 ? 'strongly' : size >= 5 ? 'clearly' : size >= 2.5 ? '' : 'weakly';
  const side = factor >= 1 ? 'speaks for it' : 'speaks against it';
  return strength === '' ? side : `${strength} ${side}`;
}

/** An odds factor as people say it: "12 times likelier", "8 times less likely". */
export function timesWords(factor: number): string {
  const size = factor >= 1 ? factor : 1 / factor;
  const times = size > 1000 ? 'over 1000' : size >= 10 ? String(Math.round(size)) : size.toFixed(1);
  return factor >= 1 ? `${times} times likelier` : `${times} times less likely`;
}
