/** A circuit: named nodes and elements, compiled once per topology.
 *
 *  Node 0 is the reference (0 V). Every other node leaks 1 µS to it. The elimination plan is shared by all
 *  circuits of the same topology; element parameters are read anew at every solve, so a caller builds once and
 *  then changes parameters. Elements with an unknown of their own belong to one circuit at a time.
 */
import { eliminateWireNodes, eliminationPlan } from './elimination.ts';
import type { EliminationPlan } from './elimination.ts';
import { JOINT_RESISTANCE_MINIMUM, LEAK_CONDUCTANCE } from './element.ts';
import type { Element, Stamps } from './element.ts';
import { Branch } from './elements/branch.ts';
import { Junction } from './elements/junction.ts';
import { Resistor } from './elements/resistor.ts';
import { TwoTerminal } from './elements/two-terminal.ts';

export interface Circuit {
  readonly nodes: readonly string[];
  readonly elements: readonly Element[];
  readonly plan: EliminationPlan;
  /** Where each element's terminal currents start in a flat list of all terminal currents. */
  readonly terminalOffsets: Int32Array;
  readonly terminalCount: number;
  /** @internal */
  readonly wires: Wires;
  /** @internal All but resistors. */
  readonly active: readonly ActiveElement[];
  /** @internal The same by kind, so that each loop over them meets one class and the engine can inline its calls. */
  readonly branches: Kind<Branch>;
  /** @internal */
  readonly junctions: Kind<Junction>;
  /** @internal */
  readonly twoTerminals: Kind<TwoTerminal>;
  /** @internal */
  readonly others: Kind<Element>;
  /** @internal */
  readonly work: Workspace;
}

/** @internal Resistors as flat lists. */
export interface Wires {
  readonly resistors: readonly Resistor[];
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Four matrix slots each: from·from, from·to, to·from, to·to. */
  readonly slots: Int32Array;
  /** Resistance at the last refresh [Ω]; NaN before the first. */
  readonly resistances: Float64Array;
  readonly conductances: Float64Array;
  /** Matrix of resistors and leaks, wire nodes eliminated. */
  readonly matrix: Float64Array;
}

/** @internal An element other than a resistor, with its matrix slots. */
export interface ActiveElement {
  readonly element: Element;
  readonly slots: Int32Array;
}

/** @internal Elements of one kind, and where each stamps. */
export interface Kind<E extends Element> {
  readonly elements: readonly E[];
  readonly slots: readonly Int32Array[];
}

/** @internal Everything that a solve writes to, allocated once. */
export interface Workspace {
  readonly stamps: Stamps;
  readonly residual: Float64Array;
  readonly step: Float64Array;
  readonly lastStep: Float64Array;
  readonly previous: Float64Array;
  readonly anchor: Float64Array;
  readonly stateful: readonly Element[];
  /** Those of them that are neither branches nor junctions. */
  readonly statefulOthers: readonly Element[];
  /** Largest voltage change of the present step [V]. */
  stepSize: number;
}

const planCache = new Map<string, EliminationPlan>();
const PLAN_CACHE_SIZE = 256;

/** A circuit ready to be solved.
 *  `nodes[0]` is the reference. Throws RangeError for a terminal that is not a node, or fewer than two nodes. */
