/** An operating point: what a solve writes, and where the next one starts. */
import type { Circuit } from './circuit.ts';

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
  /** Which attempt gave the answer. */
  method: 'direct' | 'settling';
}

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
    method: 'direct',
  };
}

/** Sets all voltages to 0 V and with them the elements' own unknowns: the next solve starts cold. */
export function resetSolution(circuit: Circuit, solution: OperatingSolution): void {
  solution.voltages.fill(0);
  solution.converged = false;
  solution.kind = 'did-not-converge';
  resetElements(circuit, solution.voltages);
}

/** Sets all voltages [V], and the elements' own unknowns to match: the next solve starts there.
 *  Throws RangeError when `voltages` does not hold one number per node. */
export function startFrom(circuit: Circuit, solution: OperatingSolution, voltages: ArrayLike<number>): void {
  if (voltages.length !== circuit.nodes.length) {
    throw new RangeError(
      `startFrom: voltages has ${voltages.length} entries; the circuit has ${circuit.nodes.length} nodes`,
    );
  }
  solution.voltages.set(voltages);
  solution.voltages[0] = 0;
  resetElements(circuit, solution.voltages);
}

/** @internal Sets the elements' own unknowns anew from the voltages. */
export function resetElements(circuit: Circuit, voltages: Float64Array): void {
  const { stateful } = circuit.work;
  for (let index = 0; index < stateful.length; index++) stateful[index]!.reset?.(voltages);
}
