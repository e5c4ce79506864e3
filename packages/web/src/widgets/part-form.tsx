/** What is known of one part, and its changes. */
import { changeBoat } from '../state/job-edits.ts';
import {
  withChoice,
  withoutPart,
  withPart,
  withQuantity,
  withText,
  terminalsOf,
} from '../state/boat-edits.ts';
import { useOpenJob } from '../state/job-context.tsx';
import { usePreferences } from '../state/preferences.ts';
import { partWords, terminalName } from '../words/part-words.ts';
import { askedUnit, optionWord, quantityText } from '../words/quantity-words.ts';
import { lower, partKinds } from '../work/contract.ts';
import { notesOn } from '../work/boat-review.ts';
import type { JobPart } from '../work/contract.ts';
import { Choice } from './choice.tsx';
import { QuantityField, type QuantityKindView } from './quantity-field.tsx';

export function PartForm({ part }: { readonly part: JobPart }) {
  const { job, readOnly, review } = useOpenJob();
  const notes = notesOn(part.id, review, job);
  const kind = partKinds[part.kind];
  const name = partWords(part, job);
  const change = (words: string, make: (part: JobPart) => JobPart) =>
    changeBoat(job.id, `${name}: ${words}`, (boat) => withPart(boat, part.id, make));
  const quantities = Object.entries(kind.quantities as Readonly<Record<string, QuantityKindView>>);
  const choices = Object.entries(
    kind.choices as Readonly<Record<string, { options: readonly string[]; words: string }>>,
  );
  return (
    <details className="part-form">
      <summary>
        <span className="row-main">
          <b>{name}</b>
          <PartSummary part={part} />
          {notes.size > 0 && <b className="row-under small">a value here does not fit the rest</b>}
        </span>
      </summary>
      <div className="part-fields">
        <label className="field">
          Name
          <input
            key={part.label ?? ''}
            defaultValue={part.label ?? ''}
            maxLength={200}
            placeholder={name}
            disabled={readOnly}
            onBlur={(event) => {
              const text = event.target.value.trim();
              if (text !== (part.label ?? '')) change('name', (old) => withText(old, 'label', text));
            }}
          />
        </label>
        {(part.kind === 'cable' || part.kind === 'gauge') && (
          <>
            <EndField
              words="From"
              value={part.from}
              disabled={readOnly}
              onChange={(to) => change('from', (old) => withText(old, 'from', to))}
            />
            <EndField
              words="To"
              value={part.to}
              disabled={readOnly}
              onChange={(to) => change('to', (old) => withText(old, 'to', to))}
            />
          </>
        )}
        {quantities.map(([key, entry]) => (
          <QuantityField
            key={key}
            name={key}
            part={part.kind}
            kind={entry}
            value={part.quantities[key]}
            note={notes.get(key)}
            disabled={readOnly}
            onChange={(value) => change(entry.words, (old) => withQuantity(old, key, value))}
          />
        ))}
        {choices.map(([key, entry]) => (
          <Choice
            key={key}
            words={entry.words.charAt(0).toUpperCase() + entry.words.slice(1)}
            value={part.choices[key] ?? ''}
            options={[
              ['', 'Don’t know'],
              ...entry.options.map((option) => [option, optionWord(option)] as const),
            ]}
            disabled={readOnly}
            onChoose={(option) =>
              change(entry.words, (old) => withChoice(old, key, option === '' ? undefined : option))
            }
          />
        ))}
        {!readOnly && (
          <p>
            <button
              type="button"
              onClick={() => changeBoat(job.id, `take out ${name}`, (boat) => withoutPart(boat, part.id))}
            >
              Take out {lower(name)}
            </button>
          </p>
        )}
      </div>
    </details>
  );
}

interface EndProps {
  readonly words: string;
  readonly value: string | undefined;
  readonly disabled: boolean;
  readonly onChange: (terminal: string) => void;
}

export function EndField({ words, value, disabled, onChange }: EndProps) {
  const { job } = useOpenJob();
  return (
    <label className="field">
      {words}
      <select value={value ?? ''} disabled={disabled} onChange={(event) => onChange(event.target.value)}>
        <option value="">nowhere</option>
        {terminalsOf(job.boat).map((terminal) => (
          <option key={terminal} value={terminal}>
            {terminalName(terminal, job)}
          </option>
        ))}
      </select>
    </label>
  );
}

/** What is known of a part, in one line. */
function PartSummary({ part }: { readonly part: JobPart }) {
  const { job } = useOpenJob();
  const preferences = usePreferences();
  const kinds = partKinds[part.kind].quantities as Readonly<Record<string, QuantityKindView>>;
  const known = Object.entries(part.quantities).flatMap(([key, quantity]) => {
    const kind = kinds[key];
    if (!kind || quantity.origin === 'assumed') return [];
    const asked = askedUnit(key, part.kind, kind.dimension, preferences);
    return [`${quantityText(quantity, kind.dimension, asked)} ${asked.symbol}`];
  });
  const chosen = Object.values(part.choices).map(optionWord);
  const ends =
    part.kind === 'cable' && part.from !== undefined && part.to !== undefined
      ? [`${terminalName(part.from, job)} to ${terminalName(part.to, job)}`]
      : [];
  const words = [...ends, ...known, ...chosen].join(' · ');
  return <span className="row-under small soft">{words === '' ? 'nothing known' : words}</span>;
}
