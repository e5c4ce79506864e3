import { expect, test } from 'vitest';
import { boatAt, boatFromTemplate, templateIds } from '../../src/boat/index.ts';
import { elementPowers, leakPower, nodeCurrentSums } from '../../src/circuit/index.ts';
import { asFound, Operator, type Condition, type OperatingPoint } from '../../src/operate/index.ts';
import { randomFleets } from './random-boat.ts';

const fast: Condition = {
  ...asFound,
  engine: 'running',
  engineSpeed: (1500 * 2 * Math.PI) / 60,
  sinceStart: 300,
};
const fleets = randomFleets(6, 77);

test('[limit] every point of every fleet converges', () => {
  const failed: string[] = [];
  for (const { name, description, conditions, boats } of fleets) {
    const operator = new Operator(boatAt(description));
    for (const { name: fault, boat } of boats) {
      operator.set(boat);
      for (const condition of conditions) {
        if (!operator.at(condition).converged) failed.push(`${name}, ${fault}, ${condition.engine}`);
      }
    }
  }
  expect(failed).toEqual([]);
});

test('[law] currents at every node sum to zero, and powers over all elements and leaks too', () => {
  for (const { name, description, conditions, boats } of fleets) {
    const operator = new Operator(boatAt(description));
    const { circuit, solution } = operator.plant;
    boats.forEach(({ name: fault, boat }, b) => {
      operator.set(boat);
      operator.at(conditions[(5 * b + 3) % conditions.length]!);
      const sums = nodeCurrentSums(circuit, solution);
      sums.forEach((sum, node) => {
        // The solver's own tolerance is 1e-7 A and 1e-9 of the largest current.
        if (node > 0) expect(Math.abs(sum), `${circuit.nodes[node]}: ${name}, ${fault}`).toBeLessThan(2e-6);
      });
      // Stator, field, batteries and gassing are elements: what the machine brings is what all others take.
      const power = elementPowers(circuit, solution).reduce((total, one) => total + one, leakPower(solution));
      expect(Math.abs(power), `${name}, ${fault}`).toBeLessThan(1e-4); // 2e-6 A at 15 V, some nodes
    });
  }
});

test('[law] a point does not depend on what was solved before it', () => {
  for (const { name, description, conditions, boats } of fleets) {
    const used = new Operator(boatAt(description));
    boats.slice(0, 3).forEach(({ name: fault, boat }, b) => {
      const condition = conditions[(7 * b + 2) % conditions.length]!;
      used.set(boats[5]!.boat);
      for (const other of conditions) used.at(other);
      used.set(boat);
      const fresh = new Operator(boatAt(description));
      fresh.set(boat);
      expectSame(used.at(condition), fresh.at(condition), `${name}, ${fault}`);
    });
  }
});

test('[limit] healthy machines that feed their own field are found alive, behind an isolator too', () => {
  for (const template of templateIds) {
    for (const facts of [{}, { excitation: 'ignition' }, { regulatorPlace: 'outside' }] as const) {
      const point = new Operator(boatAt(boatFromTemplate(template, facts))).at(fast);
      for (const { id, output } of point.alternators) {
        expect(output, `${template} ${JSON.stringify(facts)} ${id}`).toBeGreaterThan(1);
      }
    }
  }
});

test('[law] told points of the curve are where the machine runs, whatever the amps turn out to be', () => {
  const bare = boatFromTemplate('one-battery');
  const told = (value: number) => ({ value, origin: 'nameplate' as const });
  const withCurve = (quantities: object) => ({
    ...bare,
    parts: bare.parts.map((part) =>
      part.kind === 'alternator' ? { ...part, quantities: { ...part.quantities, ...quantities } } : part,
    ),
  });
  const onBench = (quantities: object, rpm: number): number => {
    const boat = boatAt(withCurve(quantities));
    boat.alternators[0]!.health = 1;
    const { law } = new Operator(boat).plant.alternators[0]!.machine;
    law.turn((rpm * 2 * Math.PI) / 60, 353.15, 1);
    // Full field of 13.5 V on a warm winding of 3 Ω, brushes 0.6 V.
    const at = {
      voltage: 13.5,
      fieldCurrent: 12.9 / (3 * 1.2358),
      current: 0,
      dByVoltage: 0,
      dByFieldCurrent: 0,
    };
    law.output(at);
    return at.current;
  };
  const rated = { rated_current: told(100) };
  const flat = { ...rated, low_speed_current: told(50), middle_speed_current: told(84) };
  const steep = { ...rated, low_speed_current: told(40), middle_speed_current: told(78) };
  for (const [curve, low, middle] of [
    [flat, 50, 84],
    [steep, 40, 78],
  ] as const) {
    // 1 A of 100: the nearest curve, drawn a little towards the usual stator resistance.
    expect(Math.abs(onBench(curve, 1800) - low)).toBeLessThan(1);
    expect(Math.abs(onBench(curve, 3000) - middle)).toBeLessThan(1);
    expect(Math.abs(onBench(curve, 6000) - 100)).toBeLessThan(1);
  }
  // Amps at low speed but none on the nameplate: some drawn machines are smaller than that, and still run.
  const description = withCurve({ low_speed_current: told(68), middle_speed_current: told(69) });
  for (const u of [-2, -1, 0, 1, 2]) {
    const boat = boatAt(description, new Float64Array(60).fill(u));
    expect(new Operator(boat).at(fast).converged).toBe(true);
  }
});

test('[law] the less a slack belt wraps round the pulley, the more it slips and the less arrives; told, not assumed', () => {
  const bare = boatFromTemplate('one-battery', { beltSection: 'v-10' });
  const wrapped = (degrees?: number) => {
    const parts = bare.parts.map((part) =>
      part.kind !== 'belt' || degrees === undefined
        ? part
        : {
            ...part,
            quantities: { wrap_angle: { value: (degrees * Math.PI) / 180, origin: 'measured' as const } },
          },
    );
    const boat = boatAt({ ...bare, parts });
    boat.belts[0]!.grip = 0.4;
    return new Operator(boat).at({ ...fast, loads: 'test', testLoad: 60 }).alternators[0]!;
  };
  const [third, half, unknown, usual] = [wrapped(120), wrapped(180), wrapped(), wrapped(160)];
  expect(third.slip).toBeGreaterThan(half.slip + 0.02);
  expect(third.output).toBeLessThan(half.output - 2);
  expect(unknown.slip).toBe(usual.slip);
});

/** 1e-6 V and 1e-5 A: far above the solver's tolerance, far below any meter's. */
function expectSame(first: OperatingPoint, second: OperatingPoint, where: string): void {
  first.voltages.forEach((voltage, node) => {
    expect(Math.abs(voltage - second.voltages[node]!), where).toBeLessThan(1e-6);
  });
  first.alternators.forEach(({ output }, i) => {
    expect(Math.abs(output - second.alternators[i]!.output), where).toBeLessThan(1e-5);
  });
}
