/** Work on one hypothesis, as the files that advance and judge it share it. */
import type { Batch, DrawCache } from './cache.ts';
import type { Evidence } from './likelihood.ts';
import type { LinearModel } from './linear-model.ts';
import type { Component } from './linearise.ts';

/** How far to refine. */
export interface EvidenceOptions {
  /** Draws of each further round. */
  readonly refineDraws: number;
  readonly maximumRounds: number;
  /** Rounds allowed to a hypothesis of at least the chance `leaderFrom`: an error there is an error of the verdict. Below it
   *  a heavy tail is left alone too. */
  readonly leaderRounds: number;
  readonly leaderFrom: number;
  /** Rounds end when the standard error of the log evidence is below this, the tail is light, and enough draws are effective.
   *  For a hypothesis of chance p below 0.1 the wanted error is a tenth of this over p, at most `mostError`. */
  readonly wantedError: number;
  readonly mostError: number;
  readonly wantedEffective: number;
  /** How many draws are carried on to a further reading, by the chance that a hypothesis has before it: largest first. */
  readonly carried: readonly { readonly from: number; readonly draws: number }[];
}

/** Work in progress on one hypothesis. */
export interface EvidenceState {
  readonly cache: DrawCache;
  readonly hypothesis: number;
  readonly evidence: Evidence;
  /** The draws kept; those whose weight an earlier reading took away are not. */
  readonly batch: Batch;
  readonly count: number;
  /** Unknowns and common errors, row by row. */
  readonly rows: Float64Array;
  readonly logLikelihood: Float64Array;
  /** Σ_c n_c q_c / π */
  readonly mixture: Float64Array;
  /** Chance with which a draw was kept when some were let go. */
  readonly kept: Float64Array;
  /** Part from which each draw came, 0 for the prior. */
  readonly source: Int32Array;
  readonly components: readonly { readonly component: Component; readonly draws: number }[];
  /** Rounds since the last reading. */
  readonly rounds: number;
  /** Length of a row. */
  readonly width: number;
  /** Linear model of the last round; after a further reading none, until a round asks for it. */
  readonly linear: LinearModel | undefined;
  /** The log evidence that the linear model of the prior draws foresees; −∞ where the draws are known to see the readings. */
  readonly foreseen: number;
  /** First normal of the last round. */
  readonly lead: Component | undefined;
}

/** Posterior draws of one hypothesis. */
export interface WeightedDraws {
  readonly count: number;
  readonly dimensions: number;
  /** Unknowns followed by common errors, row by row. */
  readonly rows: Float64Array;
  readonly rowLength: number;
  /** Sum 1. */
  readonly weights: Float64Array;
  /** Predictions of an observable that was read, draw by draw; empty for any other. */
  readonly columnOf: (observable: number) => Float64Array;
}
