/** What a technician wrote down: which check, what came of it, and anything that differed from the check's own condition. */
export type Outcome =
  /** A number in SI (V, A, Ω, K, rad/s, 1). */
  | { readonly kind: 'number'; readonly value: number }
  /** One of the check's answers. */
  | { readonly kind: 'answer'; readonly answer: string }
  | { readonly kind: 'could-not' };

export interface Reading {
  readonly id: string;
  /** Id of the check as placed on this boat: `battery-volts-rest@house`. */
  readonly check: string;
  readonly outcome: Outcome;
  /** Where the condition differed from the check's own. */
  readonly engineSpeed?: number; // rad/s
  readonly sinceStart?: number; // s
  /** Name of the meter, when more than one was used: readings of one meter share its error. */
  readonly meter?: string;
  /** Ids of placed faults (`fault@part`) that were put right before it was taken. */
  readonly afterRepairOf?: readonly string[];
}
