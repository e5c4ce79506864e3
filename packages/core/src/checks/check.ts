/** A check: a condition and a probe or a question, with what it costs and what it may hurt. */
import type { BoatDescription, PartKindId } from '../boat/index.ts';
import type { Boat } from '../boat/index.ts';
import type { Condition, OperatingPoint, Probe } from '../operate/index.ts';
import type { Dimension } from '../units/index.ts';

export const skills = ['owner', 'apprentice', 'electrician'] as const;
/** Least skill that may do the check. */
export type Skill = (typeof skills)[number];

export type CheckWay = 'ask' | 'look' | 'listen' | 'measure' | 'intervene';

export interface Answer {
  readonly id: string;
  /** What is seen or said when this is the answer. */
  readonly words: string;
}

/** What the check can see of one possible world. */
export interface View {
  readonly boat: Boat;
  /** Part that the check is placed on; empty for the whole boat. */
  readonly part: string;
  /** The operating point under a condition; computed once for each condition. */
  readonly at: (condition: Condition) => OperatingPoint;
  /** What an instrument shows at a point, its own error left out [SI]. */
  readonly read: (point: OperatingPoint, probe: Probe) => number;
}

export interface CheckText {
  readonly id: string;
  readonly way: CheckWay;
  /** Short name: "Volts at the battery, engine off". */
  readonly words: string;
  /** At work; the wait until the condition holds comes on top (waiting.ts). */
  readonly minutes: number;
  readonly tools: readonly string[];
  readonly skill: Skill;
  /** 0 none, 1 moving or hot parts near, 2 live work with the engine running, 3 can do damage when done wrongly. */
  readonly risk: 0 | 1 | 2 | 3;
  /** Gravest first: what kills, maims or blinds stands before the rest. */
  readonly cautions: readonly string[];
  readonly steps: readonly string[];
  /** What must be so before the check makes sense, in words. */
  readonly needs: readonly string[];
}

export type CheckOutcome =
  | {
      readonly kind: 'number';
      readonly dimension: Dimension;
      /** Unit that the technician reads. */
      readonly unit: string;
      readonly probe: Probe;
      /** Standard deviation of the instrument at this reading [SI]. */
      readonly meterSigma: (value: number) => number;
      /** What the model may be off by [SI]: physics differs from boat to boat. */
      readonly modelSigma: (value: number) => number;
      /** Volts that a current loses on its way: the model is off with the current. */
      readonly lost?: true;
      /** Plausible range of the number [SI], for slips and for "nothing I know fits". */
      readonly range: readonly [number, number];
    }
  | {
      readonly kind: 'answers';
      readonly question: string;
      readonly answers: readonly Answer[];
      /** Chance of each answer in a possible world, in the order of `answers`; written to `out`. */
      readonly chances: (view: View, out: Float64Array) => void;
    };

/** A check as placed on a boat: its terminals and condition are those of this boat. */
export interface PlacedCheck {
  /** `check@part`, or the check's id alone where it speaks of the whole boat. */
  readonly id: string;
  readonly text: CheckText;
  readonly part: string | undefined;
  readonly condition: Condition;
  readonly outcome: CheckOutcome;
}

/** A check of the catalogue: its text and how it is placed on a boat. */
export interface Check extends CheckText {
  /** Kind of part that it is placed on, one for each; or the whole boat. */
  readonly on: PartKindId | 'boat';
  readonly place: (description: BoatDescription) => readonly PlacedCheck[];
}

/** What a placement file gives for one check: where it goes, under what condition, and what comes out. */
export interface Placement {
  readonly on: PartKindId | 'boat';
  readonly sites: (description: BoatDescription) => readonly Site[];
}

export interface Site {
  readonly part: string;
  readonly condition: Condition;
  readonly outcome: CheckOutcome;
}
