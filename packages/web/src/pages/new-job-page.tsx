/** Begins a job: complaint, kind of boat, ten facts. The two voltages follow on the job's own pages. */
import { useEffect, useState } from 'react';
import { createJob, useNewJob, type NewJob, type Step } from '../state/new-job.ts';
import { goTo, jobAddress, jobsAddress } from '../state/route.ts';
import { think } from '../work/thinker.ts';
import { templateIds, templateWords } from '../work/contract.ts';
import { beforeAndAfter } from '../words/pair.ts';
import { complaints } from '../words/facts.ts';
import { Arrow } from '../widgets/marks.tsx';
import { TenFacts } from '../widgets/ten-facts.tsx';
import { TemplateSketch } from '../widgets/template-sketch.tsx';

const order: readonly Step[] = ['complaint', 'template', 'facts'];

interface StepProps {
  readonly draft: NewJob;
  readonly change: (part: Partial<NewJob>) => void;
}

export function NewJobPage() {
  const [draft, change, forget] = useNewJob();
  const [trouble, setTrouble] = useState<string>();
  const at = order.indexOf(draft.step);
  const back = order[at - 1];

  useEffect(() => {
    window.scrollTo(0, 0);
  }, [draft.step]);

  const begin = async () => {
    try {
      const job = await createJob(draft);
      const checks = await think('checks', (thinking) => thinking.checks(job));
      const [pair] = beforeAndAfter(checks);
      forget();
      goTo(pair ? jobAddress(job.id, 'readings', pair.before.id) : jobAddress(job.id));
    } catch (error) {
      setTrouble(error instanceof Error ? error.message : String(error));
    }
  };

  return (
    <>
      <header className="cover">
        <a className="button plain" href={jobsAddress}>
          <Arrow to="left" /> Jobs
        </a>
        <p className="soft small">
          Step {at + 1} of 5 <span className="unseen">of a new job</span>
        </p>
      </header>
      <main className="sheet alone new-job" id="content">
        {draft.step === 'complaint' && <Complaint draft={draft} change={change} />}
        {draft.step === 'template' && <Template draft={draft} change={change} />}
        {draft.step === 'facts' && (
          <>
            <h1>What do you know of it?</h1>
            <p className="soft">Tap what you know and leave the rest: everything may stay unknown.</p>
            <TenFacts facts={draft.facts} onChange={(facts) => change({ facts })} />
            {trouble !== undefined && (
              <p className="complaint" role="alert">
                The job could not be begun: {trouble}
              </p>
            )}
            <p className="actions sticky">
              <button type="button" className="primary" onClick={() => void begin()}>
                That is all: to the voltmeter
              </button>
            </p>
          </>
        )}
        {back !== undefined && (
          <p className="actions">
            <button type="button" className="plain" onClick={() => change({ step: back })}>
              <Arrow to="left" /> One step back
            </button>
          </p>
        )}
      </main>
    </>
  );
}

function Complaint({ draft, change }: StepProps) {
  const [own, setOwn] = useState(() =>
    complaints.some((usual) => usual === draft.complaint) ? '' : draft.complaint,
  );
  return (
    <>
      <h1>What is complained of?</h1>
      <label className="field">
        Boat <span className="small soft">its name, if you like</span>
        <input
          value={draft.name}
          maxLength={200}
          autoComplete="off"
          onChange={(event) => change({ name: event.target.value })}
        />
      </label>
      <ul className="big-choices">
        {complaints.map((complaint) => (
          <li key={complaint}>
            <button
              type="button"
              aria-pressed={draft.complaint === complaint}
              onClick={() => change({ complaint, step: 'template' })}
            >
              {complaint}
            </button>
          </li>
        ))}
      </ul>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          change({ complaint: own, step: 'template' });
        }}
      >
        <label className="field">
          In other words
          <textarea rows={2} maxLength={2000} value={own} onChange={(event) => setOwn(event.target.value)} />
        </label>
        <p className="actions">
          <button type="submit">{own.trim() === '' ? 'Go on without' : 'Go on'}</button>
        </p>
      </form>
    </>
  );
}

function Template({ draft, change }: StepProps) {
  return (
    <>
      <h1>Which boat is most like it?</h1>
      <p className="soft">Parts can be added and changed afterwards.</p>
      <ul className="big-choices templates">
        {templateIds.map((template) => (
          <li key={template}>
            <button
              type="button"
              aria-pressed={draft.template === template}
              onClick={() => change({ template, step: 'facts' })}
            >
              <TemplateSketch template={template} />
              {templateWords[template]}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
