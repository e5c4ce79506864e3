/** Charger and lamp: laws on which plain Newton swings. Numbers are invented; the laws are those of the elements' files. */
import { expect, test } from 'vitest';
import { buildCircuit, createSolution, resistor, solveFromNear, startFrom } from '../../src/circuit/index.ts';
import { LampElement } from '../../src/operate/lamp-element.ts';
import { SourceElement } from '../../src/operate/source-element.ts';
import { lampOf } from '../../src/physics/index.ts';
import { sampleBattery } from '../circuit/sample-parts.ts';

const FEW = 12;

test('[law] a charger gives full current, part of it or none, whatever voltage the solve starts from', () => {
  const setting = { current: 15, setpoint: 13.8 };
  for (const emf of [11.8, 12.6, 13.2, 13.5, 13.7, 14.2]) {
    const circuit = buildCircuit(
      ['ground', 'charger', 'post'],
      [
        new SourceElement('charger', [1, 0], setting),
        resistor({ name: 'cable', from: 1, to: 2, resistance: 0.01 }),
        sampleBattery('bank', 2, 0, { emf, resistance: 0.01, bend: 0.15, bendCurrent: 0.5 }),
      ],
    );
    const found = [5, 12.5, 13.75, 16].map((start) => {
      const solution = createSolution(circuit);
      startFrom(circuit, solution, [0, start, start]);
      expect(solveFromNear(circuit, solution, FEW), `${emf} V from ${start} V`).toBe(true);
      return solution.voltages.slice();
    });
    const [, charger = 0, post = 0] = found[0]!;
    const given = (charger - post) / 0.01;
    const asked = Math.min(15, Math.max(0, 15 * 10 * (13.8 - charger)));
    // The corners are 0.15 A wide: at them the smooth law lies 0.15 A · ln 2 from the sharp one.
    expect(Math.abs(given - asked), `${emf} V`).toBeLessThan(0.11);
    // 1e-7 V is what the solver promises of each voltage.
    for (const other of found) expect(Math.abs(other[1]! - charger)).toBeLessThan(3e-7);
  }
});

test('[limit] a lamp with as much voltage on either side carries nothing, found in a few steps', () => {
  const lamp = lampOf(3, 12);
  const circuit = buildCircuit(
    ['ground', 'a', 'b'],
    [
      sampleBattery('bank', 1, 0, { emf: 12.6, resistance: 0.01, bend: 0.1, bendCurrent: 1 }),
      new LampElement('lamp', { lamp, whole: true, a: 1, b: 2 }),
    ],
  );
  for (const start of [0, 2, 8, 20, 40]) {
    const solution = createSolution(circuit);
    startFrom(circuit, solution, [0, 12.6, start]);
    expect(solveFromNear(circuit, solution, FEW), `from ${start} V`).toBe(true);
    // The leak of node b, 13 µA, is all it carries: 13e-6 A times the cold resistance.
    expect(solution.voltages[1]! - solution.voltages[2]!).toBeCloseTo(
      (12.6 - 0.0013) * 1e-6 * lamp.coldResistance,
      6,
    );
  }
});
