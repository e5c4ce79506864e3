/** A fresh job from a template and what is known of the boat. */
import type { Skill, TemplateId } from '@ampwright/core';
import { boatOfFacts } from './facts.ts';
import { jobFormat, jobVersion, jobWriter, type Job, type JobFacts } from './job.ts';

export interface NewJobOptions {
  readonly template: TemplateId;
  readonly facts?: JobFacts;
  /** Ids are the caller's, who alone may draw them by chance. */
  readonly ids: { readonly job: string; readonly visit?: string };
  readonly title?: string;
  readonly complaint?: string;
  readonly skill?: Skill;
  /** ISO 8601 date; the caller has the clock. */
  readonly date?: string;
}

/** The job; with a visit to fill when an id for it is given.
 *  Errors: RangeError for a fact whose unit or value is not allowed (judge it with `factProblems` first) */
export function newJob({ template, facts, ids, title, complaint, skill, date }: NewJobOptions): Job {
  return {
    format: jobFormat,
    version: jobVersion,
    writer: jobWriter,
    id: ids.job,
    ...(title === undefined ? {} : { title }),
    ...(complaint === undefined ? {} : { complaint }),
    ...(skill === undefined ? {} : { skill }),
    ...(date === undefined ? {} : { created: date }),
    boat: boatOfFacts(template, facts),
    visits:
      ids.visit === undefined
        ? []
        : [{ id: ids.visit, ...(date === undefined ? {} : { date }), readings: [], baseline: false }],
  };
}
