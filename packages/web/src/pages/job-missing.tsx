/** A job that is not on this device. */
import { jobsAddress } from '../state/route.ts';

export function JobMissing() {
  return (
    <main className="sheet alone" id="content">
      <h1>This job is not on this device</h1>
      <p>It was removed here, or the address belongs to another device. Bring the job over as a file.</p>
      <p>
        <a className="button" href={jobsAddress}>
          All jobs
        </a>
      </p>
    </main>
  );
}
