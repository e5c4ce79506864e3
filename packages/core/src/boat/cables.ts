/** Cables by what their ends are bolted to, so that an owner's own names do as well. */
import { partsOfKind, type BoatDescription, type PartDescription } from './description.ts';
import type { PartKindId } from './kinds.ts';

type Cable = PartDescription<'cable'>;

/** Cables with an end at one of these terminals of a kind of part. */
export function cablesAt(
  description: BoatDescription,
  kind: PartKindId,
  points: readonly string[],
): readonly string[] {
  return cables(description, (cable) =>
    terminalsOf(cable).some((end) => isAt(description, end, kind, points)),
  );
}

/** Ids of the cables that are wanted. */
export function cables(description: BoatDescription, wanted: (cable: Cable) => boolean): readonly string[] {
  return partsOfKind(description, 'cable')
    .filter(wanted)
    .map((cable) => cable.id);
}

/** Both ends of a cable. */
export const terminalsOf = (cable: Cable): readonly string[] => [cable.from ?? '', cable.to ?? ''];

/** Whether an end of a cable is at one of these terminals of a kind of part. */
export const touches = (
  description: BoatDescription,
  cable: Cable,
  kind: PartKindId,
  points: readonly string[],
): boolean => terminalsOf(cable).some((end) => isAt(description, end, kind, points));

/** Whether a terminal is one of these of a kind of part. */
export function isAt(
  description: BoatDescription,
  terminal: string,
  kind: PartKindId,
  points: readonly string[],
): boolean {
  const dot = terminal.lastIndexOf('.');
  const part = terminal.slice(0, dot);
  return (
    points.includes(terminal.slice(dot + 1)) &&
    description.parts.some((candidate) => candidate.id === part && candidate.kind === kind)
  );
}
