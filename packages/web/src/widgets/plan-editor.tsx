/** The plan of a charge run in plain steps: engine, hours, speed, loads. */
import { useId } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { steps as freshStep, usualPlans, type Plan, type Step } from '../state/plan.ts';
import { partName } from '../words/part-words.ts';

interface Props {
  readonly plan: Plan;
  readonly onChange: (plan: Plan) => void;
}

const mostSteps = 12;

export function PlanEditor({ plan, onChange }: Props) {
  const { job } = useOpenJob();
  const banks = job.boat.parts.filter(({ kind }) => kind === 'battery');
  const put = (index: number, step: Step | undefined) =>
    onChange({
      ...plan,
      steps: plan.steps.flatMap((old, at) => (at !== index ? [old] : step === undefined ? [] : [step])),
    });
  return (
    <div className="plan">
      <div className="chips" role="group" aria-label="Usual plans">
        {usualPlans.map(([words, usual]) => (
          <button key={words} type="button" onClick={() => onChange({ ...plan, ...usual })}>
            {words}
          </button>
        ))}
      </div>
      <ol className="plan-steps">
        {plan.steps.map((step, index) => (
          <StepRow key={index} number={index + 1} step={step} onChange={(changed) => put(index, changed)} />
        ))}
      </ol>
      <p className="actions">
        <button
          type="button"
          disabled={plan.steps.length >= mostSteps}
          onClick={() =>
            onChange({
              ...plan,
              steps: [
                ...plan.steps,
                plan.steps.at(-1)?.engine === 'running' ? freshStep.lie('10') : freshStep.run('2'),
              ],
            })
          }
        >
          Add a step
        </button>
        <label className="plan-field">
          All of it{' '}
          <select
            value={plan.times}
            onChange={(event) => onChange({ ...plan, times: Number(event.target.value) })}
          >
            {[1, 2, 3, 5, 7, 14].map((times) => (
              <option key={times} value={times}>
                {times === 1 ? 'once' : `${times} times over`}
              </option>
            ))}
          </select>
        </label>
      </p>
      <div className="plan-start">
        {banks.map((bank) => (
          <label key={bank.id} className="plan-field">
            {partName(bank.id, job)} starts at{' '}
            <input
              inputMode="decimal"
              size={4}
              placeholder="as it is"
              value={plan.start[bank.id] ?? ''}
              onChange={(event) =>
                onChange({ ...plan, start: { ...plan.start, [bank.id]: event.target.value } })
              }
            />{' '}
            %
          </label>
        ))}
      </div>
    </div>
  );
}

interface RowProps {
  readonly number: number;
  readonly step: Step;
  /** Undefined takes the step out. */
  readonly onChange: (step: Step | undefined) => void;
}

function StepRow({ number, step, onChange }: RowProps) {
  const name = useId();
  return (
    <li>
      <fieldset className="plan-step">
        <legend className="unseen">Step {number}</legend>
        <span className="chips">
          {(['running', 'off'] as const).map((engine) => (
            <label key={engine} className="chip">
              <input
                type="radio"
                name={name}
                checked={step.engine === engine}
                onChange={() => onChange({ ...step, engine })}
              />
              <span>{engine === 'running' ? 'Engine runs' : 'Engine off'}</span>
            </label>
          ))}
        </span>
        <label className="plan-field">
          for{' '}
          <input
            inputMode="decimal"
            size={4}
            value={step.hours}
            onChange={(event) => onChange({ ...step, hours: event.target.value })}
          />{' '}
          h
        </label>
        {step.engine === 'running' && (
          <label className="plan-field">
            at{' '}
            <input
              inputMode="numeric"
              size={5}
              placeholder="cruising"
              value={step.rpm}
              onChange={(event) => onChange({ ...step, rpm: event.target.value })}
            />{' '}
            rpm
          </label>
        )}
        <label className="plan-field">
          loads{' '}
          <select
            value={step.loads}
            onChange={(event) => onChange({ ...step, loads: event.target.value as Step['loads'] })}
          >
            <option value="usual">as usual</option>
            <option value="none">none</option>
            <option value="double">twice the usual</option>
          </select>
        </label>
        <button
          type="button"
          className="plain"
          aria-label={`Take step ${number} out`}
          onClick={() => onChange(undefined)}
        >
          Take out
        </button>
      </fieldset>
    </li>
  );
}
