/** Pairs of faults enter when no single one fits: when "nothing I know fits" gains, or the best account of the readings
 *  needs one of them to be a slip of the hand. */
import type { PlacedFault } from '../faults/index.ts';
import { pairHypothesis, type Hypothesis } from './hypothesis.ts';
import type { Posterior } from './inference/index.ts';
import type { Joined } from './readings-as-evidence.ts';
import { sayOf } from './why.ts';
import criteria from './criteria.json' with { type: 'json' };

/** Pairs worth weighing, none when a single fault accounts for the readings. */
export function pairsWorthWeighing(
  hypotheses: readonly Hypothesis[],
  posterior: Posterior,
  joined: readonly Joined[],
): readonly Hypothesis[] {
  if (joined.length < 2) return [];
  const says = joined.map((one) => sayOf(one, posterior.draws, posterior.probability));
  const nothing = posterior.probability[posterior.probability.length - 1] ?? 0;
  const odd = says
    .map(({ slip }, index) => ({ slip, index }))
    .filter(({ slip }) => slip > criteria.pairsFromSlip);
  if (nothing < criteria.pairsFromNothingFits && odd.length === 0) return [];
  const singles = hypotheses.flatMap(({ members }, h) =>
    members.length === 1 && members[0] ? [{ h, placed: members[0] }] : [],
  );
  const leading = [...singles]
    .sort((a, b) => (posterior.probability[b.h] ?? 0) - (posterior.probability[a.h] ?? 0))
    .slice(0, criteria.pairLeaders)
    .map(({ placed }) => placed);
  // Partners: what would have made the odd readings likely.
  const helps = ({ h, placed }: { h: number; placed: PlacedFault }): number =>
    odd.reduce(
      (sum, { index }) => sum + Math.log(Math.max(says[index]?.own[h] ?? 0, 1e-12)),
      Math.log(placed.prior),
    );
  const partners = [...singles]
    .sort((a, b) => helps(b) - helps(a))
    .slice(0, criteria.pairPartners)
    .map(({ placed }) => placed);
  const found = new Map<string, Hypothesis>();
  for (const first of leading) {
    for (const second of [...partners, ...leading]) {
      const pair = pairHypothesis(first, second);
      if (pair !== undefined) found.set(pair.id, pair);
    }
  }
  return [...found.values()];
}
