/** All jobs on this device; where one begins, is opened, or comes in as a file. */
import { useMemo, useState } from 'react';
import { exportAll, importFiles, type Refused } from '../state/files.ts';
import { useJobs, type StoredJob } from '../state/jobs.ts';
import { goTo, jobAddress, newJobAddress, preferencesAddress } from '../state/route.ts';
import { DropZone } from '../widgets/drop-zone.tsx';
import { Examples } from '../widgets/examples.tsx';
import { RefusedFiles } from '../widgets/refused-files.tsx';
import { StorageNote } from '../widgets/storage-note.tsx';
import { Wordmark } from '../widgets/wordmark.tsx';

export function JobsPage() {
  const state = useJobs();
  const [refused, setRefused] = useState<readonly Refused[]>([]);
  const jobs = state.kind === 'ready' ? state.jobs : [];

  const take = async (files: readonly File[]) => {
    const result = await importFiles(files);
    setRefused(result.refused);
    if (result.added.length === 1 && result.refused.length === 0) goTo(jobAddress(result.added[0]!.id));
  };

  return (
    <DropZone onFiles={(files) => void take(files)}>
      <header className="cover">
        <Wordmark />
        <a className="button plain" href={preferencesAddress}>
          Preferences
        </a>
      </header>
      <main className="sheet alone" id="content">
        {jobs.length === 0 && state.kind !== 'loading' ? <FirstWords /> : <JobList jobs={jobs} />}
        <RefusedFiles refused={refused} onDone={() => setRefused([])} />
        <Examples />
        <section>
          <h2>Jobs as files</h2>
          <p className="soft">
            Drop job files anywhere on this page, or choose them. A file that cannot be read changes nothing.
          </p>
          <p className="actions">
            <label className="button">
              Bring in files
              <input
                type="file"
                className="unseen"
                accept=".json,application/json,image/*"
                multiple
                onChange={(event) => {
                  void take([...(event.target.files ?? [])]);
                  event.target.value = '';
                }}
              />
            </label>
            <button
              type="button"
              disabled={jobs.length === 0}
              onClick={() => void exportAll(jobs.map(({ job }) => job))}
            >
              Save all jobs in one file
            </button>
          </p>
        </section>
        <StorageNote />
      </main>
    </DropZone>
  );
}

function FirstWords() {
  return (
    <section className="first">
      <h1>Why is this boat not charging?</h1>
      <p className="lead-in">
        Say what you know of the boat, take a few safe meter readings, and see whether anything is wrong, what
        it is, what to check next and what to do about it.
      </p>
      <p className="actions">
        <a className="button primary large" href={newJobAddress}>
          New job
        </a>
      </p>
      <p className="soft">
        Under a minute: the complaint, the kind of boat, what you know, volts before the start, volts after.
        Everything stays on this device and works without a signal.
      </p>
    </section>
  );
}

function JobList({ jobs }: { readonly jobs: readonly StoredJob[] }) {
  const [wanted, setWanted] = useState('');
  const found = useMemo(() => {
    const words = wanted.trim().toLowerCase().split(/\s+/);
    return jobs.filter(({ job }) => {
      const text = `${job.title ?? ''} ${job.complaint ?? ''} ${job.boat.name ?? ''}`.toLowerCase();
      return words.every((word) => text.includes(word));
    });
  }, [jobs, wanted]);
  return (
    <section>
      <div className="jobs-top">
        <h1>Jobs</h1>
        <a className="button primary" href={newJobAddress}>
          New job
        </a>
      </div>
      <label className="search">
        <span className="unseen">Search the jobs</span>
        <input
          type="search"
          value={wanted}
          placeholder="Search the jobs"
          onChange={(event) => setWanted(event.target.value)}
        />
      </label>
      {found.length === 0 && jobs.length > 0 && <p className="soft">No job has these words.</p>}
      <ul className="rows jobs">
        {found.map(({ id, job, updated, readOnly }) => (
          <li key={id}>
            <a className="row" href={jobAddress(id)}>
              <span className="row-main">
                <b className="row-name">{job.title ?? 'Untitled job'}</b>
                <span className="row-under soft small">{job.complaint}</span>
              </span>
              <span className="row-end small soft">
                {new Date(updated).toLocaleDateString()}
                {readOnly && <span>read only</span>}
              </span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
