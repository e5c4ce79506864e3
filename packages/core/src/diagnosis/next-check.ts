/** Which check to do next: information about what is wrong for each minute, risk counted as minutes one would give to be
 *  spared it. Never beyond the stated skill, never one that was done or could not be done. */
import { conditionsLeft, skills, waitFor, type PlacedCheck } from '../checks/index.ts';
import { bandOf, healthyColumns } from './healthy.ts';
import {
  gainPerMinute,
  informationOf,
  sampleColumns,
  type Candidate,
  type Outcome,
  type PosteriorSample,
} from './inference/index.ts';
import { errorScaleOf } from './error-scale.ts';
import { answerSlip, errorsAt } from './errors.ts';
import type { BoatModel } from './model.ts';
import type { State } from './state.ts';
import type { Band, NextCheck, OutcomePreview } from './verdict.ts';
import { checkCost, repairCost } from './worth.ts';
import criteria from './criteria.json' with { type: 'json' };

/** Predictions of every placed check over a sample: one operating point serves all checks of a condition. */
export function columnsFor(
  { model }: State,
  sample: PosteriorSample,
  checks: readonly PlacedCheck[],
): ReadonlyMap<number, Float64Array> {
  if (sample.count === 0) return new Map();
  return sampleColumns(
    model,
    sample,
    checks.map((check) => observableOf(model, check)),
  );
}

const observableOf = (model: BoatModel, check: PlacedCheck): number =>
  model.checks.findIndex((one) => one.id === check.id);

/** Checks neither done nor found impossible, within the skill. */
export function openChecks(
  { readings, skill }: State,
  checks: readonly PlacedCheck[],
): readonly PlacedCheck[] {
  const done = new Set(readings.map(({ check }) => check));
  const allowed = skills.indexOf(skill);
  return checks.filter((check) => !done.has(check.id) && skills.indexOf(check.text.skill) <= allowed);
}

/** Open checks, best first. */
export function nextChecks(
  state: State,
  sample: PosteriorSample,
  open: readonly PlacedCheck[],
  columns: ReadonlyMap<number, Float64Array>,
): readonly NextCheck[] {
  const { model } = state;
  if (sample.count === 0 || open.length === 0) return [];
  // Where one stands after this visit's readings decides how long the next check takes.
  const before = conditionsLeft(state.joined.map(({ check }) => check));
  const healthy = healthyColumns(
    state,
    open.filter(({ outcome }) => outcome.kind === 'number').map((check) => observableOf(model, check)),
  );
  return open
    .map((check): NextCheck => {
      const observable = observableOf(model, check);
      const column = columns.get(observable) ?? new Float64Array();
      const own = healthy.get(observable);
      const band = own && bandOf(own, state.healthy.sample.weights, check);
      const { gain, outcomes } = informationOf(
        model.observables,
        sample,
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
      return {
        check: check.id,
        words,
        minutes,
        risk,
        bits,
        bitsPerMinute,
        saves: savingOf(model, outcomes),
        costs: checkCost(minutes, risk),
        healthy: band,
        previews: outcomes.flatMap((outcome) => previewOf(model, check, outcome, band)),
      };
    })
    .sort((a, b) => b.bitsPerMinute - a.bitsPerMinute || (a.check < b.check ? -1 : 1));
}

/** What knowing the outcome saves in the expected cost of repair. */
function savingOf(model: BoatModel, outcomes: readonly Outcome[]): number {
  const before = new Float64Array(model.hypotheses.length + 1);
  let after = 0;
  for (const { probability, posterior } of outcomes) {
    for (let h = 0; h < before.length; h++) before[h]! += probability * (posterior[h] ?? 0);
    after += probability * repairCost(model, posterior);
  }
  return Math.max(0, repairCost(model, before) - after);
}

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
