/** "Nothing I know fits", as a hypothesis with a broad prediction of its own. */
import { spanOf } from './likelihood.ts';
import { normalLogDensity } from './normal.ts';
import { defaultSlip, observableAt } from './types.ts';
import type { NumericReading, Observable, Reading } from './types.ts';

/** Log evidence of the readings when nothing known fits.
 *    first reading of an observable: 1 / span (or 1 / outcomes, or ½ for a bound)
 *    the next ones:                  (1 − s) N(y; m, v + σ²) + s / span,  m and v from the earlier readings of it
 *  So a repeated reading that agrees is no sign against it. An answer repeated is as good as certain, slips aside.
 *  σ own error of the reading; errors that all readings of the observable share cancel. s chance of a slip. */
export function nothingFitsLogEvidence(
  observables: readonly Observable[],
  readings: readonly Reading[],
): number {
  const numbers = new Map<number, { mean: number; variance: number }>();
  const answers = new Map<number, Float64Array>();
  let total = 0;
  for (const reading of readings) {
    const observable = observableAt(observables, reading.observable);
    const slip = reading.slip ?? defaultSlip;
    if (reading.kind === 'categorical') {
      const outcomes = observable.kind === 'categorical' ? observable.outcomes : 1;
      const belief = answers.get(reading.observable) ?? new Float64Array(outcomes).fill(1 / outcomes);
      let chance = 0;
      for (let k = 0; k < outcomes; k++) {
        belief[k]! *= (k === reading.outcome ? 1 - slip : 0) + slip / outcomes;
        chance += belief[k]!;
      }
      for (let k = 0; k < outcomes; k++) belief[k]! /= chance;
      answers.set(reading.observable, belief);
      total += Math.log(chance);
    } else if (reading.bound !== undefined) {
      total += Math.log(0.5);
    } else {
      total += Math.log(densityOfNumber(numbers, reading, spanOf(observable), slip));
    }
  }
  return total;
}

function densityOfNumber(
  numbers: Map<number, { mean: number; variance: number }>,
  reading: NumericReading,
  span: number,
  slip: number,
): number {
  const known = numbers.get(reading.observable);
  const own = reading.sigma * reading.sigma;
  if (known === undefined) {
    numbers.set(reading.observable, { mean: reading.value, variance: own });
    return 1 / span;
  }
  const agree =
    (1 - slip) * Math.exp(normalLogDensity(reading.value - known.mean, Math.sqrt(known.variance + own)));
  const gain = known.variance / (known.variance + own);
  numbers.set(reading.observable, {
    mean: known.mean + gain * (reading.value - known.mean),
    variance: known.variance * (1 - gain),
  });
  return agree + slip / span;
}
