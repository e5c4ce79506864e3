/** `checks [JOB]`: every check of the catalogue, or those of a boat as placed. */
import { boatFromTemplate, checkCatalogue, templateIds } from '@ampwright/core';
import type { Check, TemplateId, TenFacts } from '@ampwright/core';
import { checkText } from '../check-text.ts';
import type { ChecksShape } from '../outputs.ts';
import { plain } from '../say.ts';
import { headOfJob, shapeOfCheck } from '../shapes.ts';
import type { Work } from '../work.ts';
import type { Result } from './result.ts';

/** The checks of a job's boat; without a job the catalogue, each check on the first usual boat that has it. */
export function checks(work: Work | undefined): Result {
  const json: ChecksShape = {
    format: 'ampwright-checks',
    version: 1,
    job: work === undefined ? null : headOfJob(work.job),
    checks:
      work === undefined
        ? checkCatalogue.flatMap((check) => catalogueEntry(check) ?? [])
        : work.checks.map(shapeOfCheck),
  };
  const title =
    work === undefined
      ? `${json.checks.length} checks; condition and probe as on a usual boat`
      : `${json.checks.length} checks on ${plain(work.job.title ?? 'this boat')}`;
  return { json, text: [title, ...json.checks.map(checkText)].join('\n\n'), code: 0 };
}

/** Boats on which the catalogue is shown, the plainest first. */
const examples: readonly { readonly template: TemplateId; readonly facts: TenFacts }[] = [
  ...templateIds.map((template) => ({ template, facts: {} })),
  ...templateIds.map((template) => ({
    template,
    facts: { regulatorPlace: 'outside', excitation: 'ignition' } as const,
  })),
  ...templateIds.map((template) => ({
    template,
    facts: { regulatorPlace: 'inside', excitation: 'ignition' } as const,
  })),
];

function catalogueEntry(check: Check): ChecksShape['checks'][number] | undefined {
  for (const { template, facts } of examples) {
    const placed = check.place(boatFromTemplate(template, facts))[0];
    if (placed === undefined) continue;
    return {
      ...shapeOfCheck(placed),
      check: check.id,
      example_on: {
        template,
        regulator_place: facts.regulatorPlace ?? null,
        excitation: facts.excitation ?? null,
      },
    };
  }
  return withoutTemplate(check);
}

/** A check of parts that no template has: another charging source beside the bank. */
function withoutTemplate(check: Check): ChecksShape['checks'][number] | undefined {
  const boat = boatFromTemplate('one-battery');
  const source = { id: 'charger', kind: 'source', quantities: {}, choices: {} } as const;
  const placed = check.place({ ...boat, parts: [...boat.parts, source] })[0];
  if (placed === undefined) return undefined;
  return {
    ...shapeOfCheck(placed),
    check: check.id,
    example_on: { template: 'one-battery', regulator_place: null, excitation: null },
  };
}
