/** What the inference engine is told: observables, readings and a predictor. It knows nothing of boats.
 *
 *  A hypothesis h has unknowns u ~ N(0, I). The predictor turns (h, u) into one number per numeric observable and
 *  one row of outcome probabilities per categorical observable.
 */

/** Something that can be read as a number; `low` to `high` is the plausible span, in the observable's own unit. */
export interface NumericObservable {
  readonly kind: 'numeric';
  readonly low: number;
  readonly high: number;
}

/** Something answered with one of `outcomes` answers, numbered from 0. */
export interface CategoricalObservable {
  readonly kind: 'categorical';
  readonly outcomes: number;
}

export type Observable = NumericObservable | CategoricalObservable;

/** Predictor of observables.
 *  `predict` writes the wanted observables into `out`, one after the other: one slot for a numeric one, one slot
 *  per outcome for a categorical one. NaN means "no prediction": such a draw neither supports nor denies a reading.
 *  `u` is a buffer that is reused: read it, do not keep it. The predictor must be a pure function of its arguments.
 */
export interface Model {
  readonly dimensions: number;
  readonly observables: readonly Observable[];
  predict(hypothesis: number, u: Float64Array, wanted: readonly number[], out: Float64Array): void;
  /** Observables that cost next to nothing once this one is predicted; they are then predicted with it and kept. */
  companions?(observable: number): readonly number[];
}

/** Error shared by all readings that name the same group: sigma · e, one e ~ N(0, 1) per group. A negative sigma: what raises the others
 *  lowers this one. */
export interface SharedError {
  readonly group: string;
  readonly sigma: number;
}

/** A number read.
 *    value = prediction + N(0, sigma²) + discrepancy + Σ shared, or, with chance `slip`, anything in the span
 *  `sigma`: error of this one reading. `discrepancy`: error of the model, common to all readings of the observable.
 *  `tail`: with chance `tailChance` the model is off by this much more [standard deviation]: laws that agree on most boats
 *  disagree widely on some.
 *  `bound`: the truth lies above (or below) `value`; used for "still nothing after 300 s" and "off the scale".
 */
export interface NumericReading {
  readonly kind: 'numeric';
  readonly observable: number;
  readonly value: number;
  readonly sigma: number;
  readonly discrepancy?: number;
  readonly tail?: number;
  readonly slip?: number;
  readonly shared?: readonly SharedError[];
  readonly bound?: 'above' | 'below';
}

/** An answer given; with chance `slip` it is any answer at all. */
export interface CategoricalReading {
  readonly kind: 'categorical';
  readonly observable: number;
  readonly outcome: number;
  readonly slip?: number;
}

export type Reading = NumericReading | CategoricalReading;

/** Chance that a reading or an answer is a slip of the hand, where the reading states none. Estimate. */
export const defaultSlip = 0.02;

/** Chance that a model is off by the further `tail` of a reading. Two published battery laws and two of alternators differ, on
 *  random boats, with 95th percentiles four to five times their medians; a normal error has 2.9 times, this mixture 4.3. */
export const tailChance = 0.15;

/** Slots that an observable takes in a prediction. */
export function widthOf(observable: Observable): number {
  return observable.kind === 'numeric' ? 1 : observable.outcomes;
}

/** The observable with that number.
 *  Errors: RangeError when there is none. */
export function observableAt(observables: readonly Observable[], index: number): Observable {
  const observable = observables[index];
  if (observable === undefined)
    throw new RangeError(`observableAt: index ${index} is outside 0 to ${observables.length - 1}`);
  return observable;
}
