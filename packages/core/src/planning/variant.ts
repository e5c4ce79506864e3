/** A what-if: a named change of a boat's description that yields a whole description, which can be kept. */
import type { BoatDescription } from '../boat/index.ts';
import type { Citation } from '../handbook/index.ts';
import type { Dimension } from '../units/index.ts';

/** Ids are frozen. */
export const variantIds = [
  'larger-alternator',
  'faster-pulley',
  'external-regulator',
  'lithium-bank',
  'second-alternator',
  'combining-relay',
  'diode-isolator',
  'thicker-cable',
  'better-ventilation',
  'fewer-loads',
] as const;
export type VariantId = (typeof variantIds)[number];

export const variantWords: Readonly<Record<VariantId, string>> = {
  'larger-alternator': 'Larger alternator',
  'faster-pulley': 'Smaller pulley on the alternator',
  'external-regulator': 'Regulator outside, with a temperature limit',
  'lithium-bank': 'Lithium bank',
  'second-alternator': 'Second alternator, house and start apart',
  'combining-relay': 'One alternator and a combining relay',
  'diode-isolator': 'One alternator and a diode isolator',
  'thicker-cable': 'Thicker charging cable',
  'better-ventilation': 'Better ventilation of the engine space',
  'fewer-loads': 'Fewer loads',
};

/** The one size that a user may choose; SI. */
export interface VariantSize {
  readonly words: string;
  readonly dimension: Dimension;
  readonly value: number;
  /** What the boat has now: told, or of the median boat; undefined where it has none. */
  readonly now: number | undefined;
  readonly low: number;
  readonly high: number;
}

export interface Variant {
  readonly id: VariantId;
  /** "Larger alternator: 120 A" */
  readonly name: string;
  /** Id of the part that it is about. */
  readonly part: string;
  /** What is altered, one sentence each. */
  readonly changes: readonly string[];
  /** Parts that are no longer needed, with what goes with them. */
  readonly removes: readonly string[];
  /** What it asks of engine, belt, space and people. */
  readonly asks: readonly string[];
  readonly size: VariantSize | undefined;
  /** Where the proposed size comes from. */
  readonly sources: readonly Citation[];
  readonly description: BoatDescription;
}

export type VariantResult =
  | { readonly kind: 'variant'; readonly variant: Variant }
  | { readonly kind: 'not-for-this-boat'; readonly id: VariantId; readonly why: string };

export const notForThisBoat = (id: VariantId, why: string): VariantResult => ({
  kind: 'not-for-this-boat',
  id,
  why,
});
