/** What to do about a verdict. Plain data: it crosses to a page, a terminal, a file. */
import type { Band } from '../diagnosis/index.ts';
import type { PriceRange } from '../faults/index.ts';
import type { Answer } from '../handbook/index.ts';
import type { Dimension } from '../units/index.ts';
import type { ChargingHours } from './charging-hours.ts';
import type { RuleResult } from './rule.ts';

export const acts = [
  'make-safe',
  'prove-first',
  'replace',
  'make-good',
  'set',
  'move',
  'clean',
  'ventilate',
  'wait',
  'use-less',
  'use-otherwise',
  'explain',
] as const;
export type Act = (typeof acts)[number];

/** One line of the work list. */
export interface WorkItem {
  readonly act: Act;
  readonly words: string;
  /** Suspect (`fault@part`) or rule (`rule@part`) that asks for it. */
  readonly because: string;
}

/** A fault that may have caused the fault, and the checks that tell. */
export interface CauseBehind {
  readonly fault: string;
  readonly words: string;
  readonly checks: readonly { readonly check: string; readonly words: string }[];
}

export interface PartToGet {
  /** Key of the price table. */
  readonly key: string;
  readonly words: string;
  /** Size, worked out; undefined where only the maker's number tells. */
  readonly size: string | undefined;
  /** How the size was worked out: inputs, formula, source, margin of each step. */
  readonly sizing: readonly Answer[];
  readonly rules: readonly RuleResult[];
  readonly price: PriceRange;
}

/** A check to repeat when the work is done. */
export interface Proof {
  readonly check: string;
  readonly words: string;
  /** Where the number must land [SI]; undefined for answers, and where no band was handed in. */
  readonly healthy: Band | undefined;
  readonly dimension: Dimension | undefined;
  /** For answers: what is to be seen. */
  readonly answer: string | undefined;
}

export interface Cost extends PriceRange {
  readonly currency: string;
  /** "invented round figures, to be replaced by your own" */
  readonly status: string;
}

/** Remedy of another suspect, while the first is not sure. */
export interface Otherwise {
  readonly suspect: string;
  readonly words: string;
  readonly probability: number;
  readonly remedy: string;
  readonly cost: Cost;
}

export interface Remedy {
  readonly kind:
    /** Something is to be put right. */
    | 'repair'
    /** A normal state: what to do instead. */
    | 'nothing-broken'
    /** No suspect is likely enough to spend money on: check on. */
    | 'check-on'
    /** The readings fit nothing: take them again. */
    | 'read-again';
  readonly suspect: string | undefined;
  readonly probability: number;
  readonly sure: string;
  readonly words: string;
  readonly work: readonly WorkItem[];
  readonly whyItFailed: readonly string[];
  readonly behind: readonly CauseBehind[];
  readonly parts: readonly PartToGet[];
  /** Parts and labour of the first suspect's remedy. */
  readonly cost: Cost | undefined;
  /** Other suspects that are still likely, with what they would cost. */
  readonly otherwise: readonly Otherwise[];
  /** Rules of the system that are broken or near it: else the repair does not last. */
  readonly rules: readonly RuleResult[];
  /** Hours that the bank needs, where that matters. */
  readonly hours: readonly ChargingHours[];
  readonly proof: readonly Proof[];
  readonly baseline: readonly string[];
  readonly cautions: readonly string[];
}
