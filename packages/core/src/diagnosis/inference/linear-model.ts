import type { PreparedReading } from './likelihood.ts';

/** y ≈ intercept + slope · z + N(0, noise), z ~ N(0, I). */
export interface LinearModel {
  readonly dimensions: number;
  readonly readings: readonly PreparedReading[];
  readonly slope: Float64Array;
  readonly intercept: Float64Array;
  readonly noise: Float64Array;
}
