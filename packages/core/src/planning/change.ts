/** Small changes of a boat description, each giving a new one. */
import {
  partsOfKind,
  type BoatDescription,
  type Change,
  type Fact,
  type PartDescription,
  type PartKindId,
  type Terminal,
} from '../boat/index.ts';

/** A part with other facts or choices; `undefined` takes a fact away. */
export interface PartChange {
  readonly quantities?: Readonly<Record<string, Fact | undefined>>;
  readonly choices?: Readonly<Record<string, string | undefined>>;
  readonly from?: Terminal;
  readonly to?: Terminal;
}

export function withPart(description: BoatDescription, id: string, change: PartChange): BoatDescription {
  return {
    ...description,
    parts: description.parts.map((part) => (part.id === id ? changed(part, change) : part)),
  };
}

/** Parts added at the end. */
export const withParts = (
  description: BoatDescription,
  parts: readonly PartDescription[],
): BoatDescription => ({ ...description, parts: [...description.parts, ...parts] });

/** Without these parts, and without the cables that ended at them. */
export function withoutParts(description: BoatDescription, ids: ReadonlySet<string>): BoatDescription {
  const gone = (terminal: string | undefined): boolean =>
    terminal !== undefined && ids.has(terminal.split('.')[0] ?? '');
  return {
    ...description,
    parts: description.parts.filter(
      ({ id, kind, from, to }) => !ids.has(id) && !(kind === 'cable' && (gone(from) || gone(to))),
    ),
  };
}

export const withChange = (description: BoatDescription, change: Change): BoatDescription =>
  description.changed.includes(change)
    ? description
    : { ...description, changed: [...description.changed, change] };

/** A new part. */
export function part(
  kind: PartKindId,
  id: string,
  known: Partial<Pick<PartDescription, 'label' | 'from' | 'to' | 'serves'>> & PartChange = {},
): PartDescription {
  const { quantities = {}, choices = {}, ...rest } = known;
  return changed({ kind, id, ...rest, quantities: {}, choices: {} }, { quantities, choices });
}

/** An id that no part has yet. */
export function freeId(description: BoatDescription, wanted: string): string {
  const taken = new Set(description.parts.map(({ id }) => id));
  let id = wanted;
  for (let k = 2; taken.has(id); k++) id = `${wanted}-${k}`;
  return id;
}

/** What a bought part says of itself. */
export const bought = (value: number): Fact => ({ value, origin: 'nameplate' });

export function partNamed(description: BoatDescription, id: string): PartDescription | undefined {
  return description.parts.find((one) => one.id === id);
}

/** Cables with an end at a terminal. */
export const cablesAt = (
  description: BoatDescription,
  terminal: string,
): readonly PartDescription<'cable'>[] =>
  partsOfKind(description, 'cable').filter(({ from, to }) => from === terminal || to === terminal);

function changed(part: PartDescription, { quantities, choices, ...ends }: PartChange): PartDescription {
  return {
    ...part,
    ...ends,
    quantities: kept({ ...part.quantities, ...quantities }),
    choices: kept({ ...part.choices, ...choices }),
  };
}

function kept<T>(record: Readonly<Record<string, T | undefined>>): Record<string, T> {
  return Object.fromEntries(
    Object.entries(record).filter((entry): entry is [string, T] => entry[1] !== undefined),
  );
}
