/** Visits over time, the notes of each, and the job as a file. */
import { useState } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { beginVisit, changeVisit, freshId, presentVisit, today } from '../state/job-edits.ts';
import { exportJob, exportPhotos } from '../state/files.ts';
import { photoNames } from '../state/photos.ts';
import { removeJob } from '../state/jobs.ts';
import { goTo, jobsAddress } from '../state/route.ts';
import { Photo } from '../widgets/photos.tsx';
import { useRepairsWords } from '../widgets/put-right.tsx';
import { readingWords } from '../words/reading-words.ts';
import type { JobVisit } from '../work/contract.ts';

export function VisitsPage() {
  const { job, readOnly, visit } = useOpenJob();
  const earlier = job.visits.slice(0, -1).reverse();
  const photos = photoNames(job).length;
  return (
    <>
      <h1>Visits</h1>
      {visit ? (
        <PresentVisit key={visit.id + (visit.note ?? '')} visit={visit} />
      ) : (
        <p className="soft">No visit has begun: the first reading begins one.</p>
      )}
      {!readOnly && (
        <p className="actions">
          <button
            type="button"
            disabled={(visit?.readings.length ?? 0) === 0}
            onClick={() =>
              beginVisit(job.id, { id: freshId('visit'), date: today(), readings: [], baseline: false })
            }
          >
            Begin a new visit
          </button>
        </p>
      )}
      {earlier.length > 0 && (
        <section>
          <h2>Earlier visits</h2>
          {earlier.map((one) => (
            <EarlierVisit key={one.id} visit={one} />
          ))}
        </section>
      )}
      <section>
        <h2>This job as a file</h2>
        <p className="actions">
          <button type="button" onClick={() => void exportJob(job.id)}>
            Save as a file
          </button>
          {photos > 0 && (
            <button type="button" onClick={() => void exportPhotos(job)}>
              Save its {photos === 1 ? 'photo' : `${photos} photos`}
            </button>
          )}
        </p>
      </section>
      <RemoveJob />
    </>
  );
}

function PresentVisit({ visit }: { readonly visit: JobVisit }) {
  const { job, readOnly } = useOpenJob();
  const [note, setNote] = useState(visit.note ?? '');
  const repairs = useRepairsWords(visit.repairs ?? []);
  const keep = () => {
    if (note === (visit.note ?? '')) return;
    changeVisit(job.id, 'note', ({ note: _, ...rest }) => (note === '' ? rest : { ...rest, note }));
  };
  return (
    <section>
      <h2>This visit{visit.date === undefined ? '' : `, ${visit.date}`}</h2>
      {repairs !== '' && <p>Put right before it: {repairs}</p>}
      <p className="soft">
        {visit.readings.length} {visit.readings.length === 1 ? 'reading' : 'readings'}
        {visit === presentVisit(job) ? '' : ', closed'}
      </p>
      <label className="field">
        Notes
        <textarea
          rows={3}
          maxLength={10000}
          value={note}
          disabled={readOnly}
          onChange={(event) => setNote(event.target.value)}
          onBlur={keep}
        />
      </label>
      <label className="tick-box">
        <input
          type="checkbox"
          checked={visit.baseline}
          disabled={readOnly}
          onChange={(event) => {
            const baseline = event.target.checked;
            changeVisit(job.id, 'baseline', (old) => ({ ...old, baseline }));
          }}
        />
        <span>It ended with all well: keep these readings as the boat’s baseline</span>
      </label>
    </section>
  );
}

function EarlierVisit({ visit }: { readonly visit: JobVisit }) {
  const { checks, units } = useOpenJob();
  const repairs = useRepairsWords(visit.repairs ?? []);
  return (
    <details className="table">
      <summary>
        {visit.date ?? 'No date'}: {visit.readings.length} readings{visit.baseline ? ', all well' : ''}
      </summary>
      {repairs !== '' && <p>Put right before it: {repairs}</p>}
      {visit.note !== undefined && <p>{visit.note}</p>}
      <table className="ruled">
        <tbody>
          {visit.readings.map((reading) => {
            const check = checks.find(({ id }) => id === reading.check);
            return (
              <tr key={reading.id}>
                <th scope="row">{check?.text.words ?? reading.check}</th>
                <td>
                  {readingWords(reading, check, units)}
                  {reading.photos.map((name, index) => (
                    <Photo key={name} name={name} words={`Photo ${index + 1}`} />
                  ))}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </details>
  );
}

function RemoveJob() {
  const { job } = useOpenJob();
  const [sure, setSure] = useState(false);
  return (
    <section>
      <h2>Remove this job</h2>
      {sure ? (
        <p className="actions">
          <span>This cannot be undone. A file saved before can be brought in again.</span>
          <button
            type="button"
            onClick={() => {
              goTo(jobsAddress);
              void removeJob(job.id);
            }}
          >
            Remove it from this device
          </button>
          <button type="button" className="plain" onClick={() => setSure(false)}>
            Keep it
          </button>
        </p>
      ) : (
        <p className="actions">
          <button type="button" onClick={() => setSure(true)}>
            Remove
          </button>
        </p>
      )}
    </section>
  );
}
