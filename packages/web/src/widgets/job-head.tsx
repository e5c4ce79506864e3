/** Top of every page of a job: where we are, what is thought, and the way back. */
import { useEffect } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { redo, undo, useHistory } from '../state/edits.ts';
import { jobsAddress } from '../state/route.ts';
import { headlineOf } from '../words/headline.ts';
import { EngineClock } from './engine-clock.tsx';
import { FourQuestions } from './four-questions.tsx';
import { AnswerMark, Arrow, Turn } from './marks.tsx';
import { ThinkingNote } from './thinking-note.tsx';

interface Props {
  readonly readOnly: string | undefined;
  /** Where Back leads; the list of jobs when absent. */
  readonly back: string | undefined;
}

export function JobHead({ readOnly, back }: Props) {
  const { job, visit, verdict } = useOpenJob();
  const said = verdict.value;
  const headline = said && headlineOf(said, visit?.readings.length ?? 0);
  return (
    <header className="head">
      <div className="head-bar">
        <a className="button plain" href={back ?? jobsAddress}>
          <Arrow to="left" /> {back === undefined ? 'Jobs' : 'Back'}
        </a>
        <p className="head-title" title={job.title}>
          {job.title ?? 'Untitled job'}
        </p>
        <UndoRedo job={job.id} />
      </div>
      {readOnly !== undefined && (
        <p className="note" role="status">
          {readOnly}
        </p>
      )}
      <div className="head-answer" aria-live="polite" data-stale={verdict.stale}>
        {headline && (
          <p className="headline">
            <AnswerMark mark={headline.mark} />
            <span>
              {headline.words}{' '}
              {headline.because !== undefined && <span className="aside">{headline.because}</span>}
            </span>
          </p>
        )}
        {said ? (
          <FourQuestions answers={said.answers} />
        ) : (
          <p className="questions-wait soft">The answers come here.</p>
        )}
      </div>
      <div className="head-foot">
        <ThinkingNote thought={verdict} />
        <EngineClock />
      </div>
    </header>
  );
}

function UndoRedo({ job }: { readonly job: string }) {
  const { done, undone } = useHistory(job);
  const last = done.at(-1)?.words;
  const next = undone.at(-1)?.words;

  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      const target = event.target as HTMLElement;
      const typing = target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
      if (typing || !(event.ctrlKey || event.metaKey)) return;
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) undo(job);
      else if (key === 'y' || (key === 'z' && event.shiftKey)) redo(job);
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [job]);

  return (
    <div className="head-undo">
      <button
        type="button"
        className="plain icon"
        disabled={last === undefined}
        aria-label={last === undefined ? 'Undo: nothing yet' : `Undo: ${last}`}
        title={last}
        onClick={() => undo(job)}
      >
        <Turn to="back" />
      </button>
      <button
        type="button"
        className="plain icon"
        disabled={next === undefined}
        aria-label={next === undefined ? 'Redo: nothing' : `Redo: ${next}`}
        title={next}
        onClick={() => redo(job)}
      >
        <Turn to="forth" />
      </button>
    </div>
  );
}
