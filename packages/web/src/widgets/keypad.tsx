/** Keys large enough for a wet thumb. */
import type { ReactNode } from 'react';

export type Key = '0' | '1' | '2' | '3' | '4' | '5' | '6' | '7' | '8' | '9' | '.' | '-' | 'back';

const keys: readonly Key[] = ['7', '8', '9', 'back', '4', '5', '6', '-', '1', '2', '3', '.', '0'];
const names: Readonly<Partial<Record<Key, string>>> = { '.': 'point', '-': 'change sign', back: 'delete' };
const faces: Readonly<Partial<Record<Key, string>>> = { '-': '+/−', back: 'Del' };

interface Props {
  readonly onKey: (key: Key) => void;
  readonly disabled?: boolean;
  /** What stands beside the last key: the button that writes the number down. */
  readonly children: ReactNode;
}

export function Keypad({ onKey, disabled = false, children }: Props) {
  return (
    <div className="keypad" role="group" aria-label="Keypad">
      {keys.map((key) => (
        <button
          key={key}
          type="button"
          className={/\d/.test(key) ? 'digit' : undefined}
          aria-label={names[key]}
          disabled={disabled}
          onClick={() => onKey(key)}
        >
          {faces[key] ?? key}
        </button>
      ))}
      {children}
    </div>
  );
}

/** What stands in the display after a key. */
export function keyed(text: string, key: Key): string {
  if (key === 'back') return text.slice(0, -1);
  if (key === '-') return text.startsWith('-') ? text.slice(1) : `-${text}`;
  if (key === '.' && text.includes('.')) return text;
  return text.length < 9 ? text + key : text;
}
