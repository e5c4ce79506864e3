/** Which check to do next: most worth for its minutes (worth.ts), risk counted as minutes one would give to be spared it. Never
 *  beyond the stated skill, never one that was done or could not be done. After a repair a check is open anew, but for questions
 *  to the owner: he has not lived with the repaired boat. */
import { conditionsLeft, skills, waitFor, type PlacedCheck } from '../checks/index.ts';
import { bandOf, healthyColumns } from './healthy.ts';
import {
  gainPerMinute,
  informationOf,
  sampleColumns,
  thinnedSample,
  type Candidate,
  type Outcome,
  type PosteriorSample,
} from './inference/index.ts';
import { errorScaleOf } from './error-scale.ts';
import { answerSlip, errorsAt } from './errors.ts';
import type { BoatModel } from './model.ts';
import { chancesLeft } from './remaining.ts';
import { presentOf, type State } from './state.ts';
import type { Band, NextCheck, OutcomePreview } from './verdict.ts';
import { checkCost, inOrderOfWorth, savingOf, worthOf, worthOfBit } from './worth.ts';
import criteria from './criteria.json' with { type: 'json' };

/** Predictions of every placed check over a sample, as the boat stands now: one operating point serves all checks of a condition. */
export function columnsFor(
  state: State,
  sample: PosteriorSample,
  checks: readonly PlacedCheck[],
): ReadonlyMap<number, Float64Array> {
  if (sample.count === 0) return new Map();
  return sampleColumns(
    state.model,
    sample,
    checks.map((check) => observableOf(state, check)),
  );
}

const observableOf = ({ model, repairs }: State, { id }: PlacedCheck): number =>
  model.observableOf(id, repairs);

/** Checks neither done on the boat as it stands nor ever found impossible, within the skill. */
export function openChecks(state: State, checks: readonly PlacedCheck[]): readonly PlacedCheck[] {
  const { readings, repairs, skill } = state;
  const done = new Set([
    ...presentOf(state).map(({ taken }) => taken.check),
    ...readings.filter(({ outcome }) => outcome.kind === 'could-not').map(({ check }) => check),
  ]);
  const allowed = skills.indexOf(skill);
  return checks.filter(
    ({ id, text }) =>
      !done.has(id) && skills.indexOf(text.skill) <= allowed && (repairs.length === 0 || text.way !== 'ask'),
  );
}

/** Open checks, best first. All are judged on a part of the sample, and the best of them once more on all of it; those come
 *  first. */
export function nextChecks(
  state: State,
  sample: PosteriorSample,
  open: readonly PlacedCheck[],
): readonly NextCheck[] {
  const rough = judged(state, thinnedSample(sample, criteria.thinned), open);
  const best = new Set(rough.slice(0, criteria.judgedTwice).map(({ check }) => check));
  const fine = judged(
    state,
    sample,
    open.filter(({ id }) => best.has(id)),
  );
  // What was judged once is no match for what was judged twice: fewer draws overrate some.
  return [...fine, ...rough.filter(({ check }) => !best.has(check))];
}

/** Each check, judged on these draws alone; best first. */
export function judged(
  state: State,
  sample: PosteriorSample,
  open: readonly PlacedCheck[],
): readonly NextCheck[] {
  const { model } = state;
  if (sample.count === 0 || open.length === 0) return [];
  const columns = columnsFor(state, sample, open);
  // Where one stands after this visit's readings decides how long the next check takes.
  const before = conditionsLeft(presentOf(state).map(({ check }) => check));
  const healthy = healthyColumns(
    state,
    open.filter(({ outcome }) => outcome.kind === 'number').map((check) => observableOf(state, check)),
  );
  const left = sampleLeft(state, sample);
  const bit = worthOfBit(state.tariff, left.probability);
  const found = open.map((check): NextCheck => {
    const observable = observableOf(state, check);
    const column = columns.get(observable) ?? new Float64Array();
    const own = healthy.get(observable);
    const band = own && bandOf(own, state.healthy.sample.weights, check);
    const { gain, outcomes } = informationOf(
      model.observables,
      left,
      column,
      candidateOf(check, observable, column, band),
    );
    const bits = Math.max(0, gain) / Math.LN2;
    const { words, risk } = check.text;
    const wait = waitFor(check, before);
    const minutes = check.text.minutes + wait;
    // To read the steps, get there and write down; and a wait that other checks will share.
    const spent = criteria.stepMinutes + check.text.minutes + criteria.waitCounted * wait;
    const bitsPerMinute = gainPerMinute(bits, spent, criteria.riskMinutes[risk] ?? 0);
    const saves = savingOf(state.tariff, outcomes);
    return {
      check: check.id,
      words,
      minutes,
      risk,
      bits,
      bitsPerMinute,
      saves,
      worth: worthOf(saves, bits, bit),
      costs: checkCost(state.tariff, spent, risk),
      healthy: band,
      previews: outcomes.flatMap((outcome) => previewOf(model, check, outcome, band)),
    };
  });
  return inOrderOfWorth(found);
}

/** The same draws, named by what is left of their hypotheses: what a check tells is counted about that. */
const sampleLeft = ({ remaining }: State, sample: PosteriorSample): PosteriorSample => ({
  ...sample,
  hypothesis: sample.hypothesis.map((h) => remaining[h] ?? h),
  probability: chancesLeft(remaining, sample.probability),
});

function candidateOf(
  check: PlacedCheck,
  observable: number,
  column: Float64Array,
  band: Band | undefined,
): Candidate {
  if (check.outcome.kind !== 'number') return { observable, slip: answerSlip(check) };
  const numbers = Array.from(column)
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  const scale = errorScaleOf(check.outcome);
  const middle = scale.from(numbers[Math.floor(numbers.length / 2)] ?? 0);
  return {
    observable,
    ...errorsAt(check, undefined, middle),
    ...(band === undefined ? {} : { band: [scale.to(band.low), scale.to(band.high)] as const }),
  };
}

function previewOf(
  model: BoatModel,
  check: PlacedCheck,
  outcome: Outcome,
  band: Band | undefined,
): OutcomePreview[] {
  if (!(outcome.probability > 0.005)) return [];
  let first = 0;
  outcome.posterior.forEach((chance, h) => {
    if (chance > (outcome.posterior[first] ?? 0)) first = h;
  });
  const then = model.hypotheses[first];
  const named = namesOf(check, outcome, band);
  return [
    {
      ...named,
      chance: outcome.probability,
      then: then?.id ?? 'nothing-fits',
      thenProbability: outcome.posterior[first] ?? 0,
    },
  ];
}

function namesOf(
  check: PlacedCheck,
  outcome: Outcome,
  band: Band | undefined,
): { outcome: string; words: string } {
  if (check.outcome.kind === 'answers') {
    const answer = check.outcome.answers[outcome.answer ?? 0];
    return { outcome: answer?.id ?? '', words: answer?.words ?? '' };
  }
  if (band === undefined) return { outcome: 'any', words: 'Any value' };
  const scale = errorScaleOf(check.outcome);
  if ((outcome.high ?? Infinity) <= scale.to(band.low) + 1e-9)
    return { outcome: 'low', words: 'Below the healthy band' };
  if ((outcome.low ?? -Infinity) >= scale.to(band.high) - 1e-9)
    return { outcome: 'high', words: 'Above the healthy band' };
  return { outcome: 'in', words: 'Within the healthy band' };
}
