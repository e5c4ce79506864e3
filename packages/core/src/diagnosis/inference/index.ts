/** Bayesian machinery that knows nothing of boats. Start with README.md. */
export * from './types.ts';
export { createCache } from './cache.ts';
export type { DrawCache } from './cache.ts';
export type { EvidenceState, WeightedDraws } from './evidence-state.ts';
export { posteriorGiven } from './posterior.ts';
export type { Posterior, PosteriorReliability } from './posterior.ts';
export {
  posteriorMean,
  posteriorQuantiles,
  posteriorSample,
  sampleColumns,
  thinnedSample,
  weightedQuantiles,
} from './sample.ts';
export type { PosteriorSample } from './sample.ts';
export { gainPerMinute, informationOf } from './information.ts';
export type { CandidateInformation, Outcome } from './information.ts';
export type { Candidate } from './outcome-table.ts';
export { costOfActions, greedyActions } from './repair-cost.ts';
export type { RepairAction } from './repair-cost.ts';
export { entropyCost, greedyInformation, lookAhead, optimalPolicy, policyCost } from './policy.ts';
export type { CheckProblem, Chooser } from './policy.ts';
export { networkPosterior } from './enumeration.ts';
export { normalCumulative } from './normal.ts';
