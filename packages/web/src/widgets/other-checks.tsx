/** Every other check on this boat, best first, with a filter. */
import { useMemo, useState } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { usePreferences } from '../state/preferences.ts';
import { jobAddress } from '../state/route.ts';
import { riskWords, skillWords, wayWords } from '../words/check-words.ts';
import { partName } from '../words/part-words.ts';
import type { CheckView } from '../work/check-view.ts';
import type { Skill } from '../work/contract.ts';

const ways = ['ask', 'look', 'listen', 'measure', 'intervene'] as const;
const ranks: readonly Skill[] = ['owner', 'apprentice', 'electrician'];

interface Props {
  readonly title: string;
  /** A check that stands above already. */
  readonly except: string | undefined;
}

export function OtherChecks({ title, except }: Props) {
  const [open, setOpen] = useState(false);
  return (
    <details className="others" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h2>{title}</h2>
      </summary>
      {open && <CheckList except={except} />}
    </details>
  );
}

/** Built only while it is in sight: it is long, and every answer sorts it anew. */
function CheckList({ except }: Pick<Props, 'except'>) {
  const { checks, verdict, visit, job } = useOpenJob();
  const { skill } = usePreferences();
  const [words, setWords] = useState('');
  const [way, setWay] = useState<string>('');

  const listed = useMemo(() => {
    const order = new Map(verdict.value?.next.map(({ check }, index) => [check, index]));
    const wanted = words.trim().toLowerCase();
    return checks
      .filter(({ id }) => id !== except)
      .filter(({ text }) => way === '' || text.way === way)
      .filter(
        ({ text }) => wanted === '' || `${text.words} ${text.tools.join(' ')}`.toLowerCase().includes(wanted),
      )
      .sort((a, b) => (order.get(a.id) ?? checks.length) - (order.get(b.id) ?? checks.length));
  }, [checks, verdict.value, words, way, except]);

  const done = new Set(visit?.readings.map(({ check }) => check));
  const beyond = (check: CheckView) => ranks.indexOf(check.text.skill) > ranks.indexOf(skill);
  return (
    <>
      <div className="filters">
        <label>
          <span className="unseen">Search the checks</span>
          <input
            type="search"
            value={words}
            placeholder="Search the checks"
            onChange={(event) => setWords(event.target.value)}
          />
        </label>
        <label>
          <span className="unseen">Kind of check</span>
          <select value={way} onChange={(event) => setWay(event.target.value)}>
            <option value="">Every kind</option>
            {ways.map((one) => (
              <option key={one} value={one}>
                {wayWords[one]}
              </option>
            ))}
          </select>
        </label>
      </div>
      {listed.length === 0 && (
        <p className="soft">No check matches. Clear the search to see all {checks.length}.</p>
      )}
      <ul className="rows">
        {listed.map((check) => (
          <li key={check.id}>
            <a className="row" href={jobAddress(job.id, 'readings', check.id)}>
              <span className="row-main">
                {check.text.words}
                <span className="row-under soft small">
                  {check.part !== undefined && `${partName(check.part, job)} · `}
                  {check.text.minutes} min · {riskWords[check.text.risk]}
                  {beyond(check) && ` · for ${skillWords[check.text.skill]}`}
                </span>
              </span>
              <span className="row-end small">{done.has(check.id) ? 'done' : wayWords[check.text.way]}</span>
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}
