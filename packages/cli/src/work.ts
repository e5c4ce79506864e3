/** A job made ready for the core: its boat, the checks that this boat allows, and the readings of one visit, with those that it goes
 *  on with after repairs. */
import { createSession, placedChecks } from '@ampwright/core';
import type { BoatDescription, PlacedCheck, Reading, Session, Verdict } from '@ampwright/core';
import {
  baselineVisits,
  descriptionOf,
  evidenceOf,
  pricesOf,
  readingsOf,
  type Job,
  type JobVisit,
} from '@ampwright/jobs';
import { WrongUse } from './files.ts';

export interface Work {
  readonly job: Job;
  readonly description: BoatDescription;
  readonly checks: readonly PlacedCheck[];
  readonly visit: JobVisit | undefined;
  readonly readings: readonly Reading[];
  /** Faults that were put right by now. */
  readonly repaired: readonly string[];
  readonly session: Session;
  readonly diagnose: (readings: readonly Reading[]) => Verdict;
}

/** The work of a job and one of its visits, the last one when none is named.
 *  Errors: WrongUse for an unknown visit */
export function workOf(job: Job, visitId?: string): Work {
  const description = descriptionOf(job);
  const checks = placedChecks(description);
  const visit = visitId === undefined ? job.visits.at(-1) : job.visits.find((one) => one.id === visitId);
  if (visitId !== undefined && visit === undefined) {
    const known = job.visits.map((one) => one.id).join(', ') || 'none';
    throw new WrongUse(`There is no visit "${visitId}"; the job has: ${known}.`);
  }
  const { readings, repaired } =
    visit === undefined ? { readings: [], repaired: [] } : evidenceOf(job, visit, checks);
  const baseline =
    visit === undefined ? [] : baselineVisits(job, visit).flatMap((one) => readingsOf(one, checks));
  const session = createSession(description, {
    ...(job.skill === undefined ? {} : { skill: job.skill }),
    ...(baseline.length === 0 ? {} : { baseline }),
    repaired,
    prices: pricesOf(job.prices),
  });
  return { job, description, checks, visit, readings, repaired, session, diagnose: session.diagnose };
}

/** Skills up to this one may do a check of that skill. */
export function maySkill(has: Job['skill'], needs: PlacedCheck['text']['skill']): boolean {
  const order = ['owner', 'apprentice', 'electrician'];
  return has === undefined || order.indexOf(needs) <= order.indexOf(has);
}
