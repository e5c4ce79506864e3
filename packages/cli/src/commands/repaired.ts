/** `--repaired FAULT@PART`: one more visit to a job, made after repairs. */
import { placedFaults } from '@ampwright/core';
import { descriptionOf, repairProblem, type Job } from '@ampwright/jobs';
import { WrongUse } from '../files.ts';

export interface RepairOptions {
  readonly repaired: readonly string[];
  readonly visit?: string;
}

/** The job with a visit after those repairs at its end, none taken there yet; the job itself without repairs.
 *  Errors: WrongUse for what this boat cannot have, or beside --visit */
export function jobAfterRepairs(job: Job, { repaired, visit }: RepairOptions, today: string): Job {
  if (repaired.length === 0) return job;
  if (visit !== undefined)
    throw new WrongUse('--repaired goes on with the last visit: it does not go with --visit.');
  const faults = placedFaults(descriptionOf(job));
  for (const id of repaired) {
    const problem = repairProblem(id, faults);
    if (problem !== undefined)
      throw new WrongUse(`--repaired ${problem.value}: allowed is ${problem.allowed}. ${problem.advice}`);
  }
  const ids = new Set(job.visits.map(({ id }) => id));
  let number = job.visits.length + 1;
  while (ids.has(`visit-${number}`)) number++;
  const after = { id: `visit-${number}`, date: today, repairs: repaired, readings: [], baseline: false };
  return { ...job, visits: [...job.visits, after] };
}
