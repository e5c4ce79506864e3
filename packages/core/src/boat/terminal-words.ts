/** What people call a part or a terminal: "Alternator", "Fuse, side a", "House bank +", "Engine block". */
import type { BoatDescription } from './description.ts';
import { partKinds } from './kinds.ts';

const duties: Readonly<Record<string, string>> = {
  house: 'House bank',
  start: 'Start bank',
  both: 'Battery bank',
};

const points: Readonly<Record<string, string>> = {
  a: ', side a',
  b: ', side b',
  one: ' 1',
  two: ' 2',
  '-': ' −',
};

/** The part's label, else its kind where the boat has one of it, else its id in plain letters: "Charge cable". */
export function partWords(description: BoatDescription, id: string): string {
  const part = description.parts.find((one) => one.id === id);
  if (part === undefined) return spelt(id);
  const duty = (part.choices as { readonly duty?: string }).duty;
  const alike = description.parts.filter(
    (one) => one.kind === part.kind && (one.choices as { readonly duty?: string }).duty === duty,
  );
  const kind = part.kind === 'battery' ? (duties[duty ?? ''] ?? 'Battery bank') : partKinds[part.kind].words;
  return part.label ?? (alike.length === 1 ? kind : spelt(id));
}

/** The same in the middle of a sentence: "isolator". A label stays as its owner wrote it. */
export function partInside(description: BoatDescription, id: string): string {
  const words = partWords(description, id);
  const labelled = description.parts.some((part) => part.id === id && part.label !== undefined);
  return labelled ? words : words.charAt(0).toLowerCase() + words.slice(1);
}

/** Words for `part.terminal`. */
export function terminalWords(description: BoatDescription, terminal: string): string {
  const [id = '', point = ''] = terminal.split('.');
  return `${partWords(description, id)}${points[point] ?? ` ${point}`}`;
}

function spelt(id: string): string {
  const words = id.replaceAll(/[-_]/g, ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
