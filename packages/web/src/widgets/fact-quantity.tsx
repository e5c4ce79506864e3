/** A number that is asked for: the usual ones as chips, any other typed, or unknown. */
import { useState } from 'react';
import type { JobQuantity } from '../work/contract.ts';
import type { AskedQuantity } from '../words/facts.ts';

interface Props {
  readonly asked: AskedQuantity;
  readonly value: JobQuantity | undefined;
  readonly onChange: (value: JobQuantity | undefined) => void;
}

export function FactQuantity({ asked, value, onChange }: Props) {
  const { words, note, unit, symbol, usual, shown } = asked;
  const known = value?.unit === unit ? value.value : undefined;
  const listed = known !== undefined && usual.includes(known);
  const [typed, setTyped] = useState(() => (known === undefined || listed ? '' : String(known)));
  const choose = (number: number | undefined) => {
    setTyped('');
    onChange(number === undefined ? undefined : { value: number, unit, origin: 'told' });
  };
  const type = (text: string) => {
    setTyped(text);
    const number = Number(text.replace(',', '.'));
    onChange(
      text.trim() !== '' && Number.isFinite(number) && number > 0
        ? { value: number, unit, origin: 'told' }
        : undefined,
    );
  };
  return (
    <fieldset className="choice">
      <legend>
        {words} <span className="small soft">{note}</span>
      </legend>
      <div className="chips">
        <label className="chip chip-unknown">
          <input
            type="radio"
            checked={value === undefined && typed === ''}
            onChange={() => choose(undefined)}
          />
          <span>Don’t know</span>
        </label>
        {usual.map((number) => (
          <label key={number} className="chip">
            <input type="radio" checked={typed === '' && known === number} onChange={() => choose(number)} />
            <span>
              {shown?.[number] ?? number} <small>{symbol}</small>
            </span>
          </label>
        ))}
        <label className="chip-other">
          <input
            inputMode="decimal"
            aria-label={`${words}: another value, in ${symbol}`}
            placeholder="other"
            value={typed}
            onChange={(event) => type(event.target.value)}
          />
          <small>{symbol}</small>
        </label>
      </div>
    </fieldset>
  );
}
