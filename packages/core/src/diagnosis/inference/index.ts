/** Bayesian machinery that knows nothing of boats. Start with README.md. */
export * from './types.ts';
export { createCache } from './cache.ts';
export type { DrawCache } from './cache.ts';
export { defaultEvidenceOptions } from './evidence.ts';
export type { EvidenceOptions, EvidenceReliability, WeightedDraws } from './evidence.ts';
export { defaultPosteriorOptions, posteriorGiven } from './posterior.ts';
export type { Posterior, PosteriorOptions, PosteriorReliability } from './posterior.ts';
export {
  posteriorMean,
  posteriorQuantiles,
  posteriorSample,
  sampleColumns,
  weightedQuantiles,
} from './sample.ts';
export type { PosteriorSample } from './sample.ts';
export { gainPerMinute, informationOf } from './information.ts';
export type { Candidate, CandidateInformation, Outcome } from './information.ts';
export {
  bestCheck,
  costOfActions,
  expectedCostOfRepair,
  greedyActions,
  rankedOrders,
  valueOfCheck,
} from './repair-cost.ts';
export type { PartCost, RepairAction } from './repair-cost.ts';
export { entropy, entropyCost, greedyInformation, lookAhead, optimalPolicy, policyCost } from './policy.ts';
export type { CheckProblem, Chooser, CostedCheck } from './policy.ts';
export { networkPosterior } from './enumeration.ts';
export type { NetworkVariable } from './enumeration.ts';
export { normalCumulative } from './normal.ts';
