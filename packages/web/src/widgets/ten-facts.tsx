/** The ten facts, each with its usual answers and "don't know". */
import type { Change, JobFacts, JobQuantity } from '../work/contract.ts';
import { changes } from '../work/contract.ts';
import { usePreferences } from '../state/preferences.ts';
import {
  alternatorAsked,
  bankAsked,
  beltAsked,
  cableAsked,
  changeWords,
  chemistryAsked,
  excitationAsked,
  idleAsked,
  loadsAsked,
  regulatorAsked,
  type AskedChoice,
  type AskedQuantity,
} from '../words/facts.ts';
import { Choice } from './choice.tsx';
import { FactQuantity } from './fact-quantity.tsx';

interface Props {
  readonly facts: JobFacts;
  readonly onChange: (facts: JobFacts) => void;
}

export function TenFacts({ facts, onChange }: Props) {
  const [size, run] = cableAsked(usePreferences());
  const set = (key: keyof JobFacts, value: JobQuantity | string | readonly Change[] | undefined) => {
    const { [key]: _, ...rest } = facts;
    onChange(value === undefined ? rest : { ...rest, [key]: value });
  };
  const quantity = (asked: AskedQuantity) => (
    <FactQuantity
      key={asked.key + asked.unit}
      asked={asked}
      value={facts[asked.key]}
      onChange={(value) => set(asked.key, value)}
    />
  );
  const choice = (asked: AskedChoice) => (
    <Choice
      key={asked.key}
      words={asked.words}
      note={asked.note}
      value={facts[asked.key] ?? ''}
      options={[['', 'Don’t know'], ...asked.options]}
      onChoose={(value) => set(asked.key, value === '' ? undefined : value)}
    />
  );
  return (
    <div className="facts">
      <Choice
        words="System"
        value={String(facts.nominal_voltage?.value ?? '')}
        options={[
          ['', 'Don’t know'],
          ['12', '12 V'],
          ['24', '24 V'],
        ]}
        onChoose={(value) =>
          set(
            'nominal_voltage',
            value === '' ? undefined : { value: Number(value), unit: 'V', origin: 'told' },
          )
        }
      />
      {quantity(alternatorAsked)}
      {choice(regulatorAsked)}
      {choice(excitationAsked)}
      {quantity(bankAsked)}
      {choice(chemistryAsked)}
      {quantity(size)}
      {quantity(run)}
      {choice(beltAsked)}
      {quantity(idleAsked)}
      {quantity(loadsAsked)}
      <Changed
        changed={facts.changed ?? []}
        onChange={(changed) => set('changed', changed.length === 0 ? undefined : changed)}
      />
    </div>
  );
}

interface ChangedProps {
  readonly changed: readonly Change[];
  readonly onChange: (changed: readonly Change[]) => void;
  readonly disabled?: boolean;
}

/** What was altered lately: any number of things. */
export function Changed({ changed, onChange, disabled = false }: ChangedProps) {
  const turn = (one: Change) =>
    onChange(changed.includes(one) ? changed.filter((other) => other !== one) : [...changed, one]);
  return (
    <fieldset className="choice" disabled={disabled}>
      <legend>
        Changed lately <span className="small soft">all that apply</span>
      </legend>
      <div className="chips">
        {changes.map((one) => (
          <label key={one} className="chip">
            <input type="checkbox" checked={changed.includes(one)} onChange={() => turn(one)} />
            <span>{changeWords[one]}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
