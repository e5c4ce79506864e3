import { expect, test } from 'vitest';
import {
  createSolution,
  netlist,
  solveOperatingPoint,
  spiceNode,
  startFrom,
  terminalCurrents,
} from '../../src/circuit/index.ts';
import type { Circuit, OperatingSolution } from '../../src/circuit/index.ts';
import { currentVectors, ngspicePoints } from '../oracle/ngspice.ts';
import type { NgspicePoint } from '../oracle/ngspice.ts';
import { randomBoatCircuit } from './random-circuit.ts';

const CIRCUITS = 300;
const FIRST_SEED = 20260;

test('[rival] ngspice finds the same voltages and currents on 300 random circuits', () => {
  const circuits = Array.from({ length: CIRCUITS }, (_, index) =>
    randomBoatCircuit(FIRST_SEED + index, 2 + (index % 14)),
  );
  const solutions = circuits.map((circuit) => solveOperatingPoint(circuit, createSolution(circuit)));
  expect(solutions.filter((solution) => !solution.converged)).toEqual([]);

  const points = pointsFromSomeStart(circuits, solutions);
  const elsewhere = circuits
    .map((_, index) => index)
    .filter(
      (index) => points[index]!.size > 0 && !isSame(circuits[index]!, solutions[index]!, points[index]!),
    );
  for (const index of elsewhere) solveFrom(circuits[index]!, solutions[index]!, points[index]!);

  let worstVoltage = 0;
  let worstCurrent = 0;
  let currentsCompared = 0;
  let circuitsCompared = 0;
  circuits.forEach((circuit, index) => {
    const point = points[index]!;
    if (point.size === 0) return;
    circuitsCompared++;
    const { voltages } = solutions[index]!;
    for (let node = 1; node < voltages.length; node++) {
      const difference = Math.abs(voltages[node]! - point.get(spiceNode(circuit, node))!);
      expect(difference, `${circuit.nodes[node]} of seed ${FIRST_SEED + index}`).toBeLessThanOrEqual(1e-3);
      worstVoltage = Math.max(worstVoltage, difference);
    }
    const currents = terminalCurrents(circuit, solutions[index]!);
    currentVectors(circuit).forEach((names, element) => {
      names.forEach((name, terminal) => {
        const difference = Math.abs(
          currents[circuit.terminalOffsets[element]! + terminal]! - point.get(name)!,
        );
        expect(difference, `${name} of seed ${FIRST_SEED + index}`).toBeLessThanOrEqual(10e-3);
        worstCurrent = Math.max(worstCurrent, difference);
        currentsCompared++;
      });
    });
  });
  // 1 mV and 10 mA: below the resolution of a good meter and clamp.
  console.log(
    `ngspice: ${circuitsCompared} of ${CIRCUITS} circuits, ${currentsCompared} currents (${elsewhere.length} at the other of two points); largest difference ` +
      `${(worstVoltage * 1e9).toPrecision(3)} nV, ${(worstCurrent * 1e6).toPrecision(3)} µA`,
  );
  // ngspice itself finds no operating point for a few faulty circuits; those prove nothing either way.
  expect(circuitsCompared).toBeGreaterThanOrEqual(0.95 * CIRCUITS);
  expect(currentsCompared).toBeGreaterThan(1000);
});

/** ngspice is told where to look, rounded to 1 mV, not what to find: it still has to meet its own tolerance of 1e-9.
 *  Where it fails from there, or ends on another of several solutions (a machine that excites itself has two), it
 *  starts from another rounding. From close by, Newton's method stays only if there is a solution. */
function pointsFromSomeStart(
  circuits: readonly Circuit[],
  solutions: readonly OperatingSolution[],
): NgspicePoint[] {
  const points: NgspicePoint[] = circuits.map(() => new Map());
  for (const digits of [3, 4, 5, 6, 2]) {
    const missing = circuits
      .map((_, index) => index)
      .filter((index) => !isSame(circuits[index]!, solutions[index]!, points[index]!));
    if (missing.length === 0) break;
    const found = ngspicePoints(
      missing.map((index) => ({
        lines: netlist(circuits[index]!, {
          startVoltages: solutions[index]!.voltages.map((voltage) => Number(voltage.toFixed(digits))),
        }),
        vectors: currentVectors(circuits[index]!)
          .flat()
          .filter((name) => name.startsWith('@')),
      })),
    );
    missing.forEach((index, position) => {
      const point = found[position]![0]!;
      if (point.size > 0) points[index] = point;
    });
  }
  return points;
}

function isSame(circuit: Circuit, solution: OperatingSolution, point: NgspicePoint): boolean {
  return solution.voltages.every(
    (voltage, node) =>
      node === 0 || Math.abs(voltage - (point.get(spiceNode(circuit, node)) ?? Number.NaN)) <= 1e-3,
  );
}

/** A machine that excites itself can have two operating points. Where ngspice insists on the other one, this
 *  solver starts from there, so that the two are compared at that point. */
function solveFrom(circuit: Circuit, solution: OperatingSolution, point: NgspicePoint): void {
  startFrom(
    circuit,
    solution,
    circuit.nodes.map((_, node) => (node === 0 ? 0 : point.get(spiceNode(circuit, node))!)),
  );
  solveOperatingPoint(circuit, solution);
}
