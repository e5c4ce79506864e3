/** Which row and lane each part of a boat takes: power flows down from the alternators to the banks; what controls it,
 *  and the loads, stand in a lane of their own on the right. The engine block is a bar below everything.
 */
import type { JobPart } from '../work/contract.ts';
import { symbolShapes } from './symbol-shapes.ts';

export interface Cell {
  readonly part: JobPart;
  readonly row: number;
  readonly lane: number;
}

export interface Placement {
  readonly cells: readonly Cell[];
  readonly rows: number;
  readonly lanes: number;
  readonly engines: readonly JobPart[];
}

const powerKinds = new Set(['alternator', 'starter', 'selector', 'isolator', 'relay', 'fuse', 'battery']);
const returnTerminals = new Set(['-', 'case', 'block', 'ground']);

export const partOf = (terminal: string): string => terminal.slice(0, terminal.indexOf('.'));
export const nameOf = (terminal: string): string => terminal.slice(terminal.indexOf('.') + 1);

export function placementOf(parts: readonly JobPart[]): Placement {
  const drawn = parts.filter((part) => symbolShapes[part.kind] !== undefined && !isBuiltIn(part, parts));
  const power = drawn.filter((part) => powerKinds.has(part.kind));
  const control = drawn.filter((part) => !powerKinds.has(part.kind));
  const links = positiveLinks(parts);
  const depth = depths(power, links);
  const cells: Cell[] = [];
  const laneOf = new Map<string, number>();
  const deepest = Math.max(0, ...depth.values());
  for (let row = 0; row <= deepest; row++) {
    const inRow = power.filter((part) => depth.get(part.id) === row);
    const wished = inRow.map((part) => ({ part, wish: wishedLane(part, row, depth, links, laneOf) }));
    wished.sort((a, b) => a.wish - b.wish);
    let next = 0;
    for (const { part, wish } of wished) {
      const lane = Math.max(Math.round(wish), next);
      next = lane + 1;
      laneOf.set(part.id, lane);
      cells.push({ part, row, lane });
    }
  }
  const powerLanes = Math.max(0, ...cells.map(({ lane }) => lane + 1));
  const controlled = placeControl(control, cells, parts, powerLanes);
  const all = [...cells, ...controlled];
  return {
    cells: all,
    rows: Math.max(1, ...all.map(({ row }) => row + 1)),
    lanes: Math.max(1, ...all.map(({ lane }) => lane + 1)),
    engines: parts.filter((part) => part.kind === 'engine'),
  };
}

/** A regulator that no lead goes to is inside its alternator and is named there. */
function isBuiltIn(part: JobPart, parts: readonly JobPart[]): boolean {
  if (part.kind !== 'regulator') return false;
  return !parts.some(({ from, to }) =>
    [from, to].some((end) => end !== undefined && partOf(end) === part.id),
  );
}

function positiveLinks(parts: readonly JobPart[]): ReadonlyMap<string, ReadonlySet<string>> {
  const links = new Map<string, Set<string>>();
  const add = (a: string, b: string) => links.set(a, (links.get(a) ?? new Set()).add(b));
  for (const { kind, from, to } of parts) {
    if (kind !== 'cable' || from === undefined || to === undefined) continue;
    if (returnTerminals.has(nameOf(from)) || returnTerminals.has(nameOf(to))) continue;
    add(partOf(from), partOf(to));
    add(partOf(to), partOf(from));
  }
  return links;
}

/** Steps from the nearest alternator, over power parts only; parts that nothing reaches come last. */
function depths(
  power: readonly JobPart[],
  links: ReadonlyMap<string, ReadonlySet<string>>,
): Map<string, number> {
  const known = new Set(power.map(({ id }) => id));
  const depth = new Map<string, number>();
  let front = power.filter(({ kind }) => kind === 'alternator').map(({ id }) => id);
  for (let step = 0; front.length > 0; step++) {
    for (const id of front) depth.set(id, step);
    front = [...new Set(front.flatMap((id) => [...(links.get(id) ?? [])]))].filter(
      (id) => known.has(id) && !depth.has(id),
    );
  }
  const last = Math.max(-1, ...depth.values());
  for (const { id } of power) if (!depth.has(id)) depth.set(id, last + 1);
  return depth;
}

function wishedLane(
  part: JobPart,
  row: number,
  depth: ReadonlyMap<string, number>,
  links: ReadonlyMap<string, ReadonlySet<string>>,
  laneOf: ReadonlyMap<string, number>,
): number {
  const above = [...(links.get(part.id) ?? [])].filter((id) => (depth.get(id) ?? row) < row);
  const lanes = above.map((id) => laneOf.get(id) ?? 0);
  return lanes.length === 0 ? 0 : lanes.reduce((sum, lane) => sum + lane, 0) / lanes.length;
}

/** Control parts each take the first free row at or below the part they are wired to. */
function placeControl(
  control: readonly JobPart[],
  power: readonly Cell[],
  parts: readonly JobPart[],
  lane: number,
): readonly Cell[] {
  const rowOf = new Map(power.map(({ part, row }) => [part.id, row]));
  const order = ['regulator', 'lamp', 'key', 'source', 'load', 'gauge'];
  const wish = (part: JobPart): number => {
    if (part.serves !== undefined) return rowOf.get(part.serves) ?? 0;
    const rows = parts
      .flatMap(({ from, to }) => {
        if (from === undefined || to === undefined) return [];
        if (partOf(from) === part.id) return [rowOf.get(partOf(to))];
        return partOf(to) === part.id ? [rowOf.get(partOf(from))] : [];
      })
      .filter((row) => row !== undefined);
    return rows.length === 0 ? 0 : Math.min(...rows);
  };
  const sorted = [...control].sort(
    (a, b) => wish(a) - wish(b) || order.indexOf(a.kind) - order.indexOf(b.kind),
  );
  let next = 0;
  return sorted.map((part) => {
    const row = Math.max(next, wish(part));
    next = row + 1;
    return { part, row, lane };
  });
}
