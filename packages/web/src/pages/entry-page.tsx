/** One reading or answer is entered here, its check's cautions and steps beside it. */
import { useOpenJob } from '../state/job-context.tsx';
import { jobAddress } from '../state/route.ts';
import { AnswerEntry } from '../widgets/answer-entry.tsx';
import { Cautions } from '../widgets/cautions.tsx';
import { NumberEntry } from '../widgets/number-entry.tsx';
import { Photos } from '../widgets/photos.tsx';
import { CheckSteps } from './next-check-page.tsx';
import { partName } from '../words/part-words.ts';

export function EntryPage({ check: id }: { readonly check: string }) {
  const { checks, job } = useOpenJob();
  const check = checks.find((candidate) => candidate.id === id);
  const wide = matchMedia('(min-width: 62rem)').matches;
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
  return (
    <article className="entry">
      <div className="entry-what">
        <h1>
          {check.part !== undefined && <span className="eyebrow">{partName(check.part, job)}</span>}{' '}
          {check.text.words}
        </h1>
        <Cautions cautions={check.text.cautions} />
        <details className="entry-steps" open={wide}>
          <summary>How it is done</summary>
          <CheckSteps id={check.id} conditionShown={check.outcome.kind === 'number'} />
        </details>
      </div>
      {check.outcome.kind === 'number' ? (
        <NumberEntry check={check} outcome={check.outcome}>
          <Photos check={check} />
        </NumberEntry>
      ) : (
        <div className="entry-answers">
          <AnswerEntry check={check} outcome={check.outcome} />
          <Photos check={check} />
        </div>
      )}
    </article>
  );
}
