/** Temperatures that agree with the heat made at them: hotter windings give less and are heated less.
 *    found(T) = T          T [K], one for each place
 *  Each try is a solution of the whole circuit. Secant on each temperature; heat limits fight back, so only it is sure to
 *  meet them.
 */
/** Kelvins found for each one tried, where no limit is at work: hot copper costs up to 0.2 % of the output for each, of a rise of
 *  some 50 K. */
const USUAL_SLOPE = -0.1;

export interface Settled {
  /** Tried last. */
  readonly guess: readonly number[];
  /** Largest difference between tried and found: at the first try, at the last [K]. */
  readonly firstOff: number;
  readonly off: number;
}

/** Tries until tried and found temperatures differ by at most `agrees` [K], or `rounds` tries after the first were made.
 *  `found`: the temperatures that belong to the heat made at those tried. */
export function settleHeat(
  first: readonly number[],
  found: (tried: readonly number[], round: number) => readonly number[],
  { agrees, rounds }: { readonly agrees: number; readonly rounds: number },
): Settled {
  let guess = first;
  let now = found(guess, 0);
  let off = farthest(guess, now);
  const firstOff = off;
  let guess0: readonly number[] | undefined;
  let now0: readonly number[] | undefined;
  for (let round = 1; round <= rounds && off > agrees; round++) {
    const next = guess.map((value, i) => secant(value, now[i]!, guess0?.[i], now0?.[i]));
    [guess0, now0, guess] = [guess, now, next];
    now = found(guess, round);
    off = farthest(guess, now);
  }
  return { guess, firstOff, off };
}

/** Largest difference [K]. */
function farthest(a: readonly number[], b: readonly number[]): number {
  return a.reduce((most, value, i) => Math.max(most, Math.abs(value - b[i]!)), 0);
}

/** Where guess and found would meet, from this pair and the one before [K]. */
function secant(guess: number, found: number, guess0?: number, found0?: number): number {
  if (guess0 === undefined || found0 === undefined || Math.abs(guess - guess0) < 1e-9)
    return guess + (found - guess) / (1 - USUAL_SLOPE);
  const slope = (found - found0) / (guess - guess0);
  const met = guess + (found - guess) / (1 - slope);
  return slope < 0.9 && Number.isFinite(met) ? met : (guess + found) / 2;
}
