/** Suspects with what speaks for and against them, and the cleared ones with the reading that cleared them.
 *
 *  A reading's own say about a fault, the other readings known:  p(r | others, h) = 1 / E[1 / p(r | θ)]
 *  over the posterior draws θ of h (harmonic identity). Its odds factor is that over the same for all other faults.
 *  Source: Gelfand, Dey & Chang 1992, conditional predictive ordinate (from memory).
 */
import type { WeightedDraws } from './inference/index.ts';
import { readingLikelihood, slipShare } from './likelihood-of.ts';
import type { Joined } from './readings-as-evidence.ts';
import type { State } from './session.ts';
import type { Cleared, Evidence, Suspect } from './verdict.ts';
import criteria from './criteria.json' with { type: 'json' };

interface Found {
  readonly suspects: readonly Suspect[];
  readonly cleared: readonly Cleared[];
  /** Chance that a reading is a slip, in the order of the joined readings. */
  readonly slips: readonly number[];
}

export function suspectsAndCleared(state: State): Found {
  const { model, posterior, reliability, joined } = state;
  const said = joined.map((one) => sayOf(one, posterior.draws, posterior.probability));
  const suspects: Suspect[] = [];
  const cleared: Cleared[] = [];
  model.hypotheses.forEach((placed, h) => {
    const probability = posterior.probability[h] ?? 0;
    const why = joined
      .map((one, index) => evidenceOf(one, said[index]?.own ?? [], posterior.probability, h))
      .sort((a, b) => Math.abs(Math.log(b.factor)) - Math.abs(Math.log(a.factor)));
    if (probability >= criteria.showFrom) {
      const { fault } = placed;
      suspects.push({
        id: placed.id,
        fault: fault.id,
        part: placed.part,
        family: fault.family,
        nature: fault.nature,
        question: fault.question,
        words: fault.words,
        ownerWords: fault.ownerWords,
        probability,
        error: reliability.standardError[h] ?? 0,
        prior: placed.prior,
        why: why.filter(({ factor }) => factor > 1.15 || factor < 0.87),
      });
    }
    const strongest = [...why].sort((a, b) => a.factor - b.factor)[0];
    if (
      probability < criteria.clearedBelow &&
      probability < 0.3 * placed.prior &&
      strongest &&
      strongest.factor < 0.3
    ) {
      cleared.push({ id: placed.id, words: placed.fault.words, by: strongest, probability });
    }
  });
  suspects.sort((a, b) => b.probability - a.probability || (a.id < b.id ? -1 : 1));
  return { suspects, cleared, slips: said.map(({ slip }) => slip) };
}

/** p(r | others, h) by hypothesis, and the chance that the reading is a slip. */
function sayOf(
  joined: Joined,
  draws: readonly (WeightedDraws | undefined)[],
  probability: Float64Array,
): { readonly own: readonly number[]; readonly slip: number } {
  let slip = 0;
  let whole = 0;
  const own = draws.map((cloud, h) => {
    if (cloud === undefined) return 0;
    const column = cloud.columnOf(joined.observable);
    let inverse = 0;
    let slipped = 0;
    for (let i = 0; i < cloud.count; i++) {
      const weight = cloud.weights[i] ?? 0;
      if (weight < 1e-9) continue;
      inverse += weight / Math.max(readingLikelihood(joined, column, i), 1e-12);
      slipped += weight * slipShare(joined, column, i);
    }
    slip += (probability[h] ?? 0) * slipped;
    whole += probability[h] ?? 0;
    return inverse > 0 ? 1 / inverse : 0;
  });
  return { own, slip: whole > 0 ? slip / whole : 0 };
}

function evidenceOf(joined: Joined, own: readonly number[], probability: Float64Array, h: number): Evidence {
  let others = 0;
  let weight = 0;
  own.forEach((value, other) => {
    if (other === h) return;
    others += (probability[other] ?? 0) * value;
    weight += probability[other] ?? 0;
  });
  const against = weight > 0 ? others / weight : (own[h] ?? 1);
  const factor = Math.min(1e6, Math.max(1e-6, (own[h] ?? 0) / Math.max(against, 1e-300)));
  return {
    reading: joined.taken.id,
    check: joined.taken.check,
    factor,
    words: evidenceWords(joined, factor),
  };
}

/** "Volts at the battery, idling: speaks 12 to 1 for it." */
function evidenceWords(joined: Joined, factor: number): string {
  const ratio = factor >= 1 ? factor : 1 / factor;
  const size = ratio >= 1000 ? 'more than 1000' : ratio >= 10 ? String(Math.round(ratio)) : ratio.toFixed(1);
  return `${joined.check.text.words}: speaks ${size} to 1 ${factor >= 1 ? 'for' : 'against'} it`;
}
