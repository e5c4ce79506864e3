/** What is known of a boat: parts, what each is wired to, and facts with their origin. Everything may be unknown. */
import type { PartKindId, QuantityId, ChoiceId } from './kinds.ts';

/** Where a value came from, from the firmest to the loosest. */
export const origins = ['measured', 'nameplate', 'told', 'assumed'] as const;
export type Origin = (typeof origins)[number];

/** A known number, in SI. */
export interface Fact {
  readonly value: number;
  readonly origin: Origin;
}

/** A terminal: the part's id, a point, the terminal's name: `alternator.B+`. */
export type Terminal = `${string}.${string}`;

export interface PartDescription<K extends PartKindId = PartKindId> {
  readonly id: string;
  readonly kind: K;
  readonly label?: string;
  /** Cables only: the two terminals that the ends are bolted to. */
  readonly from?: Terminal;
  readonly to?: Terminal;
  /** Engine of an alternator, starter or key; alternator of a regulator or belt. */
  readonly serves?: string;
  readonly quantities: { readonly [Q in QuantityId<K>]?: Fact };
  readonly choices: { readonly [C in ChoiceId<K>]?: string };
}

/** What was altered lately: it raises the odds of the faults that such work brings. */
export const changes = [
  'alternator-uprated',
  'alternator-replaced',
  'regulator-changed',
  'batteries-replaced',
  'bank-enlarged',
  'belt-replaced',
  'engine-worked-on',
  'wiring-altered',
  'loads-added',
  'charger-added',
  'laid-up',
] as const;
export type Change = (typeof changes)[number];

export interface BoatDescription {
  /** Nominal voltage [V]: 12 or 24. */
  readonly nominalVoltage: 12 | 24;
  readonly parts: readonly PartDescription[];
  readonly changed: readonly Change[];
}

/** Parts of one kind, in the order of the description. */
export function partsOfKind<K extends PartKindId>(
  description: BoatDescription,
  kind: K,
): readonly PartDescription<K>[] {
  return description.parts.filter((part): part is PartDescription<K> => part.kind === kind);
}
