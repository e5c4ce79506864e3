/** A fault, or a normal state that looks like one: data, and one function that changes a boat. */
import type { Boat, BoatDescription, Change } from '../boat/index.ts';

export const questions = ['making', 'arriving', 'enough', 'lasting'] as const;
export type Question = (typeof questions)[number];

export const families = [
  'alternator',
  'regulator',
  'excitation',
  'path',
  'drive',
  'battery',
  'system',
  'indication',
] as const;
export type Family = (typeof families)[number];

/** What is said of a fault; a row of the data files. Ids are frozen, words are free. */
export interface FaultText {
  readonly id: string;
  readonly family: Family;
  readonly words: string;
  /** A fault, or a state in which nothing is wrong. */
  readonly nature: 'fault' | 'normal';
  /** The question it answers with no; none for a state in which all is well. */
  readonly question: Question | 'none';
  /** Chance among boats whose owner complains of charging, before anything is known. */
  readonly prior: number;
  readonly source: string;
  /** Factor on the prior for what was changed lately. */
  readonly raisedBy: { readonly [C in Change]?: number };
  readonly ownerWords: string;
  readonly remedy: string;
  readonly causes: readonly string[];
  readonly alsoCheck: readonly string[];
  /** Parts to buy: keys of the price table. */
  readonly buys: readonly string[];
  readonly labourHours: number;
}

export interface Fault extends FaultText {
  /** Ids of the parts of this boat that can have the fault; [''] for a fault of the whole boat. */
  readonly places: (description: BoatDescription) => readonly string[];
  /** Factor on the prior for one place on this boat, 1 when absent; 0: it cannot be there. */
  readonly weight?: (description: BoatDescription, part: string) => number;
  /** Changes the boat. Severity is uniform in 0..1. */
  readonly apply: (boat: Boat, part: string, severity: number) => void;
}

/** A fault on a certain part of this boat. */
export interface PlacedFault {
  /** `fault@part`, or the fault's id alone. */
  readonly id: string;
  readonly fault: Fault;
  readonly part: string;
  readonly prior: number;
}
