import type { PosteriorSample } from './inference/index.ts';

/** The boat without any fault, as far as readings taken with the engine off leave it open. */
export interface HealthyView {
  readonly sample: PosteriorSample;
  /** Predictions over the sample so far, by observable. */
  readonly columns: Map<number, Float64Array>;
}
