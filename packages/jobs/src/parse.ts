/** From the text of a file to a job, or to the list of what is wrong with it. */
import {
  formatQuantity,
  missedCurvePoints,
  partKinds,
  placedChecks,
  placedFaults,
  templateIds,
} from '@ampwright/core';
import type { QuantityKind } from '@ampwright/core';
import { descriptionOf } from './description.ts';
import { boatOfFacts, factProblems } from './facts.ts';
import { fieldsAt } from './fields.ts';
import { findingsOf } from './issues.ts';
import { jobFormat, jobVersion, type Job, type JobBoat, type JobFacts } from './job.ts';
import { migrated } from './migrations.ts';
import { normalised, type LooseJob } from './normalise.ts';
import { priceNotes } from './prices.ts';
import { placeOf, pointerOf, shown, type Problem } from './problem.ts';
import { factOf, quantityProblem } from './quantities.ts';
import { jobFileSchema } from './schema.ts';
import { readJson } from './text.ts';
import { visitProblems } from './visit-problems.ts';
import { wiringProblems } from './wiring.ts';
import { z } from './z.ts';

export type ParsedJob =
  /** `readOnly`: written by a newer version; it may be shown and diagnosed, never saved over. */
  | {
      readonly kind: 'job';
      readonly job: Job;
      readonly readOnly: boolean;
      readonly notes: readonly Problem[];
    }
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] };

/** The job of a file's text.  Short forms are expanded, old versions brought up to date, nulls dropped, unknown
 *  fields kept and noted.  Errors: none thrown for any text */
export function parseJob(text: string): ParsedJob {
  const read = readJson(text);
  if (read.kind === 'problem') return refused([read.problem]);
  const file = read.value;
  if (typeof file !== 'object' || file === null || Array.isArray(file))
    return refused([notAJob(file, '', file)]);
  const fields = file as Record<string, unknown>;
  if (fields.format !== jobFormat) return refused([notAJob(file, '/format', fields.format)]);
  const { version } = fields;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 0) {
    return refused([unknownVersion(version)]);
  }
  const newer = version > jobVersion ? [newerVersion(version)] : [];
  const root = migrated(fields, version);
  const checked = z.safeParse(jobFileSchema, root);
  const findings = findingsOf(root, checked.error?.issues ?? [], (path) => fieldsAt(root, path));
  if (findings.problems.length > 0) return refused([...newer, ...findings.problems]);
  const loose = normalised(root, findings.unknownPaths);
  const early = earlyProblems(root, loose);
  if (early.length > 0) return refused([...newer, ...early]);
  const job = withParts(loose);
  const problems = [...quantityProblems(root, job), ...wiringProblems(root, job.boat)];
  if (problems.length > 0) return refused([...newer, ...problems]);
  const boat = descriptionOf(job);
  const late = visitProblems(root, job, placedChecks(boat), placedFaults(boat));
  if (late.length > 0) return refused([...newer, ...late]);
  const notes = [
    ...newer,
    ...findings.notes,
    ...idleFacts(loose),
    ...curveNotes(root, job),
    ...priceNotes(root, job.prices),
  ];
  return { kind: 'job', job, readOnly: newer.length > 0, notes };
}

const refused = (problems: readonly Problem[]): ParsedJob => ({ kind: 'problems', problems });

/** Problems that must be out of the way before the parts of the boat can be listed. */
function earlyProblems(root: unknown, { boat }: LooseJob): Problem[] {
  const problems: Problem[] = [];
  const volts = [
    [['boat', 'nominal_voltage'], boat.nominal_voltage],
    [['boat', 'facts', 'nominal_voltage'], boat.facts?.nominal_voltage],
  ] as const;
  for (const [path, quantity] of volts) {
    if (quantity === undefined) continue;
    const problem = quantityProblem(root, path, quantity, { dimension: 'voltage', low: 12, high: 24 });
    if (problem?.kind === 'unknown-unit') problems.push(problem);
    else if (problem !== undefined || ![12, 24].includes(factOf(quantity, 'voltage').value)) {
      problems.push({
        kind: 'out-of-range',
        pointer: pointerOf(path),
        place: placeOf(root, path),
        value: `${quantity.value} ${quantity.unit}`,
        allowed: '12 V or 24 V',
        advice: 'Enter the nominal voltage; what a meter shows is a reading.',
      });
    }
  }
  if (boat.facts !== undefined) problems.push(...factProblems(root, ['boat', 'facts'], boat.facts));
  if (boat.parts === undefined && boat.template === undefined) {
    problems.push({
      kind: 'missing',
      pointer: '/boat/template',
      place: 'boat, template',
      value: 'nothing',
      allowed: `a template (${templateIds.join(', ')}) or a list of parts`,
      advice: 'Choose the template that is most like the boat.',
    });
  }
  return problems;
}

