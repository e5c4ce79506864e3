/** Who charges whom: follows the wiring from an alternator's stud through cables, switches, isolators and relays. */
import { partsOfKind, type BoatDescription, type PartDescription } from './description.ts';

/** An alternator with what belongs to it and the bank it is there for. */
export interface ChargingPath {
  readonly alternator: string;
  readonly engine: string;
  readonly regulator: string | undefined;
  readonly belt: string | undefined;
  readonly lamp: string | undefined;
  /** The bank that it should fill first; undefined when the wiring reaches none. */
  readonly battery: string | undefined;
  /** Terminals from the stud to the bank's positive, and from its negative to the case. */
  readonly outward: readonly string[];
  readonly back: readonly string[];
}

type Edge = readonly [from: string, to: string];

/** One path for each alternator, to the bank that it should fill first. */
export function chargingPaths(description: BoatDescription): readonly ChargingPath[] {
  return partsOfKind(description, 'alternator').map(({ id }) => {
    const [first] = pathsFrom(description, id);
    if (first === undefined) throw new RangeError(`chargingPaths: alternator ${id}: no path was laid`);
    return first;
  });
}

/** Every pair of an alternator and a bank that the wiring joins, each alternator's first bank first. */
export function chargingPairs(description: BoatDescription): readonly ChargingPath[] {
  return partsOfKind(description, 'alternator')
    .flatMap(({ id }) => pathsFrom(description, id))
    .filter(({ battery }) => battery !== undefined);
}

/** Paths from an alternator to the banks it reaches, nearest service bank first; one without a bank if it reaches none. */
function pathsFrom(description: BoatDescription, id: string): ChargingPath[] {
  const neighbours = graphOf(description);
  const batteries = partsOfKind(description, 'battery');
  const wanted = partsOfKind(description, 'alternator').filter((part) => part.id === id);
  return wanted.flatMap((alternator) => {
    const reached = walk(neighbours, `${alternator.id}.B+`);
    const rank = (battery: PartDescription<'battery'>): number =>
      (battery.choices.duty === 'start' ? 1000 : 0) + (reached.get(`${battery.id}.+`)?.length ?? Infinity);
    const banks: (PartDescription<'battery'> | undefined)[] = batteries
      .filter((battery) => reached.has(`${battery.id}.+`))
      .sort((a, b) => rank(a) - rank(b));
    const regulator = partsOfKind(description, 'regulator').find((part) => part.serves === alternator.id);
    const lampLead = partsOfKind(description, 'cable').find((cable) => cable.to === `${alternator.id}.D+`);
    return (banks.length === 0 ? [undefined] : banks).map((served) => ({
      alternator: alternator.id,
      engine: alternator.serves ?? '',
      regulator: regulator?.id,
      belt: partsOfKind(description, 'belt').find((part) => part.serves === alternator.id)?.id,
      lamp: lampLead?.from?.split('.')[0],
      battery: served?.id,
      outward: served === undefined ? [] : (reached.get(`${served.id}.+`) ?? []),
      back:
        served === undefined ? [] : (walk(neighbours, `${served.id}.-`).get(`${alternator.id}.case`) ?? []),
    }));
  });
}

function graphOf(description: BoatDescription): ReadonlyMap<string, readonly string[]> {
  const edges: Edge[] = [];
  for (const { from, to } of partsOfKind(description, 'cable')) {
    // Thin control leads carry no charge.
    if (from !== undefined && to !== undefined) edges.push([from, to]);
  }
  for (const { id } of partsOfKind(description, 'selector')) {
    edges.push([`${id}.common`, `${id}.one`], [`${id}.common`, `${id}.two`]);
  }
  for (const { id } of partsOfKind(description, 'isolator'))
    edges.push([`${id}.in`, `${id}.one`], [`${id}.in`, `${id}.two`]);
  for (const { id } of partsOfKind(description, 'relay')) edges.push([`${id}.a`, `${id}.b`]);
  for (const { id } of partsOfKind(description, 'fuse')) edges.push([`${id}.a`, `${id}.b`]);
  const neighbours = new Map<string, string[]>();
  const join = (a: string, b: string): void => {
    const list = neighbours.get(a) ?? [];
    list.push(b);
    neighbours.set(a, list);
  };
  for (const [a, b] of edges) {
    join(a, b);
    join(b, a);
  }
  return neighbours;
}

/** Shortest chains of terminals from a start to everything that it reaches. */
function walk(
  neighbours: ReadonlyMap<string, readonly string[]>,
  start: string,
): ReadonlyMap<string, readonly string[]> {
  const chains = new Map<string, readonly string[]>([[start, [start]]]);
  const queue = [start];
  for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
    const chain = chains.get(at) ?? [];
    for (const next of neighbours.get(at) ?? []) {
      if (chains.has(next)) continue;
      chains.set(next, [...chain, next]);
      queue.push(next);
    }
  }
  return chains;
}
