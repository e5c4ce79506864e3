/** One reading or answer is entered here, its check's cautions and steps beside it. */
import { useOpenJob } from '../state/job-context.tsx';
import { jobAddress } from '../state/route.ts';
import { AnswerEntry } from '../widgets/answer-entry.tsx';
import { CheckCautions } from '../widgets/cautions.tsx';
import { useConditionFields } from '../widgets/condition-fields.tsx';
import { NumberEntry } from '../widgets/number-entry.tsx';
import { Photos } from '../widgets/photos.tsx';
import { ReadingPoint } from '../widgets/reading-point.tsx';
import { CheckSteps } from './next-check-page.tsx';
import { partName } from '../words/part-words.ts';
import type { CheckView } from '../work/check-view.ts';

export function EntryPage({ check: id }: { readonly check: string }) {
  const { checks, job } = useOpenJob();
  const check = checks.find((candidate) => candidate.id === id);
  if (!check) {
    if (checks.length === 0) return <p className="soft">The checks of this boat come here in a moment.</p>;
    return (
      <>
        <h1>No such check on this boat</h1>
        <p>
          The boat was changed, or the address is old.{' '}
          <a href={jobAddress(job.id, 'readings')}>See the readings</a>
        </p>
      </>
    );
  }
  return <Entry check={check} />;
}

function Entry({ check }: { readonly check: CheckView }) {
  const { job, visit } = useOpenJob();
  const { outcome, text } = check;
  const earlier = visit?.readings.findLast((reading) => reading.check === check.id);
  const condition = useConditionFields(check, earlier);
  const wide = matchMedia('(min-width: 62rem)').matches;
  return (
    <article className="entry">
      <div className="entry-what">
        <h1>
          {check.part !== undefined && <span className="eyebrow">{partName(check.part, job)}</span>}{' '}
          {text.words}
        </h1>
        <CheckCautions text={text} at="entry" />
        {outcome.kind === 'number' && <ReadingPoint check={check} outcome={outcome} condition={condition} />}
        <details className="entry-steps" open={wide}>
          <summary>How it is done</summary>
          <CheckSteps id={check.id} conditionShown={outcome.kind === 'number'} />
        </details>
      </div>
      {outcome.kind === 'number' ? (
        <NumberEntry check={check} outcome={outcome} changed={condition.changed}>
          <Photos check={check} />
        </NumberEntry>
      ) : (
        <div className="entry-answers">
          <AnswerEntry check={check} outcome={outcome} />
          <Photos check={check} />
        </div>
      )}
    </article>
  );
}
