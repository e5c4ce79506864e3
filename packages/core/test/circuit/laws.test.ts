import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  buildCircuit,
  controlledCurrent,
  createSolution,
  currentLoad,
  elementPowers,
  leakPower,
  nodeCurrentSums,
  powerLoad,
  resetSolution,
  resistor,
  solveOperatingPoint,
} from '../../src/circuit/index.ts';
import type { Circuit, OperatingSolution, Stamps } from '../../src/circuit/index.ts';
import { randomBoatCircuit } from './random-circuit.ts';
import { sampleBattery, sampleDiode } from './sample-parts.ts';

const RUNS = { seed: 1234, numRuns: 150 };
const seeds = fc.integer({ min: 1, max: 1_000_000 });

test('[law] currents at every node sum to zero', () => {
  fc.assert(
    fc.property(seeds, fc.integer({ min: 0, max: 25 }), (seed, extra) => {
      const { circuit, solution } = solved(seed, extra);
      const sums = nodeCurrentSums(circuit, solution).slice(1);
      // The tolerance that the solver promises: 1e-7 A and 1e-9 of a current of at most some hundred amperes.
      for (const sum of sums) expect(Math.abs(sum)).toBeLessThanOrEqual(5e-7);
    }),
    RUNS,
  );
});

test('[law] all elements and leaks together take up no power', () => {
  fc.assert(
    fc.property(seeds, fc.integer({ min: 0, max: 25 }), (seed, extra) => {
      const { circuit, solution } = solved(seed, extra);
      const powers = elementPowers(circuit, solution);
      const sum = powers.reduce((total, power) => total + power, leakPower(solution));
      // A node error of 1e-7 A at 15 V, over some thirty nodes.
      expect(Math.abs(sum)).toBeLessThanOrEqual(5e-5);
    }),
    RUNS,
  );
});

test('[law] a warm start ends where a cold start ends, in fewer steps', () => {
  for (let seed = 1; seed <= 40; seed++) {
    const { circuit, solution } = solved(seed, 6);
    const cold = Float64Array.from(solution.voltages);
    const steps = solution.iterations;
    solveOperatingPoint(circuit, solution);
    expect(solution.iterations).toBeLessThan(steps);
    solution.voltages.forEach((voltage, node) =>
      expect(Math.abs(voltage - cold[node]!)).toBeLessThanOrEqual(1e-6),
    );
  }
});

test('[law] derivatives of every element equal differences of its currents', () => {
  for (let seed = 1; seed <= 20; seed++) {
    const { circuit, solution } = solved(seed, 12);
    for (const { element, slots } of circuit.active) {
      if (element.prepare !== undefined && element.terminals.length === 2) continue; // own unknown: law checked below
      element.reset?.(solution.voltages);
      const count = element.terminals.length;
      const at = stamped(circuit, solution.voltages, element, slots);
      element.terminals.forEach((column, c) => {
        if (column === 0) return;
        const difference = 1e-6;
        const moved = [1, -1].map((sign) => {
          const voltages = Float64Array.from(solution.voltages);
          voltages[column]! += sign * difference;
          element.reset?.(voltages);
          return stamped(circuit, voltages, element, slots);
        });
        element.terminals.forEach((row, r) => {
          if (row === 0) return;
          const slope = (moved[0]!.injected[row]! - moved[1]!.injected[row]!) / (2 * difference);
          const claimed = at.matrix[slots[r * count + c]!]!;
          // Central differences of step 1e-6 V on currents of 100 A err by 1e-8 A / 1e-6 V.
          expect(Math.abs(slope - claimed), `${element.name} ${r} ${c}`).toBeLessThanOrEqual(
            1e-2 + 1e-3 * Math.abs(claimed),
          );
        });
      });
    }
  }
});

test('[rival] one battery and one diode: Newton equals bisection', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-3, max: 10, noNaN: true }),
      fc.double({ min: 11, max: 15, noNaN: true }),
      (resistance, emf) => {
        const law = { emf, resistance: 0.01, bend: 0.05, bendCurrent: 2 };
        const circuit = buildCircuit(
          ['ground', 'post', 'load'],
          [
            sampleBattery('battery', 1, 0, law),
            sampleDiode('diode', 1, 2, 1e-9),
            resistor({ name: 'load', from: 2, to: 0, resistance }),
          ],
        );
        const solution = solveOperatingPoint(circuit, createSolution(circuit));
        expect(solution.kind).toBe('converged');
        const leak = 1e-6;
        const voltageLeft = (current: number): number => {
          const diodeCurrent = current;
          const load = diodeCurrent / (1 / resistance + leak);
          const post = load + 0.0388 * Math.log1p(diodeCurrent / 1e-9);
          const battery = -(diodeCurrent + leak * post);
          return law.emf + law.resistance * battery + law.bend * Math.asinh(battery / law.bendCurrent) - post;
        };
        let low = 0;
        let high = 1e5;
        for (let halving = 0; halving < 200; halving++) {
          const middle = (low + high) / 2;
          if (voltageLeft(middle) > 0) low = middle;
          else high = middle;
        }
        const expected = low / (1 / resistance + leak);
        // Ten times the solver's tolerance on a step.
        expect(Math.abs(solution.voltages[2]! - expected)).toBeLessThanOrEqual(1e-6);
      },
    ),
    RUNS,
  );
});

