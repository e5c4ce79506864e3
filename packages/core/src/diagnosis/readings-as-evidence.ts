/** Readings as the inference engine wants them: which observable, which value, which errors. */
import { errorScaleOf } from './error-scale.ts';
import { answerSlip, errorsAt } from './errors.ts';
import type { PlacedCheck } from '../checks/index.ts';
import type { Reading as TakenReading } from '../readings/index.ts';
import type { Reading } from './inference/index.ts';
import type { BoatModel } from './model.ts';

/** A reading joined with its observable. */
export interface Joined {
  readonly taken: TakenReading;
  readonly check: PlacedCheck;
  readonly observable: number;
  /** On the error scale of the check. */
  readonly evidence: Reading;
  /** A number in the unit of the check, within its range. */
  readonly value?: number;
}

export type JoinProblem = {
  readonly kind: 'unknown-check' | 'unknown-answer' | 'wrong-kind';
  readonly reading: string;
  readonly check: string;
  readonly allowed: readonly string[];
};

/** Joins readings with observables; readings that could not be taken are left out, odd ones are returned as problems. */
export function joinReadings(
  model: BoatModel,
  readings: readonly TakenReading[],
): { readonly joined: readonly Joined[]; readonly problems: readonly JoinProblem[] } {
  const joined: Joined[] = [];
  const problems: JoinProblem[] = [];
  for (const taken of readings) {
    if (taken.outcome.kind === 'could-not') continue;
    const observable = observableFor(model, taken);
    const check = observable === undefined ? undefined : model.checks[observable];
    if (check === undefined || observable === undefined) {
      const allowed = [...new Set(model.checks.map((one) => one.id))];
      problems.push({ kind: 'unknown-check', reading: taken.id, check: taken.check, allowed });
      continue;
    }
    const { outcome } = check;
    if (outcome.kind === 'number' && taken.outcome.kind === 'number') {
      const [low, high] = outcome.range;
      const value = Math.min(high, Math.max(low, taken.outcome.value));
      joined.push({
        taken,
        check,
        observable,
        value,
        evidence: numberEvidence(observable, check, taken, value),
      });
    } else if (outcome.kind === 'answers' && taken.outcome.kind === 'answer') {
      const { answer } = taken.outcome;
      const index = outcome.answers.findIndex((one) => one.id === answer);
      if (index < 0) {
        const allowed = outcome.answers.map((one) => one.id);
        problems.push({ kind: 'unknown-answer', reading: taken.id, check: taken.check, allowed });
      } else
        joined.push({
          taken,
          check,
          observable,
          evidence: { kind: 'categorical', observable, outcome: index, slip: answerSlip(check) },
        });
    } else {
      const allowed =
        outcome.kind === 'number' ? [`a number in ${outcome.unit}`] : outcome.answers.map((one) => one.id);
      problems.push({ kind: 'wrong-kind', reading: taken.id, check: taken.check, allowed });
    }
  }
  return { joined, problems };
}

/** The observable of a reading; a new one when its condition differed from the check's own. */
function observableFor(model: BoatModel, taken: TakenReading): number | undefined {
  const repairs = model.repairsOf(taken.afterRepairOf ?? []);
  const own = model.observableOf(taken.check, repairs);
  const check = model.checks[own];
  if (check === undefined) return undefined;
  const { engineSpeed, sinceStart } = taken;
  const running = check.condition.engine === 'running';
  const speedDiffers =
    running && engineSpeed !== undefined && Math.abs(engineSpeed - check.condition.engineSpeed) > 0.5;
  const timeDiffers =
    running && sinceStart !== undefined && Math.abs(sinceStart - check.condition.sinceStart) > 1;
  // A question is about its own condition.
  if (check.outcome.kind !== 'number' || (!speedDiffers && !timeDiffers)) return own;
  const condition = {
    ...check.condition,
    ...(engineSpeed === undefined ? {} : { engineSpeed }),
    ...(sinceStart === undefined ? {} : { sinceStart }),
  };
  const same = model.checks.findIndex(
    (one, number) =>
      one.id === check.id &&
      model.repairs[number] === repairs &&
      one.condition.engineSpeed === condition.engineSpeed &&
      one.condition.sinceStart === condition.sinceStart,
  );
  return same >= 0 ? same : model.observe({ ...check, condition }, repairs);
}

function numberEvidence(observable: number, check: PlacedCheck, taken: TakenReading, value: number): Reading {
  if (check.outcome.kind !== 'number') throw new RangeError(`numberEvidence: ${check.id} is no number`);
  const scale = errorScaleOf(check.outcome);
  return { kind: 'numeric', observable, value: scale.to(value), ...errorsAt(check, taken.meter, value) };
}
