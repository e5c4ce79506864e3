/** Suspects with what speaks for and against them, and the cleared ones with the reading that cleared them.
 *
 *  A reading's own say about a fault, the other readings known:  p(r | others, h) = 1 / E[1 / p(r | θ)]
 *  over the posterior draws θ of h (harmonic identity). Its odds factor is that over the same for all other faults.
 *  Source: Gelfand, Dey & Chang 1992, conditional predictive ordinate (from memory).
 */
import type { WeightedDraws } from './inference/index.ts';
import { readingLikelihood, slipShare } from './likelihood-of.ts';
import type { Joined } from './readings-as-evidence.ts';
import type { State } from './state.ts';
import type { Cleared, Evidence, Suspect } from './verdict.ts';
import criteria from './criteria.json' with { type: 'json' };

/** `before`: taken before the last repair. */
type Dated = Joined & { readonly before: boolean };

interface Found {
  readonly suspects: readonly Suspect[];
  readonly cleared: readonly Cleared[];
  /** What each reading says, in the order of the joined readings. */
  readonly says: readonly Says[];
}

/** One reading's say about all hypotheses. */
export interface Says {
  /** p(r | others, h); NaN for a hypothesis that was out before it, 0 for one that is out now. */
  readonly own: readonly number[];
  /** Chance that it is a slip of the hand. */
  readonly slip: number;
}

export function suspectsAndCleared(state: State): Found {
  const { model, posterior, reliability, joined, repairs, remaining } = state;
  const says = joined.map((one) => sayOf(one, posterior.draws, posterior.probability));
  const priors = Float64Array.from(model.hypotheses, ({ prior }, h) =>
    posterior.draws[h] === undefined ? 0 : prior,
  );
  const evidence = joined.map((one) => ({ ...one, before: model.repairs[one.observable] !== repairs }));
  const suspects: Suspect[] = [];
  const cleared: Cleared[] = [];
  for (const placed of model.hypotheses.flatMap(({ members }) => (members.length === 1 ? members : []))) {
    if (repairs.includes(placed.id)) continue;
    const leaves = model.hypotheses.map(({ members }) => members.some(({ id }) => id === placed.id));
    const has = Array.from(remaining, (left) => leaves[left] === true);
    const sum = (of: (h: number) => number): number =>
      has.reduce((total, yes, h) => total + (yes ? of(h) : 0), 0);
    const probability = sum((h) => posterior.probability[h] ?? 0);
    const { fault } = placed;
    if (probability >= criteria.showFrom) {
      // Against all that might have been, not only against what is left: that is what a person asks by "why".
      const why = evidence
        .map((one, index) => evidenceOf(one, says[index]?.own ?? [], posterior.probability, priors, has))
        .sort((a, b) => Math.abs(Math.log(b.factor)) - Math.abs(Math.log(a.factor)));
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
        error: Math.sqrt(sum((h) => (reliability.standardError[h] ?? 0) ** 2)),
        prior: placed.prior,
        why: why.filter(({ factor }) => factor > 1.15 || factor < 0.87),
      });
    }
    if (probability >= criteria.clearedBelow || probability >= 0.3 * placed.prior) continue;
    const [strongest] = evidence
      .map((one, index) =>
        evidenceOf(one, says[index]?.own ?? [], posterior.probability, posterior.probability, has),
      )
      .sort((a, b) => a.factor - b.factor);
    if (strongest !== undefined && strongest.factor < 0.3) {
      cleared.push({ id: placed.id, words: fault.words, by: strongest, probability });
    }
  }
  suspects.sort((a, b) => b.probability - a.probability || (a.id < b.id ? -1 : 1));
  return { suspects, cleared, says };
}

/** What a reading says, the others known. */
export function sayOf(
  joined: Joined,
  draws: readonly (WeightedDraws | undefined)[],
  probability: Float64Array,
): Says {
  let slip = 0;
  let whole = 0;
  const own = draws.map((cloud, h) => {
    if (cloud === undefined) return 0;
    const column = cloud.columnOf(joined.observable);
    if (column.length === 0) return NaN;
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

/** `weights`: how much each other hypothesis counts; `own` ones count by their probability. */
function evidenceOf(
  joined: Dated,
  says: readonly number[],
  probability: Float64Array,
  weights: Float64Array,
  own: readonly boolean[],
): Evidence {
  let [mine, mineWeight, others, othersWeight] = [0, 0, 0, 0];
  says.forEach((value, h) => {
    if (Number.isNaN(value)) return;
    if (own[h] === true) {
      const weight = (probability[h] ?? 0) + 1e-12;
      mine += weight * value;
      mineWeight += weight;
    } else {
      others += (weights[h] ?? 0) * value;
      othersWeight += weights[h] ?? 0;
    }
  });
  if (mineWeight === 0) return { reading: joined.taken.id, check: joined.taken.check, factor: 1, words: '' };
  const against = othersWeight > 0 ? others / othersWeight : mine / mineWeight;
  const factor = Math.min(1e6, Math.max(1e-6, mine / mineWeight / Math.max(against, 1e-300)));
  return {
    reading: joined.taken.id,
    check: joined.taken.check,
    factor,
    words: evidenceWords(joined, factor),
  };
}

/** "Volts at the battery, idling: speaks 12 to 1 for it." */
function evidenceWords({ check, before }: Dated, factor: number): string {
  const ratio = factor >= 1 ? factor : 1 / factor;
  const size = ratio >= 1000 ? 'more than 1000' : ratio >= 10 ? String(Math.round(ratio)) : ratio.toFixed(1);
  const asked = `${check.text.words}${before ? ', before the repair' : ''}`;
  const says = asked.endsWith('?') ? `${asked} Speaks` : `${asked}: speaks`;
  return `${says} ${size} to 1 ${factor >= 1 ? 'for' : 'against'} it`;
}
