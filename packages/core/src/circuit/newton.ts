/** The operating point of a circuit: Newton's method with guards.
 *
 *    J(v) · Δv = −F(v),   F = sum of the currents leaving each node
 *  v node voltages [V]   F residual [A]   J Jacobian [S]
 *
 *  1. The first steps are full ones; elements limit their own unknowns (as circuit simulators do for junctions).
 *  2. After that a step is halved until it lowers the largest residual.
 *  3. When that stalls: every node is tied to an anchor voltage through a conductance, which is lowered as
 *     solutions come in and raised when they do not (pseudo-transient continuation: it walks the way a circuit
 *     with capacitors would settle).
 *  An answer counts as converged only when the residual of the whole circuit, laws of the elements included, is
 *  below 1e-7 A + 1e-9 of the largest current, and the last step below 1e-7 V. Anything else is `did-not-converge`.
 *  Where a circuit has several solutions, the one near the starting voltages is found.
 *
 *  Source: Kelley & Keyes, SIAM J. Numer. Anal. 35 (1998) 508 (pseudo-transient continuation) [from memory]
 *  Units: V, A, S.
 */
import { refreshWires } from './circuit.ts';
import type { Circuit } from './circuit.ts';
import { recoverWireNodes, solveKeptNodes } from './elimination.ts';
import { LEAK_CONDUCTANCE } from './element.ts';

/** An operating point, written in place by every solve; also the starting point of the next one. */
export interface OperatingSolution {
  kind: 'converged' | 'did-not-converge';
  converged: boolean;
  /** Node voltages [V] against node 0. */
  readonly voltages: Float64Array;
  /** Newton steps, all attempts together. */
  iterations: number;
  /** Evaluations of all element laws, all attempts together. */
  evaluations: number;
  /** Largest error of a node current or of an element's law [A]. */
  residual: number;
  /** Node with the largest error. */
  worstNode: number;
  /** Whether the continuation was needed. */
  continued: boolean;
}

export const RESIDUAL_TOLERANCE = 1e-7;
export const RESIDUAL_TOLERANCE_RELATIVE = 1e-9;
export const STEP_TOLERANCE = 1e-7;

const FULL_STEPS = 8;
const DIRECT_ITERATIONS = 40;
const STAGE_ITERATIONS = 20;
const STAGES_MAXIMUM = 60;
const HALVINGS_MAXIMUM = 12;
const ANCHOR_START = 100;
const ANCHOR_END = 1e-4;
const ANCHOR_LARGEST = 1e6;

/** An empty solution: all nodes at 0 V. */
export function createSolution(circuit: Circuit): OperatingSolution {
  return {
    kind: 'did-not-converge',
    converged: false,
    voltages: new Float64Array(circuit.nodes.length),
    iterations: 0,
    evaluations: 0,
    residual: Number.POSITIVE_INFINITY,
    worstNode: 0,
    continued: false,
  };
}

/** Sets all voltages to 0 V and forgets the elements' own unknowns: the next solve starts cold. */
export function resetSolution(circuit: Circuit, solution: OperatingSolution): void {
  solution.voltages.fill(0);
  solution.converged = false;
  solution.kind = 'did-not-converge';
  resetElements(circuit);
}

/** Solves the circuit, starting from `solution.voltages`, and writes the result to `solution`. Hot: does not allocate. */
export function solveOperatingPoint(circuit: Circuit, solution: OperatingSolution): OperatingSolution {
  solution.iterations = 0;
  solution.evaluations = 0;
  solution.continued = false;
  solution.voltages[0] = 0;
  let converged = refreshWires(circuit);
  if (converged) {
    converged = newton(circuit, solution, 0, DIRECT_ITERATIONS);
    if (!converged) {
      solution.continued = true;
      converged = continuation(circuit, solution);
    }
  }
  solution.converged = converged;
  solution.kind = converged ? 'converged' : 'did-not-converge';
  return solution;
}

/** Newton's method with the nodes tied to the anchor by `tie` [S]; true when converged. */
function newton(
  circuit: Circuit,
  solution: OperatingSolution,
  tie: number,
  iterationsMaximum: number,
): boolean {
  const { plan, work } = circuit;
  const { keptRows } = plan;
  const { previous, step, residual, stamps, stateful } = work;
  const { voltages } = solution;
  let error = evaluate(circuit, solution, tie);
  let size = Number.POSITIVE_INFINITY;

  for (let iteration = 0; iteration < iterationsMaximum; iteration++) {
    if (size <= STEP_TOLERANCE && error <= tolerance(circuit, error)) {
      return finish(circuit, solution, tie);
    }
    if (!solveKeptNodes(plan, stamps.matrix, residual, step)) return false;
    solution.iterations++;

    size = 0;
    for (let index = 0; index < keptRows.length; index++) {
      const row = keptRows[index]!;
      previous[row] = voltages[row]!;
      const change = Math.abs(step[row]!);
      if (!(change <= size)) size = change;
    }
    if (!(size < Number.POSITIVE_INFINITY)) return false;
    for (let index = 0; index < stateful.length; index++) stateful[index]!.prepare?.(voltages, step);

    const before = error;
    let fraction = 1;
    error = moveTo(circuit, solution, fraction, tie);
    const guarded = iteration >= FULL_STEPS;
    for (let halving = 0; halving < HALVINGS_MAXIMUM; halving++) {
      const tooLarge = guarded ? error > before * (1 - 1e-4 * fraction) && error > RESIDUAL_TOLERANCE : false;
      if (!tooLarge && error < Number.POSITIVE_INFINITY) break;
      fraction /= 2;
      error = moveTo(circuit, solution, fraction, tie);
    }
    size *= fraction;
  }
  if (size <= STEP_TOLERANCE && error <= tolerance(circuit, error)) return finish(circuit, solution, tie);
  return false;
}

