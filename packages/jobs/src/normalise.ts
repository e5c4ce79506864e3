/** Brings a file that passed the schema to one shape: nulls dropped, lists present, ids filled in. */
import type { Job, JobBoat, JobFacts, JobPart, JobQuantity, JobReading, JobVisit } from './job.ts';
import type { Path } from './problem.ts';
import { pointerOf } from './problem.ts';

/** A job whose boat may still stand in the short form. */
export interface LooseJob extends Omit<Job, 'boat'> {
  readonly boat: Omit<JobBoat, 'parts' | 'changed'> & {
    readonly changed?: JobBoat['changed'];
    readonly parts?: JobBoat['parts'];
    readonly facts?: JobFacts;
  };
}

/** T with some fields that a file may leave out. */
type May<T, K extends keyof T> = Omit<T, K> & Partial<Pick<T, K>>;
type FilePart = May<JobPart, 'quantities' | 'choices'>;
type FileReading = May<JobReading, 'id' | 'photos'>;
type FileVisit = Omit<May<JobVisit, 'id' | 'baseline'>, 'readings'> & {
  readonly readings?: readonly FileReading[];
};
type File = Omit<May<LooseJob, 'id'>, 'boat' | 'visits'> & {
  readonly boat: Omit<LooseJob['boat'], 'parts'> & { readonly parts?: readonly FilePart[] };
  readonly visits?: readonly FileVisit[];
};

/** The file in one shape. What stands at `kept` (fields the schema does not know) is left as it is. */
export function normalised(root: unknown, kept: readonly Path[]): LooseJob {
  const untouched = new Set(kept.map(pointerOf));
  const { boat, ...file } = withoutNulls(root, '', untouched) as File;
  const { parts, ...rest } = boat;
  return {
    ...file,
    id: file.id ?? 'job',
    boat: { ...rest, ...(parts === undefined ? {} : { parts: parts.map(fullPart) }) },
    visits: (file.visits ?? []).map(fullVisit),
  };
}

function fullPart(part: FilePart): JobPart {
  return { ...part, quantities: part.quantities ?? {}, choices: part.choices ?? {} };
}

function fullVisit(visit: FileVisit, index: number): JobVisit {
  const id = visit.id ?? `visit-${index + 1}`;
  return {
    ...visit,
    id,
    readings: (visit.readings ?? []).map((reading, position) => ({
      ...reading,
      id: reading.id ?? `${id}-reading-${position + 1}`,
      photos: reading.photos ?? [],
    })),
    baseline: visit.baseline ?? false,
  };
}

/** Copy without nulls; a quantity whose value is unknown goes as a whole. */
function withoutNulls(node: unknown, pointer: string, untouched: ReadonlySet<string>): unknown {
  if (Array.isArray(node))
    return node.map((item, index) => withoutNulls(item, `${pointer}/${index}`, untouched));
  if (typeof node !== 'object' || node === null) return node;
  const entries = Object.entries(node).flatMap(([key, value]: [string, unknown]) => {
    const place = pointer + pointerOf([key]);
    if (untouched.has(place)) return [[key, value]];
    if (value === null || isUnknownQuantity(value)) return [];
    return [[key, withoutNulls(value, place, untouched)]];
  });
  return Object.fromEntries(entries) as unknown;
}

function isUnknownQuantity(value: unknown): boolean {
  if (typeof value !== 'object' || value === null || !('unit' in value) || 'check' in value) return false;
  return ((value as Partial<JobQuantity>).value ?? null) === null;
}
