/** `report JOB`: the owner's report. */
import type { Work } from '../work.ts';
import type { Result } from './result.ts';

export function report(work: Work): Result & { readonly html: string } {
  throw new Error(work.job.id);
}
