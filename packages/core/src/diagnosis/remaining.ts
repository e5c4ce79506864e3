/** What is still wrong once some faults were put right. A hypothesis less its repaired members is a hypothesis again, so chances of
 *  what is left are indexed as those of hypotheses are. Where nothing is left, all is well.
 *
 *  Evidence is weighed over hypotheses, since readings from before a repair speak of the fault that is gone; whatever is said
 *  afterwards (suspects, answers, information, cost) speaks of what is left.
 *  Leaves out: repairs that fail. What was put right is gone, or was never there.
 */
import type { PlacedFault } from '../faults/index.ts';
import { healthyHypothesis, pairHypothesis, type Hypothesis } from './hypothesis.ts';
import type { Repairs } from './model.ts';
import criteria from './criteria.json' with { type: 'json' };

/** By hypothesis: the number of the one that says what is left of it. */
export function remainingOf(hypotheses: readonly Hypothesis[], repairs: Repairs): Int32Array {
  const singles = new Map(
    hypotheses.flatMap(({ members }, h) => (members.length === 1 ? [[members[0]!.id, h] as const] : [])),
  );
  const allWell = singles.get('all-well') ?? healthyHypothesis;
  return Int32Array.from(hypotheses, ({ members }, h) => {
    const left = members.filter(({ id }) => !repairs.includes(id));
    if (left.length === members.length) return h;
    return singles.get(left[0]?.id ?? '') ?? allWell;
  });
}

/** Chances of what is left, from chances by hypothesis; "nothing fits" stays last. */
export function chancesLeft(remaining: Int32Array, chances: Float64Array): Float64Array {
  const left = new Float64Array(chances.length);
  chances.forEach((chance, h) => (left[remaining[h] ?? h]! += chance));
  return left;
}

/** The repaired faults with each other state, and they alone are singles already: a second fault shows only when the first is
 *  gone. Of many repairs the likeliest by `chances` are paired. */
export function pairsWithRepaired(
  hypotheses: readonly Hypothesis[],
  repairs: Repairs,
  chances: ArrayLike<number>,
): readonly Hypothesis[] {
  const singles = hypotheses.flatMap(({ members }, h) =>
    members.length === 1 ? [{ placed: members[0]!, chance: chances[h] ?? 0 }] : [],
  );
  const mended: readonly PlacedFault[] = singles
    .filter(({ placed }) => repairs.includes(placed.id))
    .sort((a, b) => b.chance - a.chance)
    .slice(0, criteria.repairsPaired)
    .map(({ placed }) => placed);
  const pairs = mended.flatMap((first) =>
    singles.flatMap(({ placed }) => pairHypothesis(first, placed) ?? []),
  );
  return [...new Map(pairs.map((pair) => [pair.id, pair])).values()];
}
