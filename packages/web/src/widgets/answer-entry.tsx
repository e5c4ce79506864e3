/** An answer in words: each is one tap. */
import { hangsOn } from '../state/hangs-on.ts';
import { useOpenJob } from '../state/job-context.tsx';
import { freshId, strikeReading, writeReading } from '../state/job-edits.ts';
import { takePendingPhotos } from '../state/pending-photos.ts';
import { goTo, jobAddress } from '../state/route.ts';
import type { CheckView, OutcomeView } from '../work/check-view.ts';

interface Props {
  readonly check: CheckView;
  readonly outcome: Extract<OutcomeView, { kind: 'answers' }>;
}

export function AnswerEntry({ check, outcome }: Props) {
  const { job, visit, verdict, readOnly } = useOpenJob();
  const earlier = visit?.readings.findLast((reading) => reading.check === check.id);
  const write = (answer: string | undefined) => {
    const id = earlier && !hangsOn(verdict.value, earlier.id) ? earlier.id : freshId('reading');
    const said = answer === undefined ? { could_not: true } : { answer };
    writeReading(
      job.id,
      {
        id,
        check: check.id,
        taken_at: new Date().toISOString(),
        photos: earlier?.photos ?? takePendingPhotos(job.id, check.id),
        ...said,
      },
      check.text.words,
    );
    goTo(jobAddress(job.id, 'check'));
    // From the next check's own page the address stays, and what comes next would begin out of sight.
    window.scrollTo(0, 0);
  };
  return (
    <fieldset className="answers" disabled={readOnly}>
      <legend>{outcome.question}</legend>
      {outcome.answers.map(({ id, words }) => (
        <button
          key={id}
          type="button"
          className="answer"
          aria-pressed={earlier?.answer === id}
          onClick={() => write(id)}
        >
          {words}
        </button>
      ))}
      <p className="actions">
        <button type="button" aria-pressed={earlier?.could_not === true} onClick={() => write(undefined)}>
          Could not find out
        </button>
        {earlier && (
          <button
            type="button"
            className="plain"
            onClick={() => strikeReading(job.id, earlier, `strike ${check.text.words}`)}
          >
            Strike the answer
          </button>
        )}
      </p>
    </fieldset>
  );
}
