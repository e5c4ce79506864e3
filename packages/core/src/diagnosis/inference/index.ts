/** Bayesian machinery that knows nothing of boats. Start with README.md. */
export * from './types.ts';
export { createCache } from './cache.ts';
export type { DrawCache } from './cache.ts';
export { defaultEvidenceOptions } from './evidence.ts';
export type { EvidenceOptions, EvidenceReliability, WeightedDraws } from './evidence.ts';
export { defaultPosteriorOptions, posteriorGiven } from './posterior.ts';
export type { Posterior, PosteriorOptions, PosteriorReliability } from './posterior.ts';
