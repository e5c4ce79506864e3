import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  buildCircuit,
  createSolution,
  currentLoad,
  resistor,
  solveOperatingPoint,
} from '../../src/circuit/index.ts';
import type { Circuit } from '../../src/circuit/index.ts';
import { denseVoltages } from './dense.ts';
import { logBetween, randomSource } from './random-circuit.ts';

const RUNS = { seed: 4711, numRuns: 60 };
const seeds = fc.integer({ min: 1, max: 1_000_000 });

test('[rival] sparse elimination equals dense elimination with pivoting on random meshes', () => {
  fc.assert(
    fc.property(seeds, (seed) => {
      const circuit = randomMesh(seed);
      const voltages = solved(circuit);
      const reference = denseVoltages(circuit);
      // Resistances span 30 µΩ to 10 kΩ: rounding of 1.1e-16 times that span is 4e-8 if every rounding of the largest
      // conductance lines up. They do not: 2e-9 is found. 1e-8 lets one mesh in thousands be five times as unlucky.
      voltages.forEach((voltage, node) => {
        expect(Math.abs(voltage - reference[node]!)).toBeLessThanOrEqual(
          1e-8 * (1 + Math.abs(reference[node]!)),
        );
      });
    }),
    RUNS,
  );
});

test('[law] superposition: the voltages of two sources together are the sum of each alone', () => {
  fc.assert(
    fc.property(seeds, (seed) => {
      const both = solved(randomMesh(seed, [3, -7]));
      const first = solved(randomMesh(seed, [3, 0]));
      const second = solved(randomMesh(seed, [0, -7]));
      both.forEach((voltage, node) => {
        const sum = first[node]! + second[node]!;
        expect(Math.abs(voltage - sum)).toBeLessThanOrEqual(1e-8 * (1 + Math.abs(sum)));
      });
    }),
    RUNS,
  );
});

test('[law] reciprocity: a source at one place moves another place as it would be moved from there', () => {
  fc.assert(
    fc.property(seeds, (seed) => {
      const here = solved(randomMesh(seed, [1, 0]));
      const there = solved(randomMesh(seed, [0, 1]));
      expect(Math.abs(here[2]! - there[1]!)).toBeLessThanOrEqual(1e-8 * (1 + Math.abs(here[2]!)));
    }),
    RUNS,
  );
});

test('[law] a part that an open switch leaves floating takes the voltage of its neighbour', () => {
  const circuit = buildCircuit(
    ['ground', 'post', 'island', 'far'],
    [
      currentLoad({ name: 'source', from: 1, to: 0, current: -10, fadeVoltage: 0 }),
      resistor({ name: 'heater', from: 1, to: 0, resistance: 1.2 }),
      resistor({ name: 'open switch', from: 1, to: 2, resistance: Number.POSITIVE_INFINITY }),
      resistor({ name: 'lead', from: 2, to: 3, resistance: 0.001 }),
    ],
  );
  const [, post, island, far] = solved(circuit);
  expect(post).toBeCloseTo(12, 3);
  // Nothing feeds the island: the leak holds it at 0 V.
  expect(island).toBe(0);
  expect(far).toBe(0);
});

test('[limit] a resistance below the smallest joint counts as the smallest joint', () => {
  const circuit = buildCircuit(
    ['ground', 'post'],
    [
      currentLoad({ name: 'source', from: 1, to: 0, current: -100, fadeVoltage: 0 }),
      resistor({ name: 'bar', from: 1, to: 0, resistance: 0 }),
    ],
  );
  // 100 A · 20 µΩ, less what leaks.
  expect(solved(circuit)[1]).toBeCloseTo(2e-3, 9);
});

test('[limit] mistakes of the caller name what is wrong', () => {
  expect(() => resistor({ name: 'cable', from: 0, to: 1, resistance: -1 })).toThrow(
    /cable.*resistance is -1 Ω/,
  );
  expect(() => resistor({ name: 'cable', from: 0, to: 1, resistance: Number.NaN })).toThrow(RangeError);
  const stray = resistor({ name: 'stray', from: 0, to: 5, resistance: 1 });
  expect(() => buildCircuit(['ground', 'post'], [stray])).toThrow(/stray has terminal 5/);
  expect(() => buildCircuit(['ground'], [])).toThrow(RangeError);
});

test('[limit] a resistance that is not a number gives no answer', () => {
  const bar = resistor({ name: 'bar', from: 1, to: 0, resistance: 1 });
  const circuit = buildCircuit(['ground', 'post'], [bar]);
  bar.resistance = Number.NaN;
  expect(solveOperatingPoint(circuit, createSolution(circuit)).kind).toBe('did-not-converge');
});

function solved(circuit: Circuit): Float64Array {
  const solution = solveOperatingPoint(circuit, createSolution(circuit));
  expect(solution.kind).toBe('converged');
  return solution.voltages;
}

/** A random connected mesh with two current sources, at nodes 1 and 2. */
function randomMesh(seed: number, currents: readonly [number, number] = [5, -20]): Circuit {
  const random = randomSource(seed);
  const count = 3 + Math.floor(random() * 25);
  const nodes = Array.from({ length: count }, (_, node) => `n${node}`);
  const elements = [];
  const add = (from: number, to: number): void => {
    elements.push(
      resistor({ name: `r${elements.length}`, from, to, resistance: logBetween(random, 30e-6, 1e4) }),
    );
  };
  for (let node = 1; node < count; node++) add(node, Math.floor(random() * node));
  for (let extra = 0; extra < count / 3; extra++) {
    add(Math.floor(random() * count), Math.floor(random() * count));
  }
  elements.push(
    currentLoad({ name: 'first', from: 1, to: 0, current: -currents[0], fadeVoltage: 0 }),
    currentLoad({ name: 'second', from: 2, to: 0, current: -currents[1], fadeVoltage: 0 }),
  );
  return buildCircuit(nodes, elements);
}
