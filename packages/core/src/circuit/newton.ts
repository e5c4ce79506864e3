/** The operating point of a circuit: Newton's method, with two guards behind it.
 *
 *    J(v) · Δv = −F(v),   F = sum of the currents leaving each node
 *  v node voltages [V]   F residual [A]   J Jacobian [S]
 *
 *  1. Direct: full steps; elements hold back their own unknowns, as circuit simulators do for junctions. When
 *     steps begin to turn back on themselves they are halved, and grow again slowly.
 *  2. Settling, from a cold start: every node is tied to its last voltage by a conductance, which is halved as
 *     solutions come in and raised when they do not (pseudo-transient continuation: the way a circuit with
 *     capacitors settles).
 *  An answer counts as converged only when the residual of the whole circuit, laws of the elements included, is
 *  below 1e-7 A + 1e-9 of the largest current, and the next step would be below 1e-7 V. Anything else is `did-not-converge`.
 *  Where a circuit has several solutions, the one near the starting voltages is found.
 *
 *  Source: Kelley & Keyes, SIAM J. Numer. Anal. 35 (1998) 508, pseudo-transient continuation [from memory]
 *  Units: V, A, S.
 */
import { refreshWires } from './circuit.ts';
import type { Circuit } from './circuit.ts';
import { solveKeptNodes } from './elimination.ts';
import { evaluate, isSettled, isWholeCircuitSolved, moveByFraction, prepareStep } from './evaluate.ts';
import { resetElements, resetSolution } from './solution.ts';
import type { OperatingSolution } from './solution.ts';

const FULL_STEPS = 8;
const DIRECT_ITERATIONS = 80;
const FRACTION_GROWTH = 1.4;
const FRACTION_LEAST = 1 / 64;
const HALVINGS_MAXIMUM = 12;
const STAGE_ITERATIONS = 60;
const TIE_START = 1000;
const STAGES_MAXIMUM = 120;
const TIE_LARGEST = 1e7;
const TIE_END = 1e-5;

/** Solves the circuit, starting from `solution.voltages`, and writes the result to `solution`. Hot: makes no objects. */
export function solveOperatingPoint(circuit: Circuit, solution: OperatingSolution): OperatingSolution {
  solution.iterations = 0;
  solution.evaluations = 0;
  solution.method = 'direct';
  solution.voltages[0] = 0;
  solution.converged = refreshWires(circuit) && solveByAnyMethod(circuit, solution);
  solution.kind = solution.converged ? 'converged' : 'did-not-converge';
  return solution;
}

/** Newton's method alone, from close by; gives up after so many steps, and the solution is then of no use.
 *  Whether it converged. Hot: makes no objects. */
export function solveFromNear(
  circuit: Circuit,
  solution: OperatingSolution,
  iterationsMaximum: number,
): boolean {
  solution.iterations = 0;
  solution.evaluations = 0;
  solution.method = 'direct';
  solution.voltages[0] = 0;
  solution.converged =
    refreshWires(circuit) &&
    solveDirect(circuit, solution, 0, iterationsMaximum) &&
    isWholeCircuitSolved(circuit, solution);
  solution.kind = solution.converged ? 'converged' : 'did-not-converge';
  return solution.converged;
}

function solveByAnyMethod(circuit: Circuit, solution: OperatingSolution): boolean {
  if (solveDirect(circuit, solution, 0, DIRECT_ITERATIONS) && isWholeCircuitSolved(circuit, solution))
    return true;
  return solveSettling(circuit, solution) && isWholeCircuitSolved(circuit, solution);
}

function solveDirect(
  circuit: Circuit,
  solution: OperatingSolution,
  tie: number,
  iterationsMaximum: number,
): boolean {
  const { plan, work } = circuit;
  const { keptRows } = plan;
  const { previous, step, lastStep, residual, stamps } = work;
  const { voltages } = solution;
  evaluate(circuit, solution, tie);
  stamps.fraction = 1;

  for (let iteration = 0; iteration < iterationsMaximum; iteration++) {
    if (!solveKeptNodes(plan, stamps.matrix, residual, step)) return false;
    solution.iterations++;

    let size = 0;
    let turn = 0;
    let square = 0;
    for (let index = 0; index < keptRows.length; index++) {
      const row = keptRows[index]!;
      const change = step[row]!;
      turn += change * lastStep[row]!;
      square += lastStep[row]! * lastStep[row]!;
      lastStep[row] = change;
      previous[row] = voltages[row]!;
      if (!(Math.abs(change) <= size)) size = Math.abs(change);
    }
    work.stepSize = size;
    // The step that would follow bounds the error of where we are; taking it would cost one more evaluation.
    if (isSettled(circuit, solution)) return true;
    if (!(size < Number.POSITIVE_INFINITY)) return false;
    prepareStep(circuit, voltages);

    const turnsBack = iteration >= FULL_STEPS && turn < -0.25 * square;
    stamps.fraction = turnsBack
      ? Math.max(stamps.fraction / 2, FRACTION_LEAST)
      : Math.min(1, stamps.fraction * FRACTION_GROWTH);
    moveByFraction(circuit, solution, tie);
    for (
      let halving = 0;
      halving < HALVINGS_MAXIMUM && !(solution.residual < Number.POSITIVE_INFINITY);
      halving++
    ) {
      stamps.fraction /= 2;
      moveByFraction(circuit, solution, tie);
    }
  }
  return false;
}

/** Ties all nodes to where they are and lets go step by step: the way a circuit with capacitors settles. */
function solveSettling(circuit: Circuit, solution: OperatingSolution): boolean {
  const { anchor } = circuit.work;
  const { voltages } = solution;
  resetSolution(circuit, solution);
  solution.method = 'settling';
  anchor.fill(0);
  let tie = TIE_START;
  for (let stage = 0; stage < STAGES_MAXIMUM && tie < TIE_LARGEST; stage++) {
    if (solveDirect(circuit, solution, tie, STAGE_ITERATIONS)) {
      if (tie === 0) return true;
      anchor.set(voltages);
      tie = tie < TIE_END ? 0 : tie / 2;
    } else {
      tie = Math.max(tie, TIE_END) * 4;
      voltages.set(anchor);
      resetElements(circuit, voltages);
    }
  }
  evaluate(circuit, solution, 0);
  return false;
}