/** Puts the voltages at `fraction` of the step; returns the error there [A]. */
function moveTo(circuit: Circuit, solution: OperatingSolution, fraction: number, tie: number): number {
  const { keptRows } = circuit.plan;
  const { previous, step, stateful } = circuit.work;
  const { voltages } = solution;
  for (let index = 0; index < keptRows.length; index++) {
    const row = keptRows[index]!;
    voltages[row] = previous[row]! + fraction * step[row]!;
  }
  for (let index = 0; index < stateful.length; index++) stateful[index]!.advance?.(voltages, fraction);
  return evaluate(circuit, solution, tie);
}

/** Fills residual and matrix of the kept nodes; returns the largest error [A], infinite when not a number. */
function evaluate(circuit: Circuit, solution: OperatingSolution, tie: number): number {
  const { plan, work, wires, active } = circuit;
  const { stamps, residual, anchor } = work;
  const { injected, matrix } = stamps;
  const { voltages } = solution;
  const { keptRows, keptWireEntries, keptSlotCount, diagonals } = plan;
  const wireMatrix = wires.matrix;
  solution.evaluations++;

  for (let slot = 0; slot < keptSlotCount; slot++) matrix[slot] = wireMatrix[slot]!;
  injected.fill(0);
  stamps.lawError = 0;
  for (let index = 0; index < active.length; index++) {
    const { element, slots } = active[index]!;
    element.stamp(voltages, stamps, slots);
  }
  for (let index = 0; index < keptRows.length; index++) {
    const row = keptRows[index]!;
    residual[row] = injected[row]! + tie * (voltages[row]! - anchor[row]!);
    matrix[diagonals[row]!]! += tie;
  }
  for (let at = 0; at < keptWireEntries.length; at += 3) {
    residual[keptWireEntries[at]!]! +=
      wireMatrix[keptWireEntries[at + 2]!]! * voltages[keptWireEntries[at + 1]!]!;
  }

  let largest = stamps.lawError;
  let worst = stamps.lawNode;
  for (let index = 0; index < keptRows.length; index++) {
    const row = keptRows[index]!;
    const size = Math.abs(residual[row]!);
    if (!(size <= largest)) {
      largest = size;
      worst = row;
    }
  }
  if (!(largest < Number.POSITIVE_INFINITY)) largest = Number.POSITIVE_INFINITY;
  solution.residual = largest;
  solution.worstNode = worst;
  return largest;
}

/** Recovers the wire nodes and judges the whole circuit, resistor by resistor. */
function finish(circuit: Circuit, solution: OperatingSolution, tie: number): boolean {
  const { plan, wires, work } = circuit;
  const { voltages } = solution;
  const { conductances, from, to } = wires;
  const { residual, anchor, stamps } = work;
  recoverWireNodes(plan, wires.matrix, voltages);
  if (tie > 0) return true;

  residual.set(stamps.injected);
  let scale = 0;
  for (let index = 0; index < conductances.length; index++) {
    const current = conductances[index]! * (voltages[from[index]!]! - voltages[to[index]!]!);
    residual[from[index]!]! += current;
    residual[to[index]!]! -= current;
    const size = Math.abs(current);
    if (size > scale) scale = size;
  }
  let largest = stamps.lawError;
  let worst = stamps.lawNode;
  for (let node = 1; node < plan.nodeCount; node++) {
    anchor[node] = voltages[node]!;
    const size = Math.abs(residual[node]! + LEAK_CONDUCTANCE * voltages[node]!);
    if (!(size <= largest)) {
      largest = size;
      worst = node;
    }
  }
  solution.residual = largest;
  solution.worstNode = worst;
  return largest <= RESIDUAL_TOLERANCE + RESIDUAL_TOLERANCE_RELATIVE * scale;
}

/** The tolerance on the residual [A]; the largest current is looked up only where it can matter. */
function tolerance(circuit: Circuit, error: number): number {
  if (error <= RESIDUAL_TOLERANCE) return RESIDUAL_TOLERANCE;
  const { injected } = circuit.work.stamps;
  let scale = 0;
  for (let node = 0; node < injected.length; node++) scale = Math.max(scale, Math.abs(injected[node]!));
  return RESIDUAL_TOLERANCE + RESIDUAL_TOLERANCE_RELATIVE * scale;
}

function continuation(circuit: Circuit, solution: OperatingSolution): boolean {
  const { anchor } = circuit.work;
  const { voltages } = solution;
  resetSolution(circuit, solution);
  anchor.fill(0);
  let tie = ANCHOR_START;
  for (let stage = 0; stage < STAGES_MAXIMUM && tie <= ANCHOR_LARGEST; stage++) {
    if (newton(circuit, solution, tie, STAGE_ITERATIONS)) {
      anchor.set(voltages);
      tie /= 5;
      if (tie >= ANCHOR_END) continue;
      if (newton(circuit, solution, 0, DIRECT_ITERATIONS)) return true;
      tie = ANCHOR_END;
    } else {
      tie *= 3;
    }
    voltages.set(anchor);
    resetElements(circuit);
  }
  evaluate(circuit, solution, 0);
  return false;
}

function resetElements(circuit: Circuit): void {
  for (let index = 0; index < circuit.work.stateful.length; index++) circuit.work.stateful[index]!.reset?.();
}
