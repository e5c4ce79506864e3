/** Fewer draws for the same evidence: which of many weighted draws to keep, and with what chance.
 *
 *    kept with chance  π_i = min(1, w_i / c),  c such that Σ π_i = wanted;  a draw kept then weighs w_i / π_i
 *  Draws heavier than c stay as they are, the others weigh c each: the sum is the same on average, and no other choice of as many
 *  draws disturbs it less. Lighter ones are taken at equal steps of the cumulative chance, so no randomness enters.
 *  Source: [FEARNHEAD2003] (optimal resampling)
 */
import { largestOf } from './pareto.ts';

export interface Thinned {
  /** Numbers of the draws kept, ascending. */
  readonly chosen: readonly number[];
  /** The chance with which each was kept. */
  readonly chance: Float64Array;
}

/** At most about `wanted` of the draws with weight; all of them where they are no more.
 *  logWeights [nat], in any scale. */
export function thinned(logWeights: Float64Array, wanted: number): Thinned {
  const top = largestOf(logWeights);
  const weights = logWeights.map((one) => (one === -Infinity ? 0 : Math.exp(one - top)));
  const present = Array.from(weights.keys()).filter((i) => weights[i]! > 0);
  if (present.length <= wanted) return { chosen: present, chance: new Float64Array(present.length).fill(1) };
  const limit = thresholdOf(
    present.map((i) => weights[i]!),
    wanted,
  );
  const chosen: number[] = [];
  const chance: number[] = [];
  let sum = 0;
  let next = 0.5;
  for (const i of present) {
    const share = weights[i]! / limit;
    if (share >= 1) {
      chosen.push(i);
      chance.push(1);
      continue;
    }
    sum += share;
    if (sum < next) continue;
    chosen.push(i);
    chance.push(share);
    next += 1;
  }
  return { chosen, chance: Float64Array.from(chance) };
}

/** The c with Σ min(1, w_i / c) = wanted. */
function thresholdOf(weights: readonly number[], wanted: number): number {
  const sorted = weights.toSorted((a, b) => b - a);
  let rest = sorted.reduce((sum, one) => sum + one, 0);
  for (let heavy = 0; heavy < sorted.length; heavy++) {
    const limit = rest / (wanted - heavy);
    if (sorted[heavy]! < limit) return limit;
    rest -= sorted[heavy]!;
  }
  throw new RangeError(`thresholdOf: ${weights.length} draws cannot be thinned to ${wanted}`);
}
