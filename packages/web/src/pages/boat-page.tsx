/** What is known of the boat: complaint, facts, parts; everything may stay unknown, everything may be changed. */
import { useState } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { changeBoat, changeHeading } from '../state/job-edits.ts';
import { withNewPart } from '../state/boat-edits.ts';
import { Choice } from '../widgets/choice.tsx';
import { EndField, PartForm } from '../widgets/part-form.tsx';
import { Changed } from '../widgets/ten-facts.tsx';
import { kindWords } from '../words/part-words.ts';
import { partKindIds } from '../work/contract.ts';
import type { JobQuantity, PartKindId } from '../work/contract.ts';

export function BoatPage() {
  const { job, readOnly } = useOpenJob();
  const volts = job.boat.nominal_voltage?.value;
  const kinds = partKindIds.filter((kind) => job.boat.parts.some((part) => part.kind === kind));
  return (
    <>
      <h1>Boat</h1>
      <Problems />
      <Heading key={`${job.title}|${job.complaint}`} />
      <Choice
        words="System"
        value={volts === 24 ? '24' : volts === undefined ? '' : '12'}
        options={[
          ['', 'Don’t know'],
          ['12', '12 V'],
          ['24', '24 V'],
        ]}
        disabled={readOnly}
        onChoose={(value) =>
          changeBoat(job.id, 'system voltage', ({ nominal_voltage: _, ...boat }) => {
            const quantity: JobQuantity = { value: Number(value), unit: 'V', origin: 'told' };
            return value === '' ? boat : { ...boat, nominal_voltage: quantity };
          })
        }
      />
      <Changed
        changed={job.boat.changed}
        disabled={readOnly}
        onChange={(changed) => changeBoat(job.id, 'what was changed', (boat) => ({ ...boat, changed }))}
      />
      {kinds.map((kind) => (
        <section key={kind}>
          <h2>{kindWords(kind)}</h2>
          <div className="part-forms">
            {job.boat.parts
              .filter((part) => part.kind === kind)
              .map((part) => (
                <PartForm key={part.id} part={part} />
              ))}
          </div>
        </section>
      ))}
      {!readOnly && <AddPart />}
    </>
  );
}

function Heading() {
  const { job, readOnly } = useOpenJob();
  const [title, setTitle] = useState(job.title ?? '');
  const [complaint, setComplaint] = useState(job.complaint ?? '');
  const keep = () => {
    if (title === (job.title ?? '') && complaint === (job.complaint ?? '')) return;
    changeHeading(job.id, { title, complaint });
  };
  return (
    <div className="part-fields">
      <label className="field">
        Job
        <input
          value={title}
          maxLength={200}
          disabled={readOnly}
          onChange={(event) => setTitle(event.target.value)}
          onBlur={keep}
        />
      </label>
      <label className="field">
        Complaint
        <textarea
          rows={2}
          value={complaint}
          maxLength={10000}
          disabled={readOnly}
          onChange={(event) => setComplaint(event.target.value)}
          onBlur={keep}
        />
      </label>
    </div>
  );
}

/** What does not hold together in the description. */
function Problems() {
  const { problems } = useOpenJob().review;
  if (problems.length === 0) return null;
  return (
    <section className="note note-no refused" role="alert">
      <h2>This does not hold together</h2>
      <ul className="plain-list">
        {problems.map((problem) => (
          <li key={problem.pointer + problem.kind}>
            <b>{problem.place}</b>: {problem.value}. Allowed: {problem.allowed}. {problem.advice}
          </li>
        ))}
      </ul>
    </section>
  );
}

function AddPart() {
  const { job } = useOpenJob();
  const [kind, setKind] = useState<PartKindId>('battery');
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const cable = kind === 'cable';
  return (
    <section>
      <h2>Add to it</h2>
      <form
        className="part-fields"
        onSubmit={(event) => {
          event.preventDefault();
          changeBoat(job.id, `add ${kindWords(kind).toLowerCase()}`, (boat) =>
            withNewPart(boat, kind, cable ? { from, to } : {}),
          );
          setFrom('');
          setTo('');
        }}
      >
        <label className="field">
          Part
          <select value={kind} onChange={(event) => setKind(event.target.value as PartKindId)}>
            {partKindIds.map((one) => (
              <option key={one} value={one}>
                {kindWords(one)}
              </option>
            ))}
          </select>
        </label>
        {cable && (
          <>
            <EndField words="From" value={from} disabled={false} onChange={setFrom} />
            <EndField words="To" value={to} disabled={false} onChange={setTo} />
          </>
        )}
        <p className="actions">
          <button type="submit" disabled={cable && (from === '' || to === '' || from === to)}>
            Add {kindWords(kind).toLowerCase()}
          </button>
        </p>
        {!cable && <p className="small soft">Then join it up: add a cable for each of its terminals.</p>}
      </form>
    </section>
  );
}
