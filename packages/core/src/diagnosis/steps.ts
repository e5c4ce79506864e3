/** Reading after reading: each builds on the draws that the ones before it left. A list of readings is always gone through
 *  from the first one on, so that the same list gives the same answer, however much of it was known before. */
import { posteriorGiven, type DrawCache, type EvidenceState } from './inference/index.ts';
import type { Posterior, PosteriorReliability, Reading } from './inference/index.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { BoatModel, Repairs } from './model.ts';
import { pairsWorthWeighing } from './pairs.ts';
import type { Joined } from './readings-as-evidence.ts';
import { pairsWithRepaired } from './remaining.ts';
import criteria from './criteria.json' with { type: 'json' };

/** What is known after so many readings. */
export interface Step {
  /** The reading that led here, and what was put right. */
  readonly key: string;
  readonly posterior: Posterior;
  readonly reliability: PosteriorReliability;
  readonly work: ReadonlyMap<number, EvidenceState>;
}

/** The step after the last of these readings, with all repairs told of. `steps`: those of an earlier list; made to be those of
 *  this one. */
export function stepsTo(
  model: BoatModel,
  cache: DrawCache,
  steps: Step[],
  joined: readonly Joined[],
  repairs: Repairs,
): Step {
  for (let count = 0; count <= joined.length; count++) {
    const told = joined.slice(0, count).flatMap(({ taken }) => taken.afterRepairOf ?? []);
    const repaired = count === joined.length ? repairs : model.repairsOf(told);
    const key = JSON.stringify([joined[count - 1]?.evidence, repaired]);
    if (steps[count]?.key === key) continue;
    steps.length = count;
    steps.push(nextStep(model, cache, steps[count - 1], key, joined.slice(0, count), repaired));
  }
  steps.length = joined.length + 1;
  return steps[joined.length]!;
}

function nextStep(
  model: BoatModel,
  cache: DrawCache,
  before: Step | undefined,
  key: string,
  joined: readonly Joined[],
  repairs: Repairs,
): Step {
  const readings = joined.map(({ evidence }) => evidence);
  const work = new Map(before?.work);
  const numbers = new Set(model.hypotheses.flatMap(({ members }, h) => (members.length === 1 ? [h] : [])));
  let { posterior, reliability } = weigh(model, cache, numbers, readings, work);
  const weighAlso = (pairs: readonly Hypothesis[]): void => {
    if (pairs.length === 0) return;
    for (const pair of pairs) numbers.add(model.weigh(pair));
    ({ posterior, reliability } = weigh(model, cache, numbers, readings, work));
  };
  weighAlso(pairsWithRepaired(model.hypotheses, repairs, posterior.probability));
  weighAlso(pairsWorthWeighing(model.hypotheses, posterior, joined));
  return { key, posterior, reliability, work };
}

const weigh = (
  model: BoatModel,
  cache: DrawCache,
  numbers: ReadonlySet<number>,
  readings: readonly Reading[],
  work: Map<number, EvidenceState>,
): ReturnType<typeof posteriorGiven> =>
  posteriorGiven(
    cache,
    model.hypotheses.map(({ prior }, h) => (numbers.has(h) ? prior : 0)),
    readings,
    {
      nothingFits: criteria.nothingFits,
      dropBelow: criteria.dropBelow,
      screenMargin: criteria.screenMargin,
      evidence: criteria.evidence,
    },
    work,
  );
