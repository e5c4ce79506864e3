/** All jobs in one file: a list of job files under a name of its own. */
import { parseJob, readJson, serialiseJob } from '@ampwright/jobs';
import type { ParsedJob } from '@ampwright/jobs';
import type { Job } from './contract.ts';

const bundleFormat = 'ampwright-jobs';

export function bundleOf(jobs: readonly Job[]): string {
  const files = jobs.map((job) => JSON.parse(serialiseJob(job)) as unknown);
  return JSON.stringify({ format: bundleFormat, jobs: files }, null, 2);
}

/** The jobs of a file, which may hold one or a bundle. */
export function jobsOfFile(text: string): readonly ParsedJob[] {
  const read = readJson(text);
  if (read.kind === 'problem') return [{ kind: 'problems', problems: [read.problem] }];
  const file = read.value as { readonly format?: unknown; readonly jobs?: unknown } | null;
  if (file?.format !== bundleFormat || !Array.isArray(file.jobs)) return [parseJob(text)];
  return file.jobs.map((job) => parseJob(JSON.stringify(job)));
}
