/** Who charges whom: follows the wiring from an alternator's stud through cables, switches, isolators and relays. */
import type { Boat } from './boat.ts';
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

/** The bank that each alternator's regulator minds, as an index in the boat's batteries, in the order of its alternators:
 *  the bank at whose post its sense lead ends; else the one that the alternator should fill first; 0 when it reaches none. */
export function mindedBanks(boat: Boat): number[] {
  const ids = (list: readonly { readonly id: string }[]): string[] => list.map(({ id }) => id);
  const wires: Edge[] = boat.conductors.map(({ from, to }) => [from, to]);
  const wired = neighboursOf([...wires, ...fuseEdges(ids(boat.fuses))]);
  const joined = neighboursOf([
    ...wires,
    ...switchEdges(ids(boat.selectors), ids(boat.isolators), ids(boat.relays)),
    ...fuseEdges(ids(boat.fuses)),
  ]);
  return boat.alternators.map(({ id }) => {
    const stud = `${id}.B+`;
    const regulator = boat.regulators.find(({ alternator }) => alternator === id)?.id ?? '';
    const near = (from: ReadonlyMap<string, readonly string[]>, through: string): number => {
      const rank = boat.batteries.map((battery) => {
        const chain = from.get(`${battery.id}.+`);
        return chain === undefined || chain.includes(through) ? Infinity : rankOf(battery.duty, chain);
      });
      const least = Math.min(...rank);
      return least < Infinity ? rank.indexOf(least) : -1;
    };
    const sensed = near(walk(wired, `${regulator}.sense`), stud);
    return sensed >= 0 ? sensed : Math.max(0, near(walk(joined, stud), ''));
  });
}

/** A bank that is there for starting alone comes after every other. */
const rankOf = (duty: string | undefined, chain: readonly string[] | undefined): number =>
  (duty === 'start' ? 1000 : 0) + (chain?.length ?? Infinity);

/** Paths from an alternator to the banks it reaches, nearest service bank first; one without a bank if it reaches none. */
function pathsFrom(description: BoatDescription, id: string): ChargingPath[] {
  const neighbours = graphOf(description);
  const batteries = partsOfKind(description, 'battery');
  const wanted = partsOfKind(description, 'alternator').filter((part) => part.id === id);
  return wanted.flatMap((alternator) => {
    const reached = walk(neighbours, `${alternator.id}.B+`);
    const rank = (battery: PartDescription<'battery'>): number =>
      rankOf(battery.choices.duty, reached.get(`${battery.id}.+`));
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
  const ids = (kind: 'selector' | 'isolator' | 'relay' | 'fuse'): string[] =>
    description.parts.filter((part) => part.kind === kind).map(({ id }) => id);
  edges.push(...switchEdges(ids('selector'), ids('isolator'), ids('relay')), ...fuseEdges(ids('fuse')));
  return neighboursOf(edges);
}

const switchEdges = (
  selectors: readonly string[],
  isolators: readonly string[],
  relays: readonly string[],
): Edge[] => [
  ...selectors.flatMap((id): Edge[] => [
    [`${id}.common`, `${id}.one`],
    [`${id}.common`, `${id}.two`],
  ]),
  ...isolators.flatMap((id): Edge[] => [
    [`${id}.in`, `${id}.one`],
    [`${id}.in`, `${id}.two`],
  ]),
  ...relays.map((id): Edge => [`${id}.a`, `${id}.b`]),
];

const fuseEdges = (fuses: readonly string[]): Edge[] => fuses.map((id): Edge => [`${id}.a`, `${id}.b`]);

function neighboursOf(edges: readonly Edge[]): ReadonlyMap<string, readonly string[]> {
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
