/** What a diagnosis says. Plain data: it crosses to a page, a terminal, a file. */
import type { Family, Question } from '../faults/index.ts';

/** Answer to one of the four questions. */
export interface FourAnswer {
  readonly question: Question;
  /** Chance that the answer is yes, and its numerical standard error. */
  readonly yes: number;
  readonly error: number;
  /** "Very likely not: the field gets nothing" */
  readonly words: string;
}

/** One reading's say about one suspect, against the other suspects together. */
export interface Evidence {
  readonly reading: string;
  readonly check: string;
  /** Odds factor: above 1 speaks for, below 1 against. */
  readonly factor: number;
  readonly words: string;
}

export interface Suspect {
  /** `fault@part` */
  readonly id: string;
  readonly fault: string;
  readonly part: string;
  readonly family: Family;
  readonly nature: 'fault' | 'normal';
  readonly question: Question | 'none';
  readonly words: string;
  readonly ownerWords: string;
  readonly probability: number;
  readonly error: number;
  /** Chance before any reading. */
  readonly prior: number;
  readonly why: readonly Evidence[];
}

/** A fault that the readings rule out, and the reading that did most of it. */
export interface Cleared {
  readonly id: string;
  readonly words: string;
  readonly by: Evidence;
  readonly probability: number;
}

/** A range in which a number lies with 90 % chance [SI]. */
export interface Band {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** A reading seen in the light of all that is known. */
export interface ReadingInLight {
  readonly reading: string;
  readonly check: string;
  /** Where it would lie if all were well; absent for answers in words. */
  readonly healthy: Band | undefined;
  /** Where the first suspect puts it. */
  readonly expected: Band | undefined;
  /** For answers in words: chance of this answer if all were well. */
  readonly healthyChance: number | undefined;
  readonly stands: 'in' | 'low' | 'high' | 'usual' | 'unusual' | 'none';
  /** Chance that it is a slip of the hand. */
  readonly slip: number;
}

/** What one outcome of a check would do. */
export interface OutcomePreview {
  /** Answer id, or `low`, `in`, `high` against the healthy band. */
  readonly outcome: string;
  readonly words: string;
  readonly chance: number;
  /** The first suspect then, and its probability. */
  readonly then: string;
  readonly thenProbability: number;
}

export interface NextCheck {
  /** Placed id. */
  readonly check: string;
  readonly words: string;
  readonly minutes: number;
  readonly risk: number;
  /** Expected information about what is wrong [bit]. */
  readonly bits: number;
  readonly bitsPerMinute: number;
  /** What it saves at once in the expected cost of repair; what it is worth, as a step to what comes after it, too; and what its
   *  minutes cost [units of the price table]. */
  readonly saves: number;
  readonly worth: number;
  readonly costs: number;
  readonly healthy: Band | undefined;
  readonly previews: readonly OutcomePreview[];
}

export interface Reliability {
  readonly draws: number;
  readonly operatingPoints: number;
  readonly notConverged: number;
  /** Least effective number of draws among suspects that matter. */
  readonly effectiveDraws: number;
  /** Largest standard error of a probability shown. */
  readonly error: number;
}

export type Conclusion =
  | { readonly kind: 'go-on' }
  /** Decided on the strength of one reading, which is to be taken twice. */
  | { readonly kind: 'look-again'; readonly repeat: string }
  | { readonly kind: 'decided'; readonly suspect: string }
  | { readonly kind: 'nothing-wrong' }
  | { readonly kind: 'no-check-worth-it'; readonly suspects: readonly string[] }
  | { readonly kind: 'nothing-fits'; readonly repeat: string | undefined }
  | { readonly kind: 'readings-contradict'; readonly repeat: string };

export interface Verdict {
  /** Placed faults that were put right by now: all that follows speaks of what is still wrong. */
  readonly repaired: readonly string[];
  /** Chance that something is wrong at all. */
  readonly wrong: number;
  readonly answers: readonly FourAnswer[];
  /** Most likely first; those under one in a thousand are left out. */
  readonly suspects: readonly Suspect[];
  readonly nothingFits: number;
  readonly cleared: readonly Cleared[];
  readonly readings: readonly ReadingInLight[];
  /** Best first; empty when no check is worth its minutes. */
  readonly next: readonly NextCheck[];
  readonly conclusion: Conclusion;
  /** Amps into each bank at cruising speed, five minutes after the start, as things are now. */
  readonly amps: readonly { readonly battery: string; readonly band: Band }[];
  /** What had to be assumed of the boat, in words. */
  readonly assumed: readonly string[];
  readonly reliability: Reliability;
}
