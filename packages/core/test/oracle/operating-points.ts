/** Operating points of boats against ngspice, node by node and element by element. */
import { expect } from 'vitest';
import type { Boat } from '../../src/boat/index.ts';
import {
  netlist,
  solveOperatingPoint,
  spiceNode,
  startFrom,
  terminalCurrents,
} from '../../src/circuit/index.ts';
import type { Condition, Operator } from '../../src/operate/index.ts';
import { currentVectors, ngspicePoints, type NgspicePoint } from './ngspice.ts';

/** An operating point, written down while the plant stood at it. */
export interface Exported {
  readonly name: string;
  readonly lines: readonly string[];
  readonly nodes: readonly string[];
  readonly voltages: Float64Array;
  readonly vectors: readonly string[];
  readonly currents: readonly number[];
  /** Our own answer when started where ngspice ended. */
  readonly startedFrom: (point: NgspicePoint) => {
    readonly voltages: Float64Array;
    readonly currents: readonly number[];
  };
}

/** The operating point of a boat under a condition, ready to be compared. */
export function exportedPoint(operator: Operator, boat: Boat, condition: Condition, name: string): Exported {
  const { circuit, solution } = operator.plant;
  const stand = (): void => {
    operator.set(boat);
    expect(operator.at(condition).converged, name).toBe(true);
  };
  stand();
  const allVectors = currentVectors(circuit);
  const vectors = allVectors.flat().filter((vector) => vector.startsWith('@'));
  const currentsNow = (): number[] => {
    const flat = terminalCurrents(circuit, solution);
    return allVectors.flatMap((names, element) =>
      names.flatMap((vector, terminal) =>
        vector.startsWith('@') ? [flat[circuit.terminalOffsets[element]! + terminal]!] : [],
      ),
    );
  };
  const nodes = circuit.nodes.map((_, node) => spiceNode(circuit, node));
  return {
    name,
    lines: netlist(circuit),
    nodes,
    voltages: solution.voltages.slice(),
    vectors,
    currents: currentsNow(),
    startedFrom: (point) => {
      stand();
      startFrom(
        circuit,
        solution,
        Float64Array.from(nodes, (node, i) => (i === 0 ? 0 : point.get(node)!)),
      );
      solveOperatingPoint(circuit, solution);
      expect(solution.converged, name).toBe(true);
      return { voltages: solution.voltages.slice(), currents: currentsNow() };
    },
  };
}

/** Compares all points with ngspice: 1 mV and 10 mA, below the resolution of a good meter and clamp. */
export function expectSameAsNgspice(exported: readonly Exported[]): void {
  const points = pointsFromSomeStart(exported);
  let worstVoltage = 0;
  let worstCurrent = 0;
  let compared = 0;
  let otherSolutions = 0;
  exported.forEach((ours, index) => {
    const { name, nodes, vectors } = ours;
    const point = points[index]!;
    if (point.size === 0) return;
    compared++;
    let { voltages, currents } = ours;
    if (nodes.some((node, i) => i > 0 && Math.abs(voltages[i]! - point.get(node)!) > 1e-3)) {
      // A machine that feeds its own field has two solutions; from there we must find the one that ngspice found.
      otherSolutions++;
      ({ voltages, currents } = ours.startedFrom(point));
    }
    nodes.forEach((node, i) => {
      if (i === 0) return;
      const difference = Math.abs(voltages[i]! - point.get(node)!);
      expect(difference, `${node}: ${name}`).toBeLessThanOrEqual(1e-3);
      worstVoltage = Math.max(worstVoltage, difference);
    });
    vectors.forEach((vector, i) => {
      const difference = Math.abs(currents[i]! - point.get(vector)!);
      expect(difference, `${vector}: ${name}`).toBeLessThanOrEqual(10e-3);
      worstCurrent = Math.max(worstCurrent, difference);
    });
  });
  // Another solution is the exception: else nothing says that ours is one at all.
  expect(otherSolutions).toBeLessThanOrEqual(0.02 * exported.length);
  console.log(
    `ngspice: ${compared} of ${exported.length} operating points; ${otherSolutions} of them at another solution; largest difference ` +
      `${(worstVoltage * 1e6).toPrecision(3)} µV, ${(worstCurrent * 1e6).toPrecision(3)} µA`,
  );
  // ngspice itself finds no operating point for a few; those prove nothing either way.
  expect(compared).toBeGreaterThanOrEqual(0.95 * exported.length);
}

/** ngspice is told where to look, rounded, not what to find: it still has to meet its own tolerance of 1e-9. Where it fails
 *  from there, or ends on another of several solutions (a machine that feeds its own field has two), it starts from
 *  another rounding. From close by, Newton's method stays only if there is a solution. */
function pointsFromSomeStart(exported: readonly Exported[]): NgspicePoint[] {
  const points: NgspicePoint[] = exported.map(() => new Map());
  const isSame = (index: number): boolean =>
    exported[index]!.nodes.every(
      (node, i) =>
        i === 0 || Math.abs(exported[index]!.voltages[i]! - (points[index]!.get(node) ?? NaN)) <= 1e-3,
    );
  for (const digits of [3, 4, 5, 6]) {
    const missing = exported.map((_, index) => index).filter((index) => !isSame(index));
    if (missing.length === 0) break;
    const found = ngspicePoints(
      missing.map((index) => {
        const { lines, nodes, voltages, vectors } = exported[index]!;
        const starts = nodes
          .slice(1)
          .map((node, i) => `.nodeset V(${node})=${voltages[i + 1]!.toFixed(digits)}`);
        return { lines: [...lines, ...starts], vectors };
      }),
    );
    missing.forEach((index, position) => {
      const point = found[position]![0]!;
      if (point.size > 0) points[index] = point;
    });
  }
  return points;
}
