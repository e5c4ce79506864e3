/** One quantity of a part: a number in the unit its owner likes, where it came from, or unknown. */
import { useId, useState } from 'react';
import { usePreferences } from '../state/preferences.ts';
import { askedUnit, originWords, quantityText } from '../words/quantity-words.ts';
import {
  findUnit,
  fromSI,
  parseQuantity,
  toSI,
  type Dimension,
  type JobQuantity,
  type Problem,
} from '../work/contract.ts';

export interface QuantityKindView {
  readonly dimension: Dimension;
  readonly low: number;
  readonly high: number;
  readonly words: string;
}

interface Props {
  readonly name: string;
  readonly part: string;
  readonly kind: QuantityKindView;
  readonly value: JobQuantity | undefined;
  /** Why the value stands, and cannot be met. */
  readonly note?: Problem | undefined;
  readonly disabled: boolean;
  readonly onChange: (value: JobQuantity | undefined) => void;
}

type Origin = NonNullable<JobQuantity['origin']>;

export function QuantityField({ name, part, kind, value, note, disabled, onChange }: Props) {
  const id = useId();
  const asked = askedUnit(name, part, kind.dimension, usePreferences());
  const standing = quantityText(value, kind.dimension, asked);
  const [typed, setTyped] = useState<string>();
  const [trouble, setTrouble] = useState<string>();
  const origin: Origin = value?.origin ?? 'told';

  const take = () => {
    if (typed === undefined || typed === standing) {
      setTyped(undefined);
      return;
    }
    if (typed.trim() === '') {
      setTyped(undefined);
      setTrouble(undefined);
      onChange(undefined);
      return;
    }
    const parsed = parseQuantity(typed, kind.dimension, asked.unit);
    const written = parsed.kind === 'ok' ? parsed.quantity : undefined;
    const quantity = written && {
      value: written.value * (written.unit === asked.unit ? asked.times : 1),
      unit: written.unit,
    };
    const si = quantity && toSI(quantity, kind.dimension);
    if (!quantity || si?.kind !== 'ok') {
      setTrouble(`“${typed}” is not understood. Type a number in ${asked.symbol}, or leave it empty.`);
      return;
    }
    if (si.value < kind.low * (1 - 1e-9) - 1e-12 || si.value > kind.high * (1 + 1e-9)) {
      setTrouble(`${typed} ${asked.symbol} is out of range: ${rangeWords(kind, asked)}.`);
      return;
    }
    setTyped(undefined);
    setTrouble(undefined);
    onChange({ ...quantity, origin });
  };

  return (
    <div className="quantity">
      <label htmlFor={id}>{capital(kind.words)}</label>
      <div className="quantity-row">
        <input
          id={id}
          inputMode="text"
          autoComplete="off"
          placeholder="don’t know"
          value={typed ?? standing}
          disabled={disabled}
          aria-invalid={trouble !== undefined}
          aria-describedby={trouble === undefined && note === undefined ? undefined : `${id}-said`}
          onChange={(event) => setTyped(event.target.value)}
          onBlur={take}
          onKeyDown={(event) => {
            if (event.key === 'Enter') take();
          }}
        />
        <span className="quantity-unit">{asked.symbol}</span>
        <select
          aria-label={`${kind.words}: where it comes from`}
          value={origin}
          disabled={disabled || value === undefined}
          onChange={(event) => {
            if (value) onChange({ ...value, origin: event.target.value as Origin });
          }}
        >
          {Object.entries(originWords).map(([key, words]) => (
            <option key={key} value={key}>
              {words}
            </option>
          ))}
        </select>
      </div>
      {note && trouble === undefined && (
        <p className="complaint small" id={`${id}-said`} role="status">
          {note.value} does not fit the rest. What would: {note.allowed}. {note.advice}
        </p>
      )}
      {trouble !== undefined && (
        <p className="complaint small" id={`${id}-said`} role="alert">
          {trouble}
        </p>
      )}
    </div>
  );
}

function rangeWords({ low, high, dimension }: QuantityKindView, asked: ReturnType<typeof askedUnit>): string {
  const shown = (si: number) =>
    Number((fromSI(si, asked.unit, dimension).value / asked.times).toPrecision(3));
  const ends = [shown(low), shown(high)].sort((a, b) => a - b);
  const symbol = asked.times === 1 ? (findUnit(asked.unit, dimension)?.symbol ?? '') : asked.symbol;
  return `allowed is ${ends[0]} to ${ends[1]} ${symbol}`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
