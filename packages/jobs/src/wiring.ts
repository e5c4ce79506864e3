/** Judges what a boat's parts refer to: ids, terminals, who serves whom, and loops that no resistance closes. */
import { nearestNames, partKinds } from '@ampwright/core';
import { servedKind } from './description.ts';
import type { JobBoat, JobPart } from './job.ts';
import { placeOf, pointerOf, shown, type Path, type Problem } from './problem.ts';

/** What is wrong with the wiring of a boat that stands at `path` of a file. */
export function wiringProblems(root: unknown, boat: JobBoat): Problem[] {
  const problems: Problem[] = [];
  const terminals = new Set<string>();
  const places = new Map<string, number>();
  boat.parts.forEach((part, index) => {
    const first = places.get(part.id);
    if (first === undefined) places.set(part.id, index);
    else
      problems.push(
        duplicateId(root, ['boat', 'parts', index, 'id'], part.id, `part ${first + 1} of the list`),
      );
    for (const terminal of partKinds[part.kind].terminals) terminals.add(`${part.id}.${terminal}`);
  });
  boat.parts.forEach((part, index) => {
    const path = ['boat', 'parts', index];
    problems.push(...endProblems(root, path, part, terminals), ...servedProblems(root, path, part, boat));
  });
  if (problems.length === 0) problems.push(...loopProblems(root, boat));
  return problems;
}

/** The same id twice, at the second place. */
export function duplicateId(root: unknown, path: Path, id: string, first: string): Problem {
  return {
    kind: 'duplicate-id',
    pointer: pointerOf(path),
    place: placeOf(root, path),
    value: shown(id),
    allowed: `an id that no other has; ${first} has this one already`,
    advice: 'Give one of the two another id.',
  };
}

function endProblems(root: unknown, path: Path, part: JobPart, terminals: ReadonlySet<string>): Problem[] {
  if (part.kind !== 'cable' && part.kind !== 'gauge') return [];
  const problems: Problem[] = [];
  for (const end of ['from', 'to'] as const) {
    const terminal = part[end];
    if (terminal !== undefined && terminals.has(terminal)) continue;
    if (terminal === undefined && part.kind === 'gauge') continue;
    const nearest = nearestNames(terminal ?? '', terminals);
    problems.push({
      kind: 'cable-to-nowhere',
      pointer: pointerOf([...path, end]),
      place: placeOf(root, [...path, end]),
      value: shown(terminal),
      allowed: `a terminal of a part of this boat${nearest.length === 0 ? '' : `, such as ${nearest.join(', ')}`}`,
      advice: 'Name the part and its terminal, or take the cable out.',
      nearest,
    });
  }
  if (problems.length === 0 && part.kind === 'cable' && part.from === part.to) {
    problems.push({
      kind: 'cable-to-itself',
      pointer: pointerOf([...path, 'to']),
      place: placeOf(root, [...path, 'to']),
      value: shown(part.to),
      allowed: 'another terminal than the one it starts from',
      advice: 'Name where the other end is bolted to.',
    });
  }
  return problems;
}

function servedProblems(root: unknown, path: Path, part: JobPart, boat: JobBoat): Problem[] {
  const wanted = servedKind(part.kind);
  if (wanted === undefined) return [];
  const candidates = boat.parts.filter((other) => other.kind === wanted).map((other) => other.id);
  const served = part.serves;
  if (served === undefined ? candidates.length === 1 : candidates.includes(served)) return [];
  const nearest = served === undefined ? candidates.slice(0, 3) : nearestNames(served, candidates);
  const purpose = wanted === 'engine' ? 'the engine that turns it' : 'the alternator it belongs to';
  return [
    {
      kind: 'serves-nothing',
      pointer: pointerOf([...path, 'serves']),
      place: placeOf(root, [...path, 'serves']),
      value: shown(served),
      allowed: `the id of ${purpose}: ${candidates.slice(0, 8).join(', ') || `there is no ${wanted} yet`}`,
      advice: candidates.length === 0 ? `Add the ${wanted}.` : 'Name one of these.',
      nearest,
    },
  ];
}

/** A cable that the file says has no resistance at all. Where only the length is zero, the joints at its ends still
 *  count, but two such in a loop leave the current between them to chance all the same. */
function isWithoutResistance(part: JobPart): boolean {
  if (part.kind !== 'cable') return false;
  const { resistance, length } = part.quantities;
  return resistance === undefined ? length?.value === 0 : resistance.value === 0;
}

function loopProblems(root: unknown, boat: JobBoat): Problem[] {
  const links = new Map<string, { readonly to: string; readonly cable: string }[]>();
  const problems: Problem[] = [];
  boat.parts.forEach((part, index) => {
    if (!isWithoutResistance(part)) return;
    const from = part.from!;
    const to = part.to!;
    const way = pathBetween(links, to, from);
    if (way !== undefined) {
      const path = ['boat', 'parts', index];
      problems.push({
        kind: 'loop-without-resistance',
        pointer: pointerOf(path),
        place: placeOf(root, path),
        value: `${part.id} (${from} to ${to}), ${way.join(', ')}`,
        allowed: 'at least one cable with resistance, or with a length and a size, in every loop',
        advice: 'Give the real length of one of these cables, or leave it unknown.',
      });
    }
    for (const [a, b] of [
      [from, to],
      [to, from],
    ] as const) {
      const list = links.get(a) ?? [];
      list.push({ to: b, cable: part.id });
      links.set(a, list);
    }
  });
  return problems;
}

/** Shortest way along the links, in words; undefined when there is none. */
function pathBetween(
  links: ReadonlyMap<string, readonly { readonly to: string; readonly cable: string }[]>,
  start: string,
  goal: string,
): readonly string[] | undefined {
  const reached = new Map<string, readonly string[]>([[start, []]]);
  const queue = [start];
  for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
    const way = reached.get(next)!;
    if (next === goal) return way;
    for (const link of links.get(next) ?? []) {
      if (reached.has(link.to)) continue;
      reached.set(link.to, [...way, `${link.cable} (${next} to ${link.to})`]);
      queue.push(link.to);
    }
  }
  return undefined;
}
