/** Changes to the parts of a boat. */
import { partKinds } from '../work/contract.ts';
import type { JobBoat, JobPart, JobQuantity, PartKindId } from '../work/contract.ts';
import { partOf } from '../drawing/placement.ts';

export function withPart(boat: JobBoat, id: string, change: (part: JobPart) => JobPart): JobBoat {
  return { ...boat, parts: boat.parts.map((part) => (part.id === id ? change(part) : part)) };
}

export function withQuantity(part: JobPart, key: string, quantity: JobQuantity | undefined): JobPart {
  const { [key]: _, ...others } = part.quantities;
  return { ...part, quantities: quantity === undefined ? others : { ...others, [key]: quantity } };
}

export function withChoice(part: JobPart, key: string, option: string | undefined): JobPart {
  const { [key]: _, ...others } = part.choices;
  return { ...part, choices: option === undefined ? others : { ...others, [key]: option } };
}

export function withText(part: JobPart, key: 'label' | 'from' | 'to' | 'serves', text: string): JobPart {
  const { [key]: _, ...rest } = part;
  return text === '' ? rest : { ...rest, [key]: text };
}

/** Takes a part out together with the cables that end on it. */
export function withoutPart(boat: JobBoat, id: string): JobBoat {
  const ends = (terminal: string | undefined) => terminal !== undefined && partOf(terminal) === id;
  return {
    ...boat,
    parts: boat.parts.filter((part) => part.id !== id && !ends(part.from) && !ends(part.to)),
  };
}

/** Adds a part of a kind; cables take the two terminals they join. */
export function withNewPart(
  boat: JobBoat,
  kind: PartKindId,
  more: Partial<Pick<JobPart, 'from' | 'to' | 'serves'>> = {},
): JobBoat {
  return {
    ...boat,
    parts: [...boat.parts, { id: freeId(boat, kind), kind, quantities: {}, choices: {}, ...more }],
  };
}

/** Adds a bank beside the first one: a battery, joined to it by a cable at each post. */
export function withNewBank(boat: JobBoat): JobBoat {
  const first = boat.parts.find(({ kind }) => kind === 'battery');
  const id = freeId(boat, 'battery');
  const added = withNewPart(boat, 'battery');
  if (!first) return added;
  const positive = withNewPart(added, 'cable', { from: `${first.id}.+`, to: `${id}.+` });
  return withNewPart(positive, 'cable', { from: `${id}.-`, to: `${first.id}.-` });
}

/** Adds an alternator like the first on the same engine, with belt and inside regulator, its stud on the first bank. */
export function withSecondAlternator(boat: JobBoat): JobBoat {
  const first = boat.parts.find(({ kind }) => kind === 'alternator');
  const engine = first?.serves ?? boat.parts.find(({ kind }) => kind === 'engine')?.id;
  const bank = boat.parts.find(({ kind }) => kind === 'battery');
  const id = freeId(boat, 'alternator');
  let changed = withNewPart(boat, 'alternator', engine === undefined ? {} : { serves: engine });
  // One wire: it wakes by itself until somebody says otherwise.
  changed = withPart(changed, id, (part) => withChoice(part, 'excitation', 'none'));
  changed = withNewPart(changed, 'regulator', { serves: id });
  changed = withPart(changed, changed.parts.at(-1)?.id ?? '', (part) => withChoice(part, 'place', 'inside'));
  changed = withNewPart(changed, 'belt', { serves: id });
  if (bank) changed = withNewPart(changed, 'cable', { from: `${id}.B+`, to: `${bank.id}.+` });
  if (engine !== undefined)
    changed = withNewPart(changed, 'cable', { from: `${id}.case`, to: `${engine}.block` });
  return changed;
}

export function terminalsOf(boat: JobBoat): readonly string[] {
  return boat.parts.flatMap(({ id, kind }) =>
    kind === 'cable' ? [] : partKinds[kind].terminals.map((name) => `${id}.${name}`),
  );
}

function freeId(boat: JobBoat, kind: string): string {
  const taken = new Set(boat.parts.map(({ id }) => id));
  if (!taken.has(kind)) return kind;
  for (let number = 2; ; number++) if (!taken.has(`${kind}-${number}`)) return `${kind}-${number}`;
}
