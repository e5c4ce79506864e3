/** In which order the nodes are eliminated, and the flat program that does it.
 *
 *  A boat's circuit is close to a tree. Eliminating the node with the fewest neighbours first (minimum degree)
 *  then costs almost no new entries, so the factorisation is a short list of multiply-and-subtract steps.
 *  The list depends on the topology only; it is worked out once and replayed for every set of numbers.
 *
 *  Two stages:
 *    1. wire nodes: nodes that touch nothing but resistors and have at most three neighbours. Their part of the
 *       matrix does not depend on the voltages, so it is eliminated once per solve (star–mesh transform).
 *    2. kept nodes: the rest, eliminated at each Newton step.
 *  No pivoting: conductances make the matrix diagonally dominant but for controlled sources; the solver checks
 *  each pivot and judges every answer by its residual.
 *
 *  Source: Tinney & Walker, Proc. IEEE 55 (1967) 1801, scheme 2 [from memory]
 *
 *  Program of one pivot: row, diagonal slot, d = neighbours, then d rows, d slots (neighbour row, pivot column),
 *  d slots (pivot row, neighbour column), d·d target slots.
 */

export interface EliminationPlan {
  readonly nodeCount: number;
  /** Slots of the matrix; slot 0 is where entries of the reference vanish. */
  readonly slotCount: number;
  /** Slots 0 … keptSlotCount − 1 are all that a Newton step touches. */
  readonly keptSlotCount: number;
  readonly program: Int32Array;
  /** Start of each pivot in `program`. */
  readonly starts: Int32Array;
  /** The first pivots, done once per solve. */
  readonly wirePivotCount: number;
  readonly keptRows: Int32Array;
  /** Diagonal slot of each node. */
  readonly diagonals: Int32Array;
  /** Column and slot of each entry among kept nodes that comes from resistors, row by row in the order of `keptRows`. */
  readonly keptWireEntries: Int32Array;
  /** Where each row ends in `keptWireEntries`. */
  readonly keptWireEnds: Int32Array;
  /** Multiplications, divisions and additions of one factorisation with substitution of the kept nodes. */
  readonly stepOperations: number;
  /** Slot of an entry; 0 for the reference. Throws RangeError when the entry does not exist. */
  slot(row: number, column: number): number;
}

const WIRE_NEIGHBOURS_MAXIMUM = 3;

/** The elimination plan of a topology.
 *  `wires`: node pairs joined by resistors; `groups`: the terminals of every other element. Node 0 is the reference. */
export function eliminationPlan(
  nodeCount: number,
  wires: readonly (readonly number[])[],
  groups: readonly (readonly number[])[],
): EliminationPlan {
  const wired = emptyGraph(nodeCount);
  const joined = emptyGraph(nodeCount);
  const active = new Set<number>();
  for (const pair of wires) {
    connectAll(wired, pair);
    connectAll(joined, pair);
  }
  for (const group of groups) {
    connectAll(joined, group);
    for (const node of group) active.add(node);
  }

  const remaining = new Set<number>();
  for (let node = 1; node < nodeCount; node++) remaining.add(node);

  const pivots: { node: number; neighbours: number[] }[] = [];
  const eliminate = (node: number): void => {
    const neighbours = [...joined[node]!].sort((first, second) => first - second);
    removeNode(joined, node);
    removeNode(wired, node);
    remaining.delete(node);
    pivots.push({ node, neighbours });
  };

  const isWireNode = (node: number): boolean =>
    !active.has(node) && joined[node]!.size <= WIRE_NEIGHBOURS_MAXIMUM;
  for (;;) {
    const node = leastConnected(joined, remaining, isWireNode);
    if (node === undefined) break;
    eliminate(node);
  }
  const wirePivotCount = pivots.length;
  const keptRows = [...remaining];
  const keptWirePairs = keptRows.map((row) => [row, [row, ...wired[row]!]] as const);
  for (;;) {
    const node = leastConnected(joined, remaining, () => true);
    if (node === undefined) break;
    eliminate(node);
  }

  const slots = new Map<number, number>();
  const newSlot = (row: number, column: number): void => {
    const key = row * nodeCount + column;
    if (!slots.has(key)) slots.set(key, slots.size + 1);
  };
  const newPivotSlots = ({ node, neighbours }: { node: number; neighbours: number[] }): void => {
    newSlot(node, node);
    for (const neighbour of neighbours) {
      newSlot(node, neighbour);
      newSlot(neighbour, node);
    }
  };
  pivots.slice(wirePivotCount).forEach(newPivotSlots);
  const keptSlotCount = slots.size + 1;
  pivots.slice(0, wirePivotCount).forEach(newPivotSlots);

  const slot = (row: number, column: number): number => {
    if (row === 0 || column === 0) return 0;
    const found = slots.get(row * nodeCount + column);
    if (found === undefined)
      throw new RangeError(`slot: row ${row}, column ${column} is not part of the circuit`);
    return found;
  };

  const keptWires = keptWirePairs.map(([row, columns]) =>
    columns.flatMap((column) => [column, slot(row, column)]),
  );

  const program: number[] = [];
  const starts: number[] = [];
  let stepOperations = 0;
  pivots.forEach(({ node, neighbours }, position) => {
    starts.push(program.length);
    program.push(node, slot(node, node), neighbours.length, ...neighbours);
    for (const neighbour of neighbours) program.push(slot(neighbour, node));
    for (const neighbour of neighbours) program.push(slot(node, neighbour));
    for (const row of neighbours) for (const column of neighbours) program.push(slot(row, column));
    const degree = neighbours.length;
    if (position >= wirePivotCount) stepOperations += 2 + degree * (5 + 2 * degree);
  });

  return {
    nodeCount,
    slotCount: slots.size + 1,
    keptSlotCount,
    program: Int32Array.from(program),
    starts: Int32Array.from(starts),
    wirePivotCount,
    keptRows: Int32Array.from(keptRows),
    diagonals: Int32Array.from({ length: nodeCount }, (_, node) => slot(node, node)),
    keptWireEntries: Int32Array.from(keptWires.flat()),
    keptWireEnds: Int32Array.from(keptWires, (_, index) => keptWires.slice(0, index + 1).flat().length),
    stepOperations,
    slot,
  };
}

