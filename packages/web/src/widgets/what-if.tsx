/** The same plan for the boat as it is and for changed boats: one chart, one table of differences, each can be kept. */
import { proxy } from 'comlink';
import { useMemo, useState } from 'react';
import { RunDrawing } from '../drawing/run-drawing.tsx';
import { changeBoat } from '../state/job-edits.ts';
import { useOpenJob } from '../state/job-context.tsx';
import type { ReadPlan } from '../state/plan.ts';
import { changeWords } from '../words/part-words.ts';
import { rowWords } from '../words/run-words.ts';
import type { VariantId } from '../work/contract.ts';
import type { WhatIfLine, WhatIfView } from '../work/charging.ts';
import { think } from '../work/thinker.ts';
import { useThought } from '../work/use-thought.ts';
import { Cautions } from './cautions.tsx';
import { Fitted } from './fitted.tsx';
import { ProgressNote } from './progress-note.tsx';

const mostChosen = 3;

export function WhatIf({ plan }: { readonly plan: ReadPlan }) {
  const { job } = useOpenJob();
  const [chosen, setChosen] = useState<readonly VariantId[]>([]);
  const [share, setShare] = useState(0);
  const boat = useMemo(() => JSON.stringify(job.boat), [job.boat]);
  const variants = useThought('variants', boat, async (thinking) => thinking.variants(job)).value ?? [];
  const wanted = chosen.filter((id) => variants.some((variant) => variant.id === id));
  const ask = { plan: plan.phases, start: plan.start };
  const thought = useThought<WhatIfView | undefined>(
    'what-if',
    JSON.stringify([boat, ask, wanted]),
    async (thinking) =>
      wanted.length === 0 ? undefined : thinking.whatIf(job, ask, wanted, proxy(setShare)),
  );
  const view = thought.value;
  return (
    <section>
      <h2>What if?</h2>
      <p className="soft">
        Choose up to {mostChosen} changes. The same plan is run for each, beside the boat as it is. Nothing
        changes until you keep one.
      </p>
      <ul className="variants">
        {variants.map(({ id, name, changes }) => (
          <li key={id}>
            <label className="tick-box">
              <input
                type="checkbox"
                checked={wanted.includes(id)}
                disabled={!wanted.includes(id) && wanted.length >= mostChosen}
                onChange={(event) =>
                  setChosen(event.target.checked ? [...wanted, id] : wanted.filter((other) => other !== id))
                }
              />
              <span>
                {name}{' '}
                <span className="variant-changes small soft">
                  {changes.map((change) => changeWords(change, job)).join(' ')}
                </span>
              </span>
            </label>
          </li>
        ))}
      </ul>
      <ProgressNote thought={thought} share={share} />
      {view && wanted.length > 0 && (
        <>
          <WhatIfChart lines={view.lines} />
          <WhatIfTable view={view} />
          {view.lines.slice(1).map((line) => (
            <Kept key={line.variant} line={line} />
          ))}
        </>
      )}
    </section>
  );
}

function WhatIfChart({ lines }: { readonly lines: readonly WhatIfLine[] }) {
  return (
    <figure>
      <figcaption>State of charge</figcaption>
      <ul className="chart-key small">
        {lines.map(({ name }, index) => (
          <li key={name}>
            <svg viewBox="0 0 32 18" aria-hidden="true">
              <path className={`run-line run-line-${index}`} d="M0 9H32" />
            </svg>
            {name}
          </li>
        ))}
      </ul>
      <Fitted>
        {(width) => (
          <RunDrawing
            title="State of charge"
            unit="%"
            width={width}
            height={260}
            decimals={0}
            lines={lines.map(({ name, times, charge }) => ({
              name,
              times,
              values: charge.map((value) => 100 * value),
            }))}
          />
        )}
      </Fitted>
    </figure>
  );
}

function WhatIfTable({ view }: { readonly view: WhatIfView }) {
  const { units } = useOpenJob();
  return (
    <div className="table-frame" tabIndex={0} role="region" aria-label="Differences as a table">
      <table className="ruled">
        <thead>
          <tr>
            <th scope="col">What changes</th>
            {view.lines.map(({ name }) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {view.rows.map((row) => (
            <tr key={row.id}>
              <th scope="row">{row.words}</th>
              {[row.base, ...row.values].map((value, index) => (
                <td key={index}>{rowWords(row, value, units)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** What one change gains and costs, and the button that makes it the job's boat. */
function Kept({ line }: { readonly line: WhatIfLine }) {
  const { job, readOnly } = useOpenJob();
  const [trouble, setTrouble] = useState<string>();
  const { variant } = line;
  const keep = async () => {
    if (variant === undefined) return;
    const boat = await think('keep', (thinking) => thinking.boatWith(job, variant));
    if (boat === undefined) setTrouble('This change no longer fits the boat. Look at the list again.');
    else changeBoat(job.id, line.name, () => boat);
  };
  return (
    <section className="kept">
      <h3>{line.name}</h3>
      <Cautions cautions={line.cautions} />
      <dl className="gains">
        <dt>Better</dt>
        <dd>
          {line.gains.length === 0 ? 'Nothing that counts on this plan.' : <Sayings says={line.gains} />}
        </dd>
        <dt>Worse, or to be done</dt>
        <dd>
          <Sayings says={[...new Set([...line.costs, ...line.asks])]} />
        </dd>
      </dl>
      {!readOnly && (
        <p className="actions">
          <button type="button" onClick={() => void keep()}>
            Keep it: change this job’s boat
          </button>
          <span className="small soft">Undo takes it back.</span>
        </p>
      )}
      {trouble !== undefined && <p role="alert">{trouble}</p>}
    </section>
  );
}

function Sayings({ says }: { readonly says: readonly string[] }) {
  return (
    <ul className="plain-list">
      {says.map((words) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
  );
}