export function buildCircuit(nodes: readonly string[], elements: readonly Element[]): Circuit {
  if (nodes.length < 2)
    throw new RangeError(`buildCircuit: nodes has ${nodes.length} entries; at least 2 are needed`);
  if (new Set(nodes).size !== nodes.length)
    throw new RangeError('buildCircuit: two nodes have the same name');
  for (const element of elements) {
    for (const terminal of element.terminals) {
      if (Number.isInteger(terminal) && terminal >= 0 && terminal < nodes.length) continue;
      throw new RangeError(
        `buildCircuit: element ${element.name} has terminal ${terminal}; nodes are 0 to ${nodes.length - 1}`,
      );
    }
  }

  const resistors = elements.filter((element) => element instanceof Resistor);
  const others = elements.filter((element) => !(element instanceof Resistor));
  const plan = cachedPlan(nodes.length, resistors, others);
  const active = others.map((element) => ({ element, slots: Int32Array.from(blockSlots(plan, element)) }));
  const stateful = others.filter((element) => element.advance !== undefined);

  const terminalOffsets = new Int32Array(elements.length);
  let terminalCount = 0;
  elements.forEach((element, index) => {
    terminalOffsets[index] = terminalCount;
    terminalCount += element.terminals.length;
  });

  return {
    nodes,
    elements,
    plan,
    terminalOffsets,
    terminalCount,
    wires: {
      resistors,
      from: Int32Array.from(resistors, (element) => element.terminals[0]),
      to: Int32Array.from(resistors, (element) => element.terminals[1]),
      slots: Int32Array.from(resistors.flatMap((element) => blockSlots(plan, element))),
      resistances: new Float64Array(resistors.length).fill(Number.NaN),
      conductances: new Float64Array(resistors.length),
      matrix: new Float64Array(plan.slotCount),
    },
    active,
    branches: kindOf(active, (element) => element instanceof Branch),
    junctions: kindOf(active, (element) => element instanceof Junction),
    twoTerminals: kindOf(active, (element) => element instanceof TwoTerminal),
    others: kindOf(active, isOther),
    work: {
      stamps: {
        injected: new Float64Array(nodes.length),
        matrix: new Float64Array(plan.slotCount),
        fraction: 0.5,
        lawError: 0,
        lawNode: 0,
      },
      residual: new Float64Array(nodes.length),
      step: new Float64Array(nodes.length),
      lastStep: new Float64Array(nodes.length),
      previous: new Float64Array(nodes.length),
      anchor: new Float64Array(nodes.length),
      stateful,
      statefulOthers: stateful.filter(isOther),
      stepSize: Number.POSITIVE_INFINITY,
    },
  };
}

/** Reads the resistances and, where one has changed, works the wire matrix out again. Hot.
 *  False when the wire matrix cannot be factorised (a resistance is not a number). */
export function refreshWires(circuit: Circuit): boolean {
  const { wires, plan } = circuit;
  const { resistors, resistances, conductances, slots, matrix } = wires;
  let changed = resistors.length === 0;
  for (let index = 0; index < resistors.length; index++) {
    const resistance = resistors[index]!.resistance;
    if (resistance === resistances[index]) continue;
    changed = true;
    resistances[index] = resistance;
    conductances[index] = 1 / (resistance < JOINT_RESISTANCE_MINIMUM ? JOINT_RESISTANCE_MINIMUM : resistance);
  }
  if (!changed) return true;

  matrix.fill(0);
  for (let node = 1; node < plan.nodeCount; node++) matrix[plan.diagonals[node]!] = LEAK_CONDUCTANCE;
  for (let index = 0, at = 0; index < conductances.length; index++, at += 4) {
    const conductance = conductances[index]!;
    matrix[slots[at]!]! += conductance;
    matrix[slots[at + 1]!]! -= conductance;
    matrix[slots[at + 2]!]! -= conductance;
    matrix[slots[at + 3]!]! += conductance;
  }
  return eliminateWireNodes(plan, matrix);
}

const isOther = (element: Element): boolean =>
  !(element instanceof Branch || element instanceof Junction || element instanceof TwoTerminal);

function kindOf<E extends Element>(
  active: readonly ActiveElement[],
  is: ((element: Element) => element is E) | ((element: Element) => boolean),
): Kind<E> {
  const found = active.filter(({ element }) => is(element));
  return { elements: found.map(({ element }) => element as E), slots: found.map(({ slots }) => slots) };
}

function blockSlots(plan: EliminationPlan, element: Element): number[] {
  return element.terminals.flatMap((row) => element.terminals.map((column) => plan.slot(row, column)));
}

function cachedPlan(
  nodeCount: number,
  resistors: readonly Element[],
  others: readonly Element[],
): EliminationPlan {
  const wires = resistors.map((element) => element.terminals);
  const groups = others.map((element) => element.terminals);
  const key = `${nodeCount}|${wires.map(String).join(';')}|${groups.map(String).join(';')}`;
  const known = planCache.get(key);
  if (known !== undefined) return known;
  const plan = eliminationPlan(nodeCount, wires, groups);
  if (planCache.size >= PLAN_CACHE_SIZE) planCache.clear();
  planCache.set(key, plan);
  return plan;
}
