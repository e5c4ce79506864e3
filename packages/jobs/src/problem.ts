/** What is wrong with a job file: where, what stands there, what may stand there, and what to do. */

export const problemKinds = [
  'too-large',
  'not-json',
  'too-deep',
  'duplicate-key',
  'forbidden-key',
  'not-a-job',
  'newer-version',
  'unknown-version',
  'missing',
  'wrong-type',
  'too-long',
  'unknown-choice',
  'unknown-field',
  'unknown-unit',
  'out-of-range',
  'bad-id',
  'bad-date',
  'duplicate-id',
  'cable-to-nowhere',
  'cable-to-itself',
  'loop-without-resistance',
  'serves-nothing',
  'unknown-check',
  'unknown-answer',
  'no-outcome',
  'two-outcomes',
  'implausible-reading',
  'unknown-fault',
  'curve-not-met',
] as const;
export type ProblemKind = (typeof problemKinds)[number];

export interface Problem {
  readonly kind: ProblemKind;
  /** JSON pointer (RFC 6901) to the value; empty for the whole file. */
  readonly pointer: string;
  /** The place in words: `cable "charge-cable", length`. */
  readonly place: string;
  /** What stands there, shortened; control characters escaped. */
  readonly value: string;
  readonly allowed: string;
  readonly advice: string;
  /** Allowed names that look like the value, closest first. */
  readonly nearest?: readonly string[];
}

export type Path = readonly (string | number)[];

/** JSON pointer of a path.  Source: RFC 6901 */
export function pointerOf(path: Path): string {
  return path.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** A place of a job file in words; follows ids where the file has them. */
export function placeOf(root: unknown, path: Path): string {
  const words: string[] = [];
  let node = root;
  for (const [depth, step] of path.entries()) {
    const parent = path[depth - 1];
    node = child(node, step);
    if (typeof step === 'number') words.push(itemWords(String(parent ?? 'item'), step, node));
    else if (!containers.has(step) || depth === path.length - 1) words.push(step.replaceAll('_', ' '));
  }
  return words.length === 0 ? 'the whole file' : words.join(', ');
}

/** What stands at a path; undefined when nothing does. */
export function valueAt(root: unknown, path: Path): unknown {
  return path.reduce<unknown>((node, step) => child(node, step), root);
}

/** A value as a message shows it: JSON, at most 60 characters. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'object' && value !== null) return Array.isArray(value) ? 'a list' : 'an object';
  return shortened(JSON.stringify(value));
}

/** Text of at most 60 characters. */
function shortened(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

const containers = new Set([
  'boat',
  'parts',
  'visits',
  'readings',
  'repairs',
  'quantities',
  'choices',
  'facts',
  'photos',
]);

function child(node: unknown, step: string | number): unknown {
  if (typeof node !== 'object' || node === null || !Object.hasOwn(node, step)) return undefined;
  return (node as Record<string | number, unknown>)[step];
}

function itemWords(list: string, index: number, item: unknown): string {
  const id = child(item, 'id');
  const kind = list === 'parts' ? child(item, 'kind') : undefined;
  const name = typeof kind === 'string' ? shortened(kind) : list.replace(/s$/, '');
  return typeof id === 'string' ? `${name} ${shown(id)}` : `${name} ${index + 1} of the list`;
}
