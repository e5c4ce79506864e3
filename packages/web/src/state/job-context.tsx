/** What every page of a job knows: the job, its checks, and what is thought of it. */
import { createContext, use } from 'react';
import type { CheckView } from '../work/check-view.ts';
import type { Band, Job, JobVisit, UnitPreference, Verdict } from '../work/contract.ts';
import type { BoatReview } from '../work/boat-review.ts';
import type { Thought } from '../work/use-thought.ts';

export interface OpenJob {
  readonly job: Job;
  readonly visit: JobVisit | undefined;
  readonly readOnly: boolean;
  readonly checks: readonly CheckView[];
  /** Name of each fault, by its id. */
  readonly faultNames: ReadonlyMap<string, string>;
  readonly verdict: Thought<Verdict>;
  /** Where each check would read if all were well. */
  readonly bands: ReadonlyMap<string, Band>;
  /** What does not hold together in the description of the boat. */
  readonly review: BoatReview;
  readonly units: UnitPreference;
}

export const JobContext = createContext<OpenJob | undefined>(undefined);

export function useOpenJob(): OpenJob {
  const open = use(JobContext);
  if (!open) throw new Error('useOpenJob: no job is open here');
  return open;
}
