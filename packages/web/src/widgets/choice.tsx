/** One of a few: every option is on view and one tap away. */
import { useId } from 'react';

interface Props<T extends string> {
  readonly words: string;
  readonly note?: string | undefined;
  readonly value: T | undefined;
  readonly options: readonly (readonly [T, string])[];
  readonly onChoose: (value: T) => void;
  readonly disabled?: boolean;
}

export function Choice<T extends string>({
  words,
  note,
  value,
  options,
  onChoose,
  disabled = false,
}: Props<T>) {
  const name = useId();
  return (
    <fieldset className="choice" disabled={disabled}>
      <legend>
        {words}
        {note !== undefined && <span className="small soft"> {note}</span>}
      </legend>
      <div className="chips">
        {options.map(([option, said]) => (
          <label key={option} className={option === '' ? 'chip chip-unknown' : 'chip'}>
            <input type="radio" name={name} checked={value === option} onChange={() => onChoose(option)} />
            <span>{said}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
