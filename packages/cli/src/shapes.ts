/** From the core's data (SI) to the published shapes (the units that a technician reads). */
import { fromSI, sureness } from '@ampwright/core';
import type { Band, Conclusion, Condition, PlacedCheck, Suspect } from '@ampwright/core';
import type { Job } from '@ampwright/jobs';
import type { BandShape, CheckShape, JobHead } from './outputs.ts';

/** A check in the shape of `checks` and `ask`. */
export function shapeOfCheck(check: PlacedCheck): CheckShape {
  const { text } = check;
  return {
    check: check.id,
    catalogue: text.id,
    part: check.part ?? null,
    words: text.words,
    way: text.way,
    minutes: text.minutes,
    skill: text.skill,
    risk: text.risk,
    tools: [...text.tools],
    needs: [...text.needs],
    cautions: [...text.cautions],
    steps: [...text.steps],
    condition: shapeOfCondition(check.condition),
    outcome: shapeOfOutcome(check),
  };
}

export function shapeOfCondition(condition: Condition): CheckShape['condition'] {
  return {
    engine: condition.engine,
    engine_id: condition.engineId ?? null,
    engine_rpm: round(fromSI(condition.engineSpeed, 'rpm', 'speed').value),
    seconds_since_start: round(condition.sinceStart),
    rested_hours: round(condition.rested / 3600),
    loads: condition.loads,
    test_load_a: round(condition.testLoad),
    test_bank: condition.testBank ?? null,
    field: condition.field,
    excitation: condition.excitation,
    revved: condition.revved,
    other_sources: condition.otherSources,
    filled: condition.filled ?? false,
  };
}

/** A band of a check in the check's own unit; null for answers in words. */
export function shapeOfBand(band: Band | undefined, check: PlacedCheck | undefined): BandShape | null {
  if (band === undefined || check === undefined || check.outcome.kind !== 'number') return null;
  const { unit, dimension } = check.outcome;
  const inUnit = (value: number): number => round(fromSI(value, unit, dimension).value);
  return { low: inUnit(band.low), middle: inUnit(band.middle), high: inUnit(band.high), unit };
}

export function shapeOfConclusion(conclusion: Conclusion) {
  switch (conclusion.kind) {
    case 'decided':
      return { kind: conclusion.kind, suspect: conclusion.suspect };
    case 'no-check-worth-it':
      return { kind: conclusion.kind, suspects: [...conclusion.suspects] };
    case 'look-again':
    case 'nothing-fits':
    case 'readings-contradict':
      return { kind: conclusion.kind, repeat: conclusion.repeat ?? null };
    default:
      return { kind: conclusion.kind };
  }
}

export function shapeOfSuspect(suspect: Suspect) {
  return {
    id: suspect.id,
    fault: suspect.fault,
    part: suspect.part,
    nature: suspect.nature,
    question: suspect.question,
    probability: share(suspect.probability),
    odds: sureness(suspect.probability),
    words: suspect.words,
  };
}

export const headOfJob = (job: Job): JobHead => ({
  id: job.id,
  title: job.title ?? null,
  complaint: job.complaint ?? null,
});

/** A probability, freed of the last digit that a sum may have too much. */
export const share = (probability: number): number => Math.min(1, Math.max(0, probability));

/** Seven digits: enough for any instrument, and free of the noise of conversion. */
export const round = (value: number): number => Number(value.toPrecision(7));

function shapeOfOutcome({ outcome }: PlacedCheck): CheckShape['outcome'] {
  if (outcome.kind === 'answers') {
    return {
      kind: 'answers',
      question: outcome.question,
      answers: outcome.answers.map((answer) => ({ id: answer.id, words: answer.words })),
    };
  }
  const [low, high] = outcome.range;
  const inUnit = (value: number): number => round(fromSI(value, outcome.unit, outcome.dimension).value);
  return {
    kind: 'number',
    unit: outcome.unit,
    range: [inUnit(low), inUnit(high)],
    probe: { ...outcome.probe },
  };
}