/** Eliminates the wire nodes from `matrix` in place; false when a pivot is zero. */
export function eliminateWireNodes(plan: EliminationPlan, matrix: Float64Array): boolean {
  const { program, starts, wirePivotCount } = plan;
  for (let pivot = 0; pivot < wirePivotCount; pivot++) {
    const at = starts[pivot]!;
    const degree = program[at + 2]!;
    const lower = at + 3 + degree;
    const upper = lower + degree;
    let target = upper + degree;
    const value = matrix[program[at + 1]!]!;
    if (!(Math.abs(value) > 0)) return false;
    const inverse = 1 / value;
    for (let i = 0; i < degree; i++) {
      const factor = matrix[program[lower + i]!]! * inverse;
      for (let j = 0; j < degree; j++) {
        matrix[program[target++]!]! -= factor * matrix[program[upper + j]!]!;
      }
    }
  }
  return true;
}

/** Voltages of the wire nodes from those of the kept nodes. Hot. */
export function recoverWireNodes(plan: EliminationPlan, matrix: Float64Array, voltages: Float64Array): void {
  const { program, starts } = plan;
  for (let pivot = plan.wirePivotCount - 1; pivot >= 0; pivot--) {
    const at = starts[pivot]!;
    const degree = program[at + 2]!;
    const upper = at + 3 + 2 * degree;
    let sum = 0;
    for (let i = 0; i < degree; i++) sum -= matrix[program[upper + i]!]! * voltages[program[at + 3 + i]!]!;
    voltages[program[at]!] = sum / matrix[program[at + 1]!]!;
  }
}

/** Solves matrix · step = −residual for the kept nodes; both `matrix` and `residual` are used up.
 *  False when a pivot is zero or not a number. Hot. */
export function solveKeptNodes(
  plan: EliminationPlan,
  matrix: Float64Array,
  residual: Float64Array,
  step: Float64Array,
): boolean {
  const { program, starts, wirePivotCount } = plan;
  const pivotCount = starts.length;
  for (let pivot = wirePivotCount; pivot < pivotCount; pivot++) {
    const at = starts[pivot]!;
    const degree = program[at + 2]!;
    const lower = at + 3 + degree;
    const upper = lower + degree;
    let target = upper + degree;
    const diagonal = program[at + 1]!;
    const value = matrix[diagonal]!;
    if (!(Math.abs(value) > 0)) return false;
    const inverse = 1 / value;
    matrix[diagonal] = inverse;
    const right = residual[program[at]!]!;
    if (degree === 1) {
      // A leaf of the tree, the commonest pivot.
      const factor = matrix[program[at + 4]!]! * inverse;
      residual[program[at + 3]!]! -= factor * right;
      matrix[program[at + 6]!]! -= factor * matrix[program[at + 5]!]!;
      continue;
    }
    for (let i = 0; i < degree; i++) {
      const factor = matrix[program[lower + i]!]! * inverse;
      residual[program[at + 3 + i]!]! -= factor * right;
      for (let j = 0; j < degree; j++) {
        matrix[program[target++]!]! -= factor * matrix[program[upper + j]!]!;
      }
    }
  }
  substituteBack(plan, matrix, residual, step);
  return true;
}

function substituteBack(
  plan: EliminationPlan,
  matrix: Float64Array,
  residual: Float64Array,
  step: Float64Array,
): void {
  const { program, starts, wirePivotCount } = plan;
  for (let pivot = starts.length - 1; pivot >= wirePivotCount; pivot--) {
    const at = starts[pivot]!;
    const degree = program[at + 2]!;
    const upper = at + 3 + 2 * degree;
    const row = program[at]!;
    let sum = -residual[row]!;
    for (let i = 0; i < degree; i++) sum -= matrix[program[upper + i]!]! * step[program[at + 3 + i]!]!;
    step[row] = sum * matrix[program[at + 1]!]!;
  }
}

type Graph = Set<number>[];

function emptyGraph(nodeCount: number): Graph {
  return Array.from({ length: nodeCount }, () => new Set<number>());
}

function connectAll(graph: Graph, nodes: readonly number[]): void {
  for (const first of nodes) {
    for (const second of nodes) {
      if (first !== second && first !== 0 && second !== 0) graph[first]!.add(second);
    }
  }
}

function removeNode(graph: Graph, node: number): void {
  const neighbours = [...graph[node]!];
  for (const neighbour of neighbours) graph[neighbour]!.delete(node);
  connectAll(graph, neighbours);
  graph[node]!.clear();
}

function leastConnected(
  graph: Graph,
  candidates: ReadonlySet<number>,
  accepts: (node: number) => boolean,
): number | undefined {
  let best: number | undefined;
  for (const node of candidates) {
    if (accepts(node) && (best === undefined || graph[node]!.size < graph[best]!.size)) best = node;
  }
  return best;
}
