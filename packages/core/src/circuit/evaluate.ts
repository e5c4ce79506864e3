/** Residual and Jacobian of a circuit at given voltages; judgement of a finished solution.
 *  Numbers are handed on in fields, not as return values: those would be boxed on the heap.
 *  Internal to the solver; see newton.ts. Units: V, A, S. */
import type { Circuit } from './circuit.ts';
import { recoverWireNodes } from './elimination.ts';
import { LEAK_CONDUCTANCE } from './element.ts';
import type { OperatingSolution } from './solution.ts';

const RESIDUAL_TOLERANCE = 1e-7;
const RESIDUAL_TOLERANCE_RELATIVE = 1e-9;
const STEP_TOLERANCE = 1e-7;

/** Fills residual and matrix of the kept nodes, every node tied to its anchor by `tie` [S];
 *  writes the largest error [A], infinite when not a number, to `solution.residual`. Hot. */
export function evaluate(circuit: Circuit, solution: OperatingSolution, tie: number): void {
  const { plan, work, wires, branches, junctions, twoTerminals, others } = circuit;
  const { stamps, residual, anchor } = work;
  const { injected, matrix } = stamps;
  const { voltages } = solution;
  const { keptRows, keptWireEntries, keptWireEnds, keptSlotCount, diagonals } = plan;
  const wireMatrix = wires.matrix;
  solution.evaluations++;

  for (let slot = 0; slot < keptSlotCount; slot++) matrix[slot] = wireMatrix[slot]!;
  for (let node = 0; node < injected.length; node++) injected[node] = 0;
  stamps.lawError = 0;
  for (let i = 0; i < branches.elements.length; i++)
    branches.elements[i]!.stamp(voltages, stamps, branches.slots[i]!);
  for (let i = 0; i < junctions.elements.length; i++)
    junctions.elements[i]!.stamp(voltages, stamps, junctions.slots[i]!);
  for (let i = 0; i < twoTerminals.elements.length; i++)
    twoTerminals.elements[i]!.stamp(voltages, stamps, twoTerminals.slots[i]!);
  for (let i = 0; i < others.elements.length; i++)
    others.elements[i]!.stamp(voltages, stamps, others.slots[i]!);

  let largest = stamps.lawError;
  let worst = stamps.lawNode;
  for (let index = 0, at = 0; index < keptRows.length; index++) {
    const row = keptRows[index]!;
    matrix[diagonals[row]!]! += tie;
    let sum = injected[row]! + tie * (voltages[row]! - anchor[row]!);
    for (const end = keptWireEnds[index]!; at < end; at += 2)
      sum += wireMatrix[keptWireEntries[at + 1]!]! * voltages[keptWireEntries[at]!]!;
    residual[row] = sum;
    const size = Math.abs(sum);
    if (!(size <= largest)) {
      largest = size;
      worst = row;
    }
  }
  if (!(largest < Number.POSITIVE_INFINITY)) largest = Number.POSITIVE_INFINITY;
  solution.residual = largest;
  solution.worstNode = worst;
}

/** Puts the kept voltages at `stamps.fraction` of the step from the previous ones and evaluates there. Hot. */
export function moveByFraction(circuit: Circuit, solution: OperatingSolution, tie: number): void {
  const { branches, junctions } = circuit;
  const { keptRows } = circuit.plan;
  const { previous, step, statefulOthers, stamps } = circuit.work;
  const { voltages } = solution;
  const { fraction } = stamps;
  for (let index = 0; index < keptRows.length; index++) {
    const row = keptRows[index]!;
    voltages[row] = previous[row]! + fraction * step[row]!;
  }
  for (let i = 0; i < branches.elements.length; i++) branches.elements[i]!.advance(voltages, stamps);
  for (let i = 0; i < junctions.elements.length; i++) junctions.elements[i]!.advance(voltages);
  for (let i = 0; i < statefulOthers.length; i++) statefulOthers[i]!.advance?.(voltages, stamps);
  evaluate(circuit, solution, tie);
}

/** Whether the error is within tolerance, and the next step would be. Hot. */
export function isSettled(circuit: Circuit, solution: OperatingSolution): boolean {
  if (!(circuit.work.stepSize <= STEP_TOLERANCE)) return false;
  const error = solution.residual;
  if (error <= RESIDUAL_TOLERANCE) return true;
  // The largest current matters only here, near the end of a solve with large currents.
  const { injected } = circuit.work.stamps;
  let scale = 0;
  for (let node = 0; node < injected.length; node++) scale = Math.max(scale, Math.abs(injected[node]!));
  return error <= RESIDUAL_TOLERANCE + RESIDUAL_TOLERANCE_RELATIVE * scale;
}

/** Recovers the wire nodes and judges the whole circuit, resistor by resistor. Hot. */
export function isWholeCircuitSolved(circuit: Circuit, solution: OperatingSolution): boolean {
  const { plan, wires, work } = circuit;
  const { voltages } = solution;
  const { conductances, from, to } = wires;
  const { residual, stamps } = work;
  recoverWireNodes(plan, wires.matrix, voltages);

  for (let node = 0; node < residual.length; node++) residual[node] = stamps.injected[node]!;
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

/** Tells the elements that a step begins here. Hot. */
export function prepareStep(circuit: Circuit, voltages: Float64Array): void {
  const { branches, junctions } = circuit;
  const { step, statefulOthers } = circuit.work;
  for (let i = 0; i < branches.elements.length; i++) branches.elements[i]!.prepare(voltages, step);
  for (let i = 0; i < junctions.elements.length; i++) junctions.elements[i]!.prepare();
  for (let i = 0; i < statefulOthers.length; i++) statefulOthers[i]!.prepare?.(voltages, step);
}
