/** A job as the text of a file. */
import { jobFormat, jobVersion, jobWriter, type Job } from './job.ts';

/** Text of the job, two spaces of indent, head first. Fields that this version does not know are kept.
 *  Errors: RangeError for a job of a newer version, which must not be written over */
export function serialiseJob(job: Job): string {
  if (job.version > jobVersion) {
    throw new RangeError(
      `serialiseJob: job of format version ${job.version}; this program writes ${jobVersion}`,
    );
  }
  const head = { format: jobFormat, version: jobVersion, writer: jobWriter };
  return `${JSON.stringify({ ...head, ...job, ...head }, null, 2)}\n`;
}
