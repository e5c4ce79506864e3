/** A job's boat and readings as the core takes them: SI, nothing but what is known. */
import { findUnit, nearestNames, partKinds, toSI } from '@ampwright/core';
import type {
  BoatDescription,
  PartDescription,
  PlacedCheck,
  QuantityKind,
  Reading,
  Terminal,
} from '@ampwright/core';
import type { Job, JobBoat, JobReading, JobVisit } from './job.ts';
import { factOf } from './quantities.ts';

/** The boat of a job.  An alternator, belt or regulator that names nothing serves the only candidate. */
export function descriptionOf(job: { readonly boat: JobBoat }): BoatDescription {
  const { boat } = job;
  const volts = boat.nominal_voltage === undefined ? 12 : factOf(boat.nominal_voltage, 'voltage').value;
  return {
    nominalVoltage: volts === 24 ? 24 : 12,
    changed: boat.changed,
    parts: boat.parts.map((part): PartDescription => {
      const kinds: Readonly<Record<string, QuantityKind>> = partKinds[part.kind].quantities;
      const serves = part.serves ?? onlyServed(boat, part.kind);
      return {
        id: part.id,
        kind: part.kind,
        ...(part.label === undefined ? {} : { label: part.label }),
        ...(part.from === undefined ? {} : { from: part.from as Terminal }),
        ...(part.to === undefined ? {} : { to: part.to as Terminal }),
        ...(serves === undefined ? {} : { serves }),
        quantities: Object.fromEntries(
          Object.entries(part.quantities)
            .filter(([key]) => Object.hasOwn(kinds, key))
            .map(([key, quantity]) => [key, factOf(quantity, kinds[key]!.dimension)]),
        ),
        choices: Object.fromEntries(
          Object.entries(part.choices).filter(([key]) => Object.hasOwn(partKinds[part.kind].choices, key)),
        ),
      };
    }),
  };
}

/** What an alternator (its engine), a belt or a regulator (its alternator) serves; undefined for other kinds. */
export function servedKind(kind: string): 'engine' | 'alternator' | undefined {
  if (kind === 'alternator') return 'engine';
  return kind === 'belt' || kind === 'regulator' ? 'alternator' : undefined;
}

function onlyServed(boat: JobBoat, kind: string): string | undefined {
  const wanted = servedKind(kind);
  const candidates = boat.parts.filter((part) => part.kind === wanted);
  return candidates.length === 1 ? candidates[0]!.id : undefined;
}

export type FoundCheck =
  | { readonly kind: 'found'; readonly check: PlacedCheck }
  | { readonly kind: 'unknown-check'; readonly nearest: readonly string[] };

/** The placed check of an id; the id of the catalogue alone will do where it stands in one place only. */
export function findPlacedCheck(id: string, checks: readonly PlacedCheck[]): FoundCheck {
  const exact = checks.find((check) => check.id === id);
  if (exact !== undefined) return { kind: 'found', check: exact };
  const bare = checks.filter((check) => check.text.id === id);
  if (bare.length === 1) return { kind: 'found', check: bare[0]! };
  const nearest =
    bare.length > 1
      ? bare.map((check) => check.id)
      : nearestNames(
          id,
          checks.map((check) => check.id),
        );
  return { kind: 'unknown-check', nearest };
}

/** Readings of a visit in SI. Those that name no check of this boat, or whose number has no such unit, are left out:
 *  `parseJob` has refused or named them.  Ids are unique within the visit. */
export function readingsOf(visit: JobVisit, checks: readonly PlacedCheck[]): Reading[] {
  return visit.readings.flatMap((reading) => {
    const found = findPlacedCheck(reading.check, checks);
    return found.kind === 'found' ? (siReading(reading, found.check) ?? []) : [];
  });
}

/** The visits that speak of one trouble, oldest first: a visit after repairs goes on with the one before it. */
function continuedVisits(job: Job, visit: JobVisit): readonly JobVisit[] {
  const earlier = job.visits[job.visits.indexOf(visit) - 1];
  const goesOn = (visit.repairs ?? []).length > 0 && earlier !== undefined;
  return goesOn ? [...continuedVisits(job, earlier), visit] : [visit];
}

/** What a diagnosis at a visit goes by. */
export interface VisitEvidence {
  /** Readings before and after repairs, each with what had been put right by then. */
  readonly readings: readonly Reading[];
  readonly repaired: readonly string[];
}

/** The readings of a visit of the job and, where it goes on after repairs, of those before it. */
export function evidenceOf(job: Job, visit: JobVisit, checks: readonly PlacedCheck[]): VisitEvidence {
  let repaired: readonly string[] = [];
  const readings = continuedVisits(job, visit).flatMap((one) => {
    repaired = [...repaired, ...(one.repairs ?? [])];
    const after = repaired.length === 0 ? {} : { afterRepairOf: repaired };
    return readingsOf(one, checks).map((reading) => ({ ...reading, ...after }));
  });
  return { readings, repaired };
}

/** Visits whose readings were taken when all was well, other than this one and those that it goes on with. */
export function baselineVisits(job: Job, visit: JobVisit): readonly JobVisit[] {
  const own = continuedVisits(job, visit);
  return job.visits.filter((other) => other.baseline && !own.includes(other));
}

function siReading(reading: JobReading, check: PlacedCheck): Reading | undefined {
  const outcome = outcomeOf(reading, check);
  if (outcome === undefined) return undefined;
  return {
    id: reading.id,
    check: check.id,
    outcome,
    ...(reading.engine_speed === undefined
      ? {}
      : { engineSpeed: factOf(reading.engine_speed, 'speed').value }),
    ...(reading.since_start === undefined ? {} : { sinceStart: factOf(reading.since_start, 'time').value }),
    ...(reading.meter === undefined ? {} : { meter: reading.meter }),
  };
}

function outcomeOf(reading: JobReading, check: PlacedCheck): Reading['outcome'] | undefined {
  if (reading.could_not === true) return { kind: 'could-not' };
  if (check.outcome.kind === 'answers') {
    return reading.answer === undefined ? undefined : { kind: 'answer', answer: reading.answer };
  }
  if (reading.value === undefined) return undefined;
  const unit = reading.unit ?? check.outcome.unit;
  if (findUnit(unit, check.outcome.dimension) === undefined) return undefined;
  const result = toSI({ value: reading.value, unit }, check.outcome.dimension);
  return result.kind === 'ok' ? { kind: 'number', value: result.value } : undefined;
}
