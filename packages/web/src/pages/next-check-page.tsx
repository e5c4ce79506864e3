/** What to do next, and why: cautions first, then steps, and what each outcome would tell. */
import { useOpenJob } from '../state/job-context.tsx';
import { freshId, writeReading } from '../state/job-edits.ts';
import { jobAddress } from '../state/route.ts';
import { AnswerEntry } from '../widgets/answer-entry.tsx';
import { CheckCautions } from '../widgets/cautions.tsx';
import { Conclusion } from '../widgets/conclusion.tsx';
import { PutRightNote } from '../widgets/put-right.tsx';
import { OtherChecks } from '../widgets/other-checks.tsx';
import { ProbeLines } from '../widgets/reading-point.tsx';
import { conditionWords, isLabel, riskWords } from '../words/check-words.ts';
import { partName } from '../words/part-words.ts';
import { percent } from '../words/odds.ts';
import { outcomeBandWords } from '../words/reading-words.ts';
import type { NextCheck } from '../work/contract.ts';

export function NextCheckPage() {
  const { verdict, checks, job, readOnly } = useOpenJob();
  const best = verdict.value?.next[0];
  const view = checks.find(({ id }) => id === best?.check);
  const decided = verdict.value !== undefined && verdict.value.conclusion.kind !== 'go-on';
  if (!verdict.value) return <p className="soft">The next check comes here as soon as it is worked out.</p>;
  return (
    <>
      <PutRightNote />
      <Conclusion />
      {best && view && (
        <article key={view.id} className="check">
          <h1>
            <span className="eyebrow">
              {decided ? 'To be surer still' : 'Next check'}
              {view.part !== undefined && ` · ${partName(view.part, job)}`}
            </span>{' '}
            {view.text.words}
          </h1>
          <p className="check-facts soft">
            About {best.minutes} min{view.text.tools.length > 0 && ` · ${view.text.tools.join(', ')}`} ·{' '}
            {riskWords[view.text.risk]}
          </p>
          <CheckCautions text={view.text} at="steps" />
          <CheckSteps id={view.id} />
          {view.outcome.kind === 'answers' && <AnswerEntry check={view} outcome={view.outcome} />}
          {view.outcome.kind === 'number' && !readOnly && (
            <p className="actions">
              <a className="button primary" href={jobAddress(job.id, 'readings', view.id)}>
                Enter the reading
              </a>
              <button type="button" onClick={() => couldNot(job.id, view.id)}>
                Could not do it
              </button>
            </p>
          )}
          <Previews check={best} />
        </article>
      )}
      <OtherChecks title="All other checks" except={best?.check} />
    </>
  );
}

/** Condition, leads and steps of a check; what stands beside the steps already is left out. */
export function CheckSteps({
  id,
  conditionShown = false,
}: {
  readonly id: string;
  readonly conditionShown?: boolean;
}) {
  const { checks, units } = useOpenJob();
  const view = checks.find((check) => check.id === id);
  if (!view) return null;
  const { text, condition, outcome } = view;
  const placeless = conditionShown || (outcome.kind === 'number' && isLabel(outcome.probe));
  return (
    <>
      {!placeless && (text.way === 'measure' || text.way === 'intervene') && (
        <p className="condition">{conditionWords(condition, units)}</p>
      )}
      {!placeless && outcome.kind === 'number' && <ProbeLines outcome={outcome} />}
      {text.needs.length > 0 && <p className="soft">Needs: {text.needs.join('; ')}</p>}
      <ol className="steps">
        {text.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </>
  );
}

function Previews({ check }: { readonly check: NextCheck }) {
  const { faultNames, checks, units } = useOpenJob();
  const view = checks.find(({ id }) => id === check.check);
  const nameOf = (suspect: string) =>
    suspect === 'nothing-fits' ? 'Something not known here' : (faultNames.get(suspect) ?? suspect);
  if (check.previews.length === 0) return null;
  return (
    <section>
      <h2>What each outcome would tell</h2>
      <table className="ruled previews">
        <thead>
          <tr>
            <th scope="col">If it is</th>
            <th scope="col">Chance</th>
            <th scope="col">Then most likely</th>
          </tr>
        </thead>
        <tbody>
          {check.previews.map(({ outcome, words, chance, then, thenProbability }) => {
            const figures = view && outcomeBandWords(outcome, check.healthy, view, units);
            return (
              <tr key={outcome}>
                <th scope="row" className={figures === undefined ? undefined : 'nowrap'}>
                  {figures ?? words}
                </th>
                <td className="nowrap">{percent(chance)}</td>
                <td>
                  {nameOf(then)} <span className="nowrap soft">({percent(thenProbability)})</span>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}

function couldNot(job: string, check: string): void {
  writeReading(job, { id: freshId('reading'), check, could_not: true, photos: [] }, 'could not do it');
}