/** The job with the parts of its boat: its own, or those of its template and facts. */
function withParts(loose: LooseJob): Job {
  const { facts, parts, changed, ...rest } = loose.boat;
  if (parts !== undefined) {
    return {
      ...loose,
      boat: { ...rest, ...(facts === undefined ? {} : { facts }), changed: changed ?? [], parts },
    };
  }
  const known: JobFacts = {
    ...(rest.nominal_voltage === undefined ? {} : { nominal_voltage: rest.nominal_voltage }),
    ...facts,
  };
  const all = [...new Set([...(changed ?? []), ...(facts?.changed ?? [])])];
  const boat: JobBoat = { ...rest, ...boatOfFacts(rest.template!, { ...known, changed: all }) };
  return { ...loose, boat };
}

function quantityProblems(root: unknown, job: Job): Problem[] {
  return job.boat.parts.flatMap((part, index) => {
    const kinds: Readonly<Record<string, QuantityKind>> = partKinds[part.kind].quantities;
    return Object.entries(part.quantities).flatMap(([key, quantity]) => {
      const kind = Object.hasOwn(kinds, key) ? kinds[key] : undefined;
      if (kind === undefined) return [];
      return quantityProblem(root, ['boat', 'parts', index, 'quantities', key], quantity, kind) ?? [];
    });
  });
}

/** Points of an alternator's curve that no machine with its nameplate gives: read, and held as nearly as can be. */
function curveNotes(root: unknown, job: Job): Problem[] {
  return missedCurvePoints(descriptionOf(job)).map(({ part, quantity, speed, told, nearest }) => {
    const index = job.boat.parts.findIndex(({ id }) => id === part);
    const path = ['boat', 'parts', index, 'quantities', quantity];
    const amps = (current: number): string => formatQuantity(current, 'current');
    return {
      kind: 'curve-not-met',
      pointer: pointerOf(path),
      place: placeOf(root, path),
      value: amps(told),
      allowed:
        nearest === undefined
          ? 'amps that rise with speed and stay below the rated ones'
          : `about ${amps(nearest)}: the nearest that a machine with the rest of this nameplate gives at ${formatQuantity(speed, 'speed')}`,
      advice: 'Check this point against the nameplate or the curve; the nearest curve is used.',
    };
  });
}

/** Facts beside a list of parts: the parts are what counts. */
function idleFacts({ boat }: LooseJob): Problem[] {
  if (boat.facts === undefined || boat.parts === undefined) return [];
  return [
    {
      kind: 'unknown-field',
      pointer: '/boat/facts',
      place: 'boat, facts',
      value: 'an object',
      allowed: 'facts, or parts, not both',
      advice: 'The parts are used; the facts are kept and not used.',
    },
  ];
}

const notAJob = (root: unknown, pointer: string, value: unknown): Problem => ({
  kind: 'not-a-job',
  pointer,
  place: pointer === '' ? placeOf(root, []) : 'format',
  value: shown(value),
  allowed: pointer === '' ? 'an object in braces' : `"${jobFormat}"`,
  advice: 'This is not a job file: check that it is the right one, or make one with: ampwright new',
});

const unknownVersion = (version: unknown): Problem => ({
  kind: 'unknown-version',
  pointer: '/version',
  place: 'version',
  value: shown(version),
  allowed: `a whole number from 0 to ${jobVersion}`,
  advice: `Write ${jobVersion} where the file follows the published schema.`,
});

const newerVersion = (version: number): Problem => ({
  kind: 'newer-version',
  pointer: '/version',
  place: 'version',
  value: shown(version),
  allowed: `up to ${jobVersion}`,
  advice: 'Update this program to change the file. Until then it is read only and is never written over.',
});