test('[rival] a constant-power load behind a resistance: the quadratic formula', () => {
  const circuit = buildCircuit(
    ['ground', 'source', 'load'],
    [
      sampleBattery('source', 1, 0, { emf: 13, resistance: 1e-3, bend: 0, bendCurrent: 1 }),
      resistor({ name: 'cable', from: 1, to: 2, resistance: 0.099 }),
      powerLoad({ name: 'drive', from: 2, to: 0, power: 200, limitVoltage: 6 }),
    ],
  );
  const solution = solveOperatingPoint(circuit, createSolution(circuit));
  // V = (E + √(E² − 4 R P)) / 2; the leak's 13 µA over 0.1 Ω shift it by a microvolt.
  expect(solution.voltages[2]).toBeCloseTo((13 + Math.sqrt(13 * 13 - 4 * 0.1 * 200)) / 2, 5);
});

test('[limit] loads fade smoothly: value and slope meet at the limit voltage', () => {
  for (const load of [
    powerLoad({ name: 'drive', from: 1, to: 0, power: 120, limitVoltage: 6 }),
    currentLoad({ name: 'lamp', from: 1, to: 0, current: 8, fadeVoltage: 6 }),
  ]) {
    const circuit = buildCircuit(['ground', 'node'], [load]);
    const { slots } = circuit.active[0]!;
    const below = stamped(circuit, Float64Array.of(0, 6 - 1e-9), load, slots);
    const above = stamped(circuit, Float64Array.of(0, 6 + 1e-9), load, slots);
    expect(below.injected[1]).toBeCloseTo(above.injected[1]!, 6);
    expect(below.matrix[slots[0]!]).toBeCloseTo(above.matrix[slots[0]!]!, 6);
    expect(stamped(circuit, Float64Array.of(0, 0), load, slots).injected[1]).toBe(0);
  }
});

test('[limit] a circuit without a solution is not given one', () => {
  // 5 A into a node whose only other path takes at most 1 A.
  const circuit = buildCircuit(
    ['ground', 'node'],
    [
      currentLoad({ name: 'source', from: 1, to: 0, current: -5, fadeVoltage: 0 }),
      controlledCurrent({
        name: 'choke',
        terminals: [1, 0],
        law: ({ voltages, currents, derivatives }) => {
          // Cancels the leak, so that the node has no other way out.
          const leak = 1e-6 * voltages[0]!;
          currents[0] = Math.tanh(voltages[0]!) - leak;
          currents[1] = -currents[0];
          derivatives[0] = 1 - Math.tanh(voltages[0]!) ** 2 - 1e-6;
          derivatives[2] = -derivatives[0];
        },
      }),
    ],
  );
  const solution = createSolution(circuit);
  solveOperatingPoint(circuit, solution);
  expect(solution.kind).toBe('did-not-converge');
  expect(solution.residual).toBeGreaterThan(1);
  expect(solution.worstNode).toBe(1);
});

test('[limit] every one of 1000 random circuits, faults included, converges from a cold start', () => {
  const failed = [];
  for (let seed = 1; seed <= 1000; seed++) {
    const circuit = randomBoatCircuit(seed, seed % 17);
    const solution = createSolution(circuit);
    resetSolution(circuit, solution);
    if (solveOperatingPoint(circuit, solution).kind !== 'converged') failed.push(seed);
  }
  expect(failed).toEqual([]);
});

function solved(seed: number, extra: number): { circuit: Circuit; solution: OperatingSolution } {
  const circuit = randomBoatCircuit(seed, extra);
  const solution = solveOperatingPoint(circuit, createSolution(circuit));
  expect(solution.kind, `seed ${seed}`).toBe('converged');
  return { circuit, solution };
}

function stamped(
  circuit: Circuit,
  voltages: Float64Array,
  element: Circuit['active'][number]['element'],
  slots: Int32Array,
): Stamps {
  const stamps = {
    injected: new Float64Array(circuit.nodes.length),
    matrix: new Float64Array(circuit.plan.slotCount),
    fraction: 1,
    lawError: 0,
    lawNode: 0,
  };
  element.stamp(voltages, stamps, slots);
  return stamps;
}
