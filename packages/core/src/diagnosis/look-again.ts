/** Whether a verdict hangs on one reading, which is then asked for again before anybody acts on it.
 *
 *  Without a reading r:  P(h | others) ∝ P(h | all) / p(r | others, h)
 *  A verdict hangs on a reading whose absence would leave it less likely than not. Only what an owner was asked is not asked again: a
 *  memory that erred once errs again.
 *  Leaves out: states that this reading alone threw out; their draws are gone.
 */
import type { Says } from './why.ts';

/** Chance of a set of hypotheses, one reading left out. `own`: p(r | others, h) by hypothesis, NaN or 0 where it was out before. */
export function chanceWithout(
  probability: ArrayLike<number>,
  own: readonly number[],
  within: (h: number) => boolean,
): number {
  let inside = 0;
  let whole = 0;
  own.forEach((density, h) => {
    if (!(density > 0)) return;
    const weight = (probability[h] ?? 0) / density;
    whole += weight;
    if (within(h)) inside += weight;
  });
  return whole > 0 ? inside / whole : 0;
}

/** Of some readings, the number of the one without which a set of hypotheses is the least likely, if it is less likely than not. */
export function hangsOn(
  says: readonly Says[],
  among: readonly number[],
  probability: ArrayLike<number>,
  within: (h: number) => boolean,
): number | undefined {
  let [found, least]: [number | undefined, number] = [undefined, 0.5];
  for (const index of among) {
    const without = chanceWithout(probability, says[index]?.own ?? [], within);
    if (without < least) [found, least] = [index, without];
  }
  return found;
}
