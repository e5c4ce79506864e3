/** Points of an alternator's full-field curve that were told. */
import type { Alternator } from './boat.ts';
import type { PartDescription } from './description.ts';
import { curveSpeeds } from './kinds.ts';

const LEAST_SHARE = 0.06;
const MOST_SHARE = 0.94;

/** Told points as shares of the rated current, rising and below it whatever the draw of that was. */
export function toldCurve(
  known: PartDescription<'alternator'>['quantities'],
  rated: number,
): Alternator['curve'] {
  let least = LEAST_SHARE;
  return curveSpeeds.flatMap(([key, speed], k) => {
    const fact = known[key];
    if (fact === undefined) return [];
    const share = Math.min(MOST_SHARE + 0.02 * k, Math.max(least, fact.value / rated));
    least = share + 0.01;
    return [{ speed, share }];
  });
}
