/** What to do about it, in order; why it failed; parts with their sizes; the readings that prove the repair. */
import { useMemo } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { jobAddress } from '../state/route.ts';
import { Cautions } from '../widgets/cautions.tsx';
import { Conclusion } from '../widgets/conclusion.tsx';
import { PutRightButton, PutRightNote } from '../widgets/put-right.tsx';
import { ThinkingNote } from '../widgets/thinking-note.tsx';
import { percent } from '../words/odds.ts';
import { partName } from '../words/part-words.ts';
import { bandWords } from '../words/reading-words.ts';
import type { Remedy, RuleResult } from '../work/contract.ts';
import { useThought } from '../work/use-thought.ts';

export function RemedyPage() {
  const { job } = useOpenJob();
  const question = useMemo(() => JSON.stringify([job.boat, job.visits, job.skill]), [job]);
  const thought = useThought('remedy', question, async (thinking) => thinking.remedy(job));
  const remedy = thought.value;
  return (
    <>
      <h1>Remedy</h1>
      <PutRightNote />
      <Conclusion onRemedy />
      <div className="note-place">
        <ThinkingNote thought={thought} />
      </div>
      {remedy && (
        <>
          <p className="lead-in">{remedy.words}</p>
          <Cautions cautions={remedy.cautions} />
          <Work remedy={remedy} />
          <Parts remedy={remedy} />
          <Rules rules={remedy.rules} />
          <Proofs remedy={remedy} />
          <Why remedy={remedy} />
          <Otherwise remedy={remedy} />
        </>
      )}
    </>
  );
}

function Work({ remedy }: { readonly remedy: Remedy }) {
  // How to be safe is said above.
  const work = remedy.work.filter(({ act }) => act !== 'make-safe');
  if (work.length === 0) return null;
  return (
    <section>
      <h2>What to do, in order</h2>
      <ol className="steps">
        {work.map(({ words }) => (
          <li key={words}>
            <span>{words}</span>
          </li>
        ))}
      </ol>
    </section>
  );
}

function Parts({ remedy: { parts, cost } }: { readonly remedy: Remedy }) {
  if (parts.length === 0 && cost === undefined) return null;
  return (
    <section>
      <h2>Parts</h2>
      {parts.length > 0 && (
        <table className="ruled">
          <thead>
            <tr>
              <th scope="col">Part</th>
              <th scope="col">Size</th>
            </tr>
          </thead>
          <tbody>
            {parts.map(({ key, words, size }) => (
              <tr key={key}>
                <th scope="row">{words}</th>
                <td>{size ?? 'by the maker’s number'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {cost && (
        <p className="soft">
          With labour about {Math.round(cost.low)} to {Math.round(cost.high)} {cost.currency}: {cost.status}.
        </p>
      )}
    </section>
  );
}

function Rules({ rules }: { readonly rules: readonly RuleResult[] }) {
  if (rules.length === 0) return null;
  return (
    <section>
      <h2>Else it will not last</h2>
      <ul className="plain-list">
        {rules.map(({ id, says, advice, caution, seen }) => (
          <li key={id}>
            {says} {advice}
            <span className="row-under small soft">
              {caution} Limit: {seen}.
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Proofs({ remedy: { kind, suspect, proof, baseline } }: { readonly remedy: Remedy }) {
  const { job, checks, units } = useOpenJob();
  if (proof.length === 0) return null;
  const mends = kind === 'repair' && suspect !== undefined;
  return (
    <section>
      <h2>Proof that it is mended</h2>
      {mends && <PutRightButton fault={suspect} primary />}
      <p className="soft">
        {mends
          ? 'Tap when the work is done, then take these again.'
          : 'Take these again when the work is done.'}
      </p>
      <ul className="rows">
        {proof.map(({ check, words, healthy, answer }) => {
          const view = checks.find(({ id }) => id === check);
          return (
            <li key={check}>
              <a className="row" href={jobAddress(job.id, 'readings', check)}>
                <span className="row-main">
                  {words}
                  {view?.part !== undefined && (
                    <span className="row-under soft small">{partName(view.part, job)}</span>
                  )}
                </span>
                <span className="row-end small">
                  {healthy && view ? bandWords(healthy, view, units) : answer}
                </span>
              </a>
            </li>
          );
        })}
      </ul>
      {baseline.length > 0 && <p className="small soft">{baseline.join(' ')}</p>}
    </section>
  );
}

function Why({ remedy: { whyItFailed, behind } }: { readonly remedy: Remedy }) {
  const { job } = useOpenJob();
  if (whyItFailed.length === 0 && behind.length === 0) return null;
  return (
    <section>
      <h2>Why it comes to this</h2>
      <ul className="plain-list">
        {whyItFailed.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {behind.length > 0 && (
        <>
          <h3>Look behind it</h3>
          <ul className="rows">
            {behind.map(({ fault, words, checks }) => (
              <li key={fault} className="row">
                <span className="row-main">
                  {words}
                  {checks.map((check) => (
                    <a
                      key={check.check}
                      className="row-link"
                      href={jobAddress(job.id, 'readings', check.check)}
                    >
                      {check.words}
                    </a>
                  ))}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Otherwise({ remedy: { otherwise } }: { readonly remedy: Remedy }) {
  if (otherwise.length === 0) return null;
  return (
    <section>
      <h2>If it is something else</h2>
      <ul className="rows">
        {otherwise.map(({ suspect, words, probability, remedy }) => (
          <li key={suspect} className="row">
            <span className="row-main">
              <b>{words}</b>
              <span className="row-under">{remedy}</span>
            </span>
            <span className="row-end small">{percent(probability)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
