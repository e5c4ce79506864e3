/** What people call a terminal: "Fuse a", "House bank +", "Engine block". */
import type { BoatDescription } from './description.ts';
import { partKinds } from './kinds.ts';

const duties: Readonly<Record<string, string>> = {
  house: 'House bank',
  start: 'Start bank',
  both: 'Battery bank',
};

/** Words for `part.terminal`: the part's label, else its kind where the boat has one of it, else its id. */
export function terminalWords(description: BoatDescription, terminal: string): string {
  const [id = '', point = ''] = terminal.split('.');
  const part = description.parts.find((one) => one.id === id);
  if (part === undefined) return `${id} ${point}`;
  const duty = (part.choices as { readonly duty?: string }).duty;
  const kind = part.kind === 'battery' ? (duties[duty ?? ''] ?? 'Battery bank') : partKinds[part.kind].words;
  const alike = description.parts.filter(
    (one) => one.kind === part.kind && (one.choices as { readonly duty?: string }).duty === duty,
  );
  return `${part.label ?? (alike.length === 1 ? kind : id)} ${point}`;
}
