/** Enough? A plan of engine hours run through the boat: how full its banks become, and what a change would bring. */
import { proxy } from 'comlink';
import { useMemo, useState } from 'react';
import { RunDrawing } from '../drawing/run-drawing.tsx';
import { useOpenJob } from '../state/job-context.tsx';
import { readPlan, usePlan } from '../state/plan.ts';
import { RunTable } from '../widgets/run-table.tsx';
import { MarkCautions, MarkList } from '../widgets/run-mark-list.tsx';
import { Choice } from '../widgets/choice.tsx';
import { Fitted } from '../widgets/fitted.tsx';
import { PlanEditor } from '../widgets/plan-editor.tsx';
import { ProgressNote } from '../widgets/progress-note.tsx';
import { WhatIf } from '../widgets/what-if.tsx';
import { partName } from '../words/part-words.ts';
import { figureBandWords } from '../words/run-words.ts';
import type { SeriesBand } from '../work/contract.ts';
import type { ChargeView } from '../work/charging.ts';
import { useThought } from '../work/use-thought.ts';

type Bank = ChargeView['bands']['batteries'][number];

export function ChargePage() {
  const { job } = useOpenJob();
  const [plan, setPlan] = usePlan(job.id);
  const read = useMemo(() => readPlan(plan), [plan]);
  const [share, setShare] = useState(0);
  const [bankId, setBank] = useState<string>();
  const possible = ['alternator', 'battery', 'engine'].every((kind) =>
    job.boat.parts.some((part) => part.kind === kind),
  );
  const runs = possible && read.problem === undefined;
  const thought = useThought<ChargeView | undefined>(
    'charge',
    JSON.stringify([job.boat, read, possible]),
    async (thinking) =>
      runs ? thinking.charge(job, { plan: read.phases, start: read.start }, proxy(setShare)) : undefined,
  );
  const view = thought.value;
  const banks = view?.bands.batteries ?? [];
  const bank = banks.find(({ id }) => id === bankId) ?? banks[0];
  if (!possible) {
    return (
      <>
        <h1>Charge run</h1>
        <p className="soft">
          A run needs an engine, an alternator and a bank. Add what is missing under Boat.
        </p>
      </>
    );
  }
  return (
    <>
      <h1>Charge run</h1>
      <p className="soft">
        Is it enough? Say how the engine is used; the boat, healthy as described, is run through it. The bands
        hold eight boats of ten that fit what is known.
      </p>
      <PlanEditor plan={plan} onChange={setPlan} />
      {read.problem !== undefined && (
        <p className="note" role="alert">
          {read.problem}
        </p>
      )}
      <ProgressNote thought={thought} share={share} />
      {view && bank && runs && (
        <>
          {view.emptied && (
            <p className="note">A bank is empty before the plan ends; from there nothing more is drawn.</p>
          )}
          <MarkCautions marks={view.marks} />
          {banks.length > 1 && (
            <Choice
              words="Which bank"
              value={bank.id}
              options={banks.map(({ id }) => [id, partName(id, job)])}
              onChoose={setBank}
            />
          )}
          <Charts view={view} bank={bank} />
          <Figures view={view} bank={bank} />
        </>
      )}
      {runs && <WhatIf plan={read} />}
    </>
  );
}

function Charts({ view, bank }: { readonly view: ChargeView; readonly bank: Bank }) {
  const { job } = useOpenJob();
  const { times } = view.bands;
  const inPercent: SeriesBand = {
    low: bank.stateOfCharge.low.map((value) => 100 * value),
    middle: bank.stateOfCharge.middle.map((value) => 100 * value),
    high: bank.stateOfCharge.high.map((value) => 100 * value),
  };
  return (
    <figure>
      <figcaption>{partName(bank.id, job)}</figcaption>
      <ul className="chart-key small">
        <li>
          <svg viewBox="0 0 32 18" aria-hidden="true">
            <rect className="run-band" width="32" height="18" />
            <path className="run-middle" d="M0 9H32" />
          </svg>
          likely band, and its middle
        </li>
      </ul>
      <div className="run-charts">
        <Fitted>
          {(width) => (
            <>
              <RunDrawing
                title="State of charge"
                unit="%"
                width={width}
                height={246}
                decimals={0}
                least={[0, 100]}
                times={times}
                band={inPercent}
                marks={view.marks}
              />
              <RunDrawing
                title="Volts at its posts"
                unit="V"
                width={width}
                height={186}
                decimals={1}
                times={times}
                band={bank.voltage}
                marks={view.marks}
              />
              <RunDrawing
                title="Amps into it"
                unit="A"
                width={width}
                height={186}
                decimals={0}
                least={[0, 10]}
                times={times}
                band={bank.current}
                marks={view.marks}
              />
            </>
          )}
        </Fitted>
      </div>
      <MarkList marks={view.marks} />
      <RunTable times={times} charge={inPercent} bank={bank} marks={view.marks} />
    </figure>
  );
}

function Figures({ view, bank }: { readonly view: ChargeView; readonly bank: Bank }) {
  const { units } = useOpenJob();
  const { bands } = view;
  const late = 'not within this plan';
  const rows = [
    ['Time until 80 % full', figureBandWords(bank.timeTo80, 'time', units, late)],
    ['Time until 95 % full', figureBandWords(bank.timeTo95, 'time', units, late)],
    [
      'Engine hours a day that hold the bank',
      figureBandWords(bands.engineTimePerDay, 'time', units, 'more than a day has'),
    ],
    ['Fuel a day for that', figureBandWords(bands.fuelPerDay, 'volume', units, 'without end')],
    ['Hottest winding', figureBandWords(bands.peakTemperature, 'temperature', units)],
    ['Largest share of the engine’s power', figureBandWords(bands.peakEngineShare, 'ratio', units)],
    ['Belt load against what it carries', figureBandWords(bands.peakBeltShare, 'ratio', units)],
    ['Lost between alternator and bank', figureBandWords(bands.pathLoss, 'voltage', units)],
  ] as const;
  return (
    <table className="ruled figures">
      <caption className="unseen">What the run comes to</caption>
      <thead className="unseen">
        <tr>
          <th scope="col">Figure</th>
          <th scope="col">Typical, and the band</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([words, said]) => (
          <tr key={words}>
            <th scope="row">{words}</th>
            {/* A unit must not part from its figure. */}
            <td>{said.replace(/(?<=\d) /g, '\u00a0')}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
