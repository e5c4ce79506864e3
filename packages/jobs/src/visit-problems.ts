/** Judges the visits of a job: ids, what was put right, which checks the readings speak of, and whether their numbers can be. */
import { fromSI, nearestNames, toSI, unknownUnit } from '@ampwright/core';
import type { PlacedCheck, PlacedFault } from '@ampwright/core';
import { findPlacedCheck } from './description.ts';
import type { Job, JobReading } from './job.ts';
import { placeOf, pointerOf, shown, type Path, type Problem } from './problem.ts';
import { quantityProblem } from './quantities.ts';
import { duplicateId } from './wiring.ts';

const RPM = Math.PI / 30;
const engineSpeeds = { dimension: 'speed', low: 0, high: 8000 * RPM } as const;
const timesSinceStart = { dimension: 'time', low: 0, high: 48 * 3600 } as const;

/** What is wrong with the visits and readings of a job. */
export function visitProblems(
  root: unknown,
  job: Job,
  checks: readonly PlacedCheck[],
  faults: readonly PlacedFault[],
): Problem[] {
  const problems: Problem[] = [];
  const visitIds = new Map<string, string>();
  const readingIds = new Map<string, string>();
  job.visits.forEach((visit, index) => {
    const path = ['visits', index];
    const first = visitIds.get(visit.id);
    if (first === undefined) visitIds.set(visit.id, placeOf(root, path));
    else problems.push(duplicateId(root, [...path, 'id'], visit.id, 'another visit'));
    if (visit.engine?.speed !== undefined) {
      keep(problems, quantityProblem(root, [...path, 'engine', 'speed'], visit.engine.speed, engineSpeeds));
    }
    visit.repairs?.forEach((id, position) => {
      const place = [...path, 'repairs', position];
      const repair = repairProblem(id, faults);
      if (repair !== undefined)
        problems.push({ pointer: pointerOf(place), place: placeOf(root, place), ...repair });
    });
    visit.readings.forEach((reading, position) => {
      const place = [...path, 'readings', position];
      if (readingIds.has(reading.id)) {
        problems.push(duplicateId(root, [...place, 'id'], reading.id, readingIds.get(reading.id)!));
      } else readingIds.set(reading.id, placeOf(root, place));
      if (reading.engine_speed !== undefined) {
        keep(problems, quantityProblem(root, [...place, 'engine_speed'], reading.engine_speed, engineSpeeds));
      }
      if (reading.since_start !== undefined) {
        keep(
          problems,
          quantityProblem(root, [...place, 'since_start'], reading.since_start, timesSinceStart),
        );
      }
      problems.push(...readingProblems(root, place, reading, checks));
    });
  });
  return problems;
}

const keep = (problems: Problem[], problem: Problem | undefined): void => {
  if (problem !== undefined) problems.push(problem);
};

/** What is wrong with the id of something that was put right. In a normal state nothing is broken, so nothing can be. */
export function repairProblem(
  id: string,
  faults: readonly PlacedFault[],
): Omit<Problem, 'pointer' | 'place'> | undefined {
  const broken = faults.filter(({ fault }) => fault.nature === 'fault');
  if (broken.some((placed) => placed.id === id)) return undefined;
  const ids = (list: readonly PlacedFault[]): string[] => list.map((placed) => placed.id);
  const elsewhere = ids(broken.filter(({ fault }) => fault.id === id.split('@')[0]));
  const nearest = elsewhere.length > 0 ? elsewhere : nearestNames(id, ids(broken));
  return {
    kind: 'unknown-fault',
    value: shown(id),
    allowed: `a fault that this boat can have, fault@part${nearest.length === 0 ? '' : `, such as ${nearest.join(', ')}`}`,
    advice: 'List them with: ampwright faults JOB',
    nearest,
  };
}

/** What is wrong with one reading at a place of a file. */
export function readingProblems(
  root: unknown,
  path: Path,
  reading: JobReading,
  checks: readonly PlacedCheck[],
): Problem[] {
  const problem = (step: string, rest: Omit<Problem, 'pointer' | 'place'>): Problem[] => [
    { pointer: pointerOf([...path, step]), place: placeOf(root, [...path, step]), ...rest },
  ];
  const found = findPlacedCheck(reading.check, checks);
  if (found.kind === 'unknown-check') {
    return problem('check', {
      kind: 'unknown-check',
      value: shown(reading.check),
      allowed: `the id of a check on this boat${found.nearest.length === 0 ? '' : `, such as ${found.nearest.join(', ')}`}`,
      advice: 'List them with: ampwright checks JOB',
      nearest: found.nearest,
    });
  }
  const { outcome } = found.check;
  const given = [reading.value !== undefined, reading.answer !== undefined, reading.could_not === true];
  const count = given.filter(Boolean).length;
  const wanted = outcome.kind === 'number' ? 'value' : 'answer';
  const allowed = `${outcomeWords(found.check)}, or could_not`;
  if (count > 1) {
    return problem(wanted, {
      kind: 'two-outcomes',
      value: shown(reading.value ?? reading.answer),
      allowed: `one of value, answer and could_not: here ${allowed}`,
      advice: 'Keep the one that is right; put the other in the note.',
    });
  }
  if (reading.could_not === true) return [];
  if (outcome.kind === 'answers') {
    if (reading.answer !== undefined && outcome.answers.some((answer) => answer.id === reading.answer))
      return [];
    const ids = outcome.answers.map((answer) => answer.id);
    const nearest = nearestNames(reading.answer ?? '', ids);
    return problem('answer', {
      kind: reading.answer === undefined ? 'no-outcome' : 'unknown-answer',
      value: shown(reading.answer ?? reading.value),
      allowed,
      advice: nearest[0] === undefined ? 'Choose one of these.' : `Did you mean ${nearest[0]}?`,
      nearest,
    });
  }
  if (reading.value === undefined) {
    return problem('value', {
      kind: 'no-outcome',
      value: shown(reading.answer),
      allowed,
      advice: 'Enter the number, or could_not: true where it could not be taken.',
    });
  }
  const unit = reading.unit ?? outcome.unit;
  const result = toSI({ value: reading.value, unit }, outcome.dimension);
  if (result.kind === 'unknown-unit') {
    const { allowed: units, nearest } = unknownUnit(unit, outcome.dimension);
    return problem('unit', {
      kind: 'unknown-unit',
      value: shown(unit),
      allowed: units.join(', '),
      advice: nearest[0] === undefined ? 'Use one of these units.' : `Did you mean ${nearest[0]}?`,
      nearest,
    });
  }
  if (result.kind === 'ok' && isPlausible(result.value, outcome.range)) return [];
  return problem('value', {
    kind: 'implausible-reading',
    value: `${reading.value} ${unit}`,
    allowed,
    advice: 'Check the decimal point and the unit; take the reading again if in doubt.',
  });
}

/** Whether a number can be a reading at all: within the check's range, give or take a tenth of its width, since a
 *  meter may show a little less than nothing. */
export function isPlausible(value: number, [low, high]: readonly [number, number]): boolean {
  const margin = (high - low) / 10;
  return value >= low - margin && value <= high + margin;
}

/** "0 to 20 V" or "yes, no": what a check may give. */
export function outcomeWords({ outcome }: PlacedCheck): string {
  if (outcome.kind === 'answers') return outcome.answers.map((answer) => answer.id).join(', ');
  const [low, high] = outcome.range.map((end) =>
    Number(fromSI(end, outcome.unit, outcome.dimension).value.toPrecision(4)),
  );
  return `${low} to ${high} ${outcome.unit}`;
}
