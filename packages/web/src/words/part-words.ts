/** Names of parts and terminals as people say them. */
import { partKinds } from '../work/contract.ts';
import type { Job, JobPart, PartKindId } from '../work/contract.ts';

const terminalWords: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  alternator: { 'B+': 'stud (B+)', case: 'case', F: 'field (F)', 'D+': 'D+' },
  regulator: { supply: 'supply', F: 'field', sense: 'sense', enable: 'enable', ground: 'ground' },
  battery: { '+': 'positive post', '-': 'negative post' },
  engine: { block: 'block' },
  starter: { post: 'post', case: 'case' },
  selector: { common: 'common', one: '1', two: '2' },
  isolator: { in: 'in', one: 'out 1', two: 'out 2' },
  fuse: { a: 'one side', b: 'other side' },
  relay: { a: 'one side', b: 'other side' },
  load: { '+': 'positive', '-': 'negative' },
  source: { '+': 'positive', '-': 'negative' },
  lamp: { a: 'key side', b: 'alternator side' },
  key: { in: 'in', out: 'out' },
  gauge: { '+': 'positive', '-': 'negative' },
};

export function kindWords(kind: PartKindId): string {
  return partKinds[kind].words;
}

/** A part by its label, or by its kind and what tells it from its like. */
export function partWords(part: JobPart, job: Job): string {
  if (part.label) return part.label;
  if (part.kind === 'cable') return sentence(part.id);
  if (part.kind === 'battery') {
    const duty = part.choices['duty'];
    if (duty === 'house' || duty === 'start') return `${sentence(duty)} bank`;
  }
  const alike = job.boat.parts.filter((other) => other.kind === part.kind);
  if (alike.length < 2) return kindWords(part.kind);
  const rest = part.id.replace(new RegExp(`^${part.kind}-?`), '');
  return rest === '' || rest === part.id
    ? sentence(part.id)
    : `${kindWords(part.kind)}, ${rest.replaceAll('-', ' ')}`;
}

/** A part's name from its id; the id itself when there is no such part. */
export function partName(id: string, job: Job): string {
  const part = job.boat.parts.find((candidate) => candidate.id === id);
  return part ? partWords(part, job) : id;
}

/** A part within a sentence: "the house bank"; a label stays as it was written. */
export function partInSentence(id: string, job: Job): string {
  const name = partName(id, job);
  const labelled = job.boat.parts.some((part) => part.id === id && part.label);
  return labelled ? name : `the ${name.charAt(0).toLowerCase()}${name.slice(1)}`;
}

/** "charge-cable: 50 mm²" as "Charge cable: 50 mm²"; what begins with no part's id stays as it is. */
export function changeWords(change: string, job: Job): string {
  const [id = ''] = change.split(':', 1);
  return partName(id, job) + change.slice(id.length);
}

/** `alternator.B+` as "Alternator, stud (B+)". */
export function terminalName(terminal: string, job: Job): string {
  const dot = terminal.indexOf('.');
  const id = terminal.slice(0, dot);
  const name = terminal.slice(dot + 1);
  const part = job.boat.parts.find((candidate) => candidate.id === id);
  if (!part) return terminal;
  return `${partWords(part, job)}, ${terminalWords[part.kind]?.[name] ?? name}`;
}

function sentence(id: string): string {
  const words = id.replaceAll('-', ' ').replaceAll('_', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
