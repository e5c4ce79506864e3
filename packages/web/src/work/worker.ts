/** Where the page computes: reading of files, diagnosis and charts, away from the hand on the screen. */
import { createSession, placedChecks } from '@ampwright/core';
import { descriptionOf, newJob, readingsOf, serialiseJob } from '@ampwright/jobs';
import type { NewJobOptions, ParsedJob } from '@ampwright/jobs';
import { expose } from 'comlink';
import { viewOf, type CheckView } from './check-view.ts';
import { bundleOf, jobsOfFile } from './bundle.ts';
import type { Job, LoopChart, Reading, RiseChart, Verdict } from './contract.ts';

export interface Thinking {
  newJob(options: NewJobOptions): Job;
  readFile(text: string): readonly ParsedJob[];
  writeFile(job: Job): string;
  writeFiles(jobs: readonly Job[]): string;
  checks(job: Job): readonly CheckView[];
  diagnose(job: Job): Verdict;
  rise(job: Job): RiseChart | undefined;
  loop(job: Job): LoopChart | undefined;
}

/** The session of the boat last spoken of: what is drawn for one boat serves all its readings. */
let kept: { readonly boat: string; readonly session: ReturnType<typeof createSession> } | undefined;

function sessionOf(job: Job): ReturnType<typeof createSession> {
  const boat = JSON.stringify(job.boat);
  if (kept?.boat !== boat) kept = { boat, session: createSession(descriptionOf(job)) };
  return kept.session;
}

function presentReadings(job: Job): readonly Reading[] {
  const visit = job.visits.at(-1);
  return visit ? readingsOf(visit, placedChecks(descriptionOf(job))) : [];
}

const thinking: Thinking = {
  newJob,
  readFile: jobsOfFile,
  writeFile: serialiseJob,
  writeFiles: bundleOf,
  checks: (job) => placedChecks(descriptionOf(job)).map(viewOf),
  diagnose: (job) => sessionOf(job).diagnose(presentReadings(job)),
  rise: (job) => sessionOf(job).riseChart(presentReadings(job)),
  loop: (job) => sessionOf(job).loopChart(presentReadings(job)),
};

expose(thinking);
