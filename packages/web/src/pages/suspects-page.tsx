/** Who is suspected, why, and what was cleared by which reading. */
import { useOpenJob } from '../state/job-context.tsx';
import { jobAddress } from '../state/route.ts';
import { Tick } from '../widgets/marks.tsx';
import { PutRightButton, PutRightNote } from '../widgets/put-right.tsx';
import { factorWords, percent, timesWords } from '../words/odds.ts';
import { partName } from '../words/part-words.ts';
import { readingWords } from '../words/reading-words.ts';
import { lower } from '../work/contract.ts';
import type { Cleared, Suspect } from '../work/contract.ts';

export function SuspectsPage() {
  const { verdict, job } = useOpenJob();
  const said = verdict.value;
  if (!said) return <p className="soft">The suspects come here as soon as they are worked out.</p>;
  return (
    <>
      <h1>Suspects</h1>
      <PutRightNote />
      <p className="soft">
        Chance that something is {said.repaired.length > 0 ? 'still wrong' : 'wrong at all'}:{' '}
        <b>{percent(said.wrong)}</b>
      </p>
      <ol className="suspects">
        {said.suspects.slice(0, suspectsInSight).map((suspect, index) => (
          <SuspectEntry key={suspect.id} suspect={suspect} open={index === 0} />
        ))}
        <li className="suspect">
          <p className="suspect-head">
            <span className="suspect-name">Something not known here</span>
            <Chance chance={said.nothingFits} nature="fault" />
          </p>
        </li>
      </ol>
      <LesserSuspects suspects={said.suspects.slice(suspectsInSight)} />
      <ClearedParts />
      <section>
        <h2>What had to be assumed</h2>
        {said.assumed.length === 0 ? (
          <p className="soft">Nothing of weight.</p>
        ) : (
          <ul className="plain-list">
            {said.assumed.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        )}
        <p>
          <a href={jobAddress(job.id, 'boat')}>Say what you know of the boat</a>
        </p>
        <p className="small soft">
          Computed from {said.reliability.draws} predictions of possible boats;{' '}
          {errorWords(said.reliability.error)}
        </p>
      </section>
    </>
  );
}

/** Those far down are many before the first readings, and each is small. */
const suspectsInSight = 8;

function LesserSuspects({ suspects }: { readonly suspects: readonly Suspect[] }) {
  const [most] = suspects;
  if (most === undefined) return null;
  return (
    <details className="table">
      <summary>
        And {suspects.length} more, {percent(most.probability)}
        {suspects.length > 1 && ' or less each'}
      </summary>
      <ol className="suspects" start={suspectsInSight + 1}>
        {suspects.map((suspect) => (
          <SuspectEntry key={suspect.id} suspect={suspect} open={false} />
        ))}
      </ol>
    </details>
  );
}

function SuspectEntry({ suspect, open }: { readonly suspect: Suspect; readonly open: boolean }) {
  const { job, units, visit, checks } = useOpenJob();
  const readings = job.visits.flatMap((one) => one.readings);
  return (
    <li className="suspect">
      <details open={open}>
        <summary className="suspect-head">
          <span className="suspect-name">
            {suspect.words}
            <span className="row-under soft small">
              {[
                suspect.part === '' ? undefined : partName(suspect.part, job),
                suspect.nature === 'normal' ? 'normal, not a fault' : undefined,
              ]
                .filter((words) => words !== undefined)
                .join(' · ')}
            </span>
          </span>
          <Chance chance={suspect.probability} nature={suspect.nature} />
        </summary>
        <p>{suspect.ownerWords}</p>
        {suspect.why.length === 0 ? (
          <p className="soft small">
            No reading speaks for or against it yet. Before any reading it stood at {percent(suspect.prior)}.
          </p>
        ) : (
          <table className="ruled why">
            <caption className="small soft">
              What the readings say of it; before them it stood at {percent(suspect.prior)}.
            </caption>
            <thead className="unseen">
              <tr>
                <th scope="col">Reading</th>
                <th scope="col">What it says</th>
              </tr>
            </thead>
            <tbody>
              {suspect.why.map(({ reading, check, factor, words }) => {
                const view = checks.find(({ id }) => id === check);
                const written = readings.find(({ id }) => id === reading);
                return (
                  <tr key={reading} className={factor >= 1.5 ? 'for' : factor <= 1 / 1.5 ? 'against' : ''}>
                    <th scope="row">
                      {view?.text.words ?? check}
                      {written && (
                        <span className="nowrap">
                          {view?.text.words.endsWith('?') ? ' ' : ': '}
                          {readingWords(written, view, units)}
                        </span>
                      )}
                      {written && visit?.readings.includes(written) === false && ', before the repair'}
                    </th>
                    <td title={words}>
                      {factorWords(factor)} <span className="soft small">({timesWords(factor)})</span>
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        )}
        {suspect.nature === 'fault' && <PutRightButton fault={suspect.id} />}
      </details>
    </li>
  );
}

function Chance({ chance, nature }: { readonly chance: number; readonly nature: 'fault' | 'normal' }) {
  return (
    <span className="chance">
      <svg className="chance-bar" viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true">
        <rect className={`chance-fill chance-${nature}`} width={100 * chance} height="12" />
        <path className="chance-line" d="M0 12H100" vectorEffect="non-scaling-stroke" />
      </svg>
      <b className="chance-figure">{percent(chance)}</b>
    </span>
  );
}

/** Cleared parts; the first few in sight, the rest folded away. */
function ClearedParts() {
  const { verdict } = useOpenJob();
  const cleared = verdict.value?.cleared ?? [];
  const inSight = 6;
  return (
    <section>
      <h2>Cleared</h2>
      {cleared.length === 0 ? (
        <p className="soft">
          Nothing is cleared yet. A part is cleared when a reading makes its failure very unlikely.
        </p>
      ) : (
        <>
          <ClearedRows cleared={cleared.slice(0, inSight)} />
          {cleared.length > inSight && (
            <details className="table">
              <summary>And {cleared.length - inSight} more</summary>
              <ClearedRows cleared={cleared.slice(inSight)} />
            </details>
          )}
        </>
      )}
    </section>
  );
}

function ClearedRows({ cleared }: { readonly cleared: readonly Cleared[] }) {
  const { job, checks } = useOpenJob();
  return (
    <ul className="rows cleared">
      {cleared.map(({ id, words, by, probability }) => {
        const part = id.split('@')[1];
        return (
          <li key={id} className="row">
            <span className="row-main">
              <Tick /> {words}
              <span className="row-under soft small">
                {part !== undefined && `${partName(part, job)} · `}by{' '}
                {lower(checks.find((check) => check.id === by.check)?.text.words ?? by.check)}
              </span>
            </span>
            <span className="row-end small">{percent(probability)}</span>
          </li>
        );
      })}
    </ul>
  );
}

function errorWords(error: number): string {
  const points = error * 100;
  return points < 0.1
    ? 'the chances shown are right to a tenth of a percentage point.'
    : `the chances shown may be off by ${points.toFixed(1)} percentage points.`;
}
