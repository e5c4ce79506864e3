import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate } from '../../src/boat/index.ts';
import { elementPowers, leakPower, nodeCurrentSums } from '../../src/circuit/index.ts';
import { asFound, Operator, type Condition } from '../../src/operate/index.ts';
import {
  ClosedFormMachine,
  fitAlternator,
  RATED_SPEED,
  ratingVoltage,
  tableOf,
  TabulatedMachine,
  type AlternatorNameplate,
  type MachineLaw,
} from '../../src/physics/index.ts';
import { expectSameAsNgspice, exportedPoint } from '../oracle/operating-points.ts';
import { randomFleets } from './random-boat.ts';

const RIVAL = { battery: 'rival', alternator: 'rival' } as const;
const RPM = (2 * Math.PI) / 60;
const HOT = 353.15;

interface Pair {
  readonly full: number;
  readonly volts: number;
  readonly closed: ClosedFormMachine;
  readonly table: TabulatedMachine;
}

function pairOf(nameplate: AlternatorNameplate): Pair {
  const fit = fitAlternator(nameplate);
  if (fit.kind !== 'fitted') throw new Error(fit.reason);
  const table = tableOf(nameplate, fit.machine);
  return {
    full: table.fullFieldCurrent,
    volts: ratingVoltage(nameplate.nominalVoltage),
    closed: new ClosedFormMachine(fit.machine),
    table: new TabulatedMachine(table, 1),
  };
}

function outputAt(law: MachineLaw, speed: number, fieldCurrent: number, voltage: number): number {
  law.turn(speed, HOT, 1);
  const at = { fieldCurrent, voltage, current: 0, dByVoltage: 0, dByFieldCurrent: 0 };
  law.output(at);
  return at.current;
}

describe.each([12, 24] as const)('two machines of one nameplate, %i V', (nominalVoltage) => {
  const told = { nominalVoltage, ratedCurrent: 80, cutInSpeed: 1100 * RPM };
  const low = { speed: 1800 * RPM, current: 35 };

  it('[rival] agree at the points that the nameplate tells', () => {
    for (const nameplate of [told, { ...told, points: [low] }]) {
      const { full, volts, closed, table } = pairOf(nameplate);
      for (const law of [closed, table]) {
        // 0.6 %: the table's floor of 0.05 V in the scaled voltage moves its speeds by 0.3 %.
        expect(Math.abs(outputAt(law, RATED_SPEED, full, volts) / 80 - 1)).toBeLessThan(0.006);
        // Nothing below cut-in; the closed form's knee is 0.05 V of phase voltage soft, about an ampere.
        expect(outputAt(law, 1050 * RPM, full, volts)).toBeLessThan(1);
      }
      if (!('points' in nameplate)) continue;
      // Here the curve is steep: 0.3 % of speed is 1.5 % of the amps.
      for (const law of [closed, table])
        expect(Math.abs(outputAt(law, low.speed, full, volts) / low.current - 1)).toBeLessThan(0.02);
    }
  });

  it('[rival] differ between them, at part field most', () => {
    const { full, volts, closed, table } = pairOf(told);
    const apart = (speed: number, field: number): number =>
      Math.abs(outputAt(closed, speed, field, volts) - outputAt(table, speed, field, volts)) / 80;
    const between = [1500, 2500, 3000, 4500].map((rpm) => apart(rpm * RPM, full));
    expect(Math.max(...between)).toBeGreaterThan(0.02);
    expect(Math.max(...between)).toBeLessThan(0.25);
    expect(apart(4000 * RPM, 0.5 * full)).toBeGreaterThan(0.05);
  });

  it('[law] the field that an output needs gives that output; it begins at the open voltage', () => {
    const { full, volts, closed, table } = pairOf(told);
    for (const law of [closed, table]) {
      for (const [rpm, share] of [
        [2500, 0.6],
        [4000, 0.5],
        [6000, 0.9],
      ] as const) {
        const speed = rpm * RPM;
        const wanted = share * outputAt(law, speed, full, volts);
        const field = law.neededField(wanted, volts);
        expect(field).toBeLessThan(full);
        // The closed form's inverse leaves its soft corners out: 0.05 V of 10 V.
        expect(Math.abs(outputAt(law, speed, field, volts) / wanted - 1)).toBeLessThan(0.01);
        const open = law.openVoltage(0.5 * full);
        expect(outputAt(law, speed, 0.5 * full, open + 1)).toBeLessThan(0.5);
        // The table starts softly: its slope is zero at cut-in.
        expect(outputAt(law, speed, 0.5 * full, 0.75 * open)).toBeGreaterThan(1);
        expect(law.neededField(10_000, volts)).toBe(Infinity);
      }
    }
  });
});

const fast: Condition = { ...asFound, engine: 'running', engineSpeed: 157, sinceStart: 300 };

it('[rival] a healthy boat charges with either machine, not with the same amps', () => {
  const boat = boatAt(boatFromTemplate('one-battery', { excitation: 'ignition' }));
  const [main, rival] = [{}, { alternator: 'rival' } as const].map((models) =>
    new Operator(boat, models).at({ ...fast, loads: 'test', testLoad: 200 }),
  );
  const amps = [main, rival].map((point) => point?.alternators[0]?.output ?? NaN);
  expect(amps[0]).toBeGreaterThan(20);
  expect(Math.abs(amps[1]! / amps[0]! - 1)).toBeGreaterThan(0.005);
  expect(Math.abs(amps[1]! / amps[0]! - 1)).toBeLessThan(0.25);
});

it('[law] rival boats: node currents and powers balance, and no machine takes current', () => {
  for (const { name, description, conditions, boats } of randomFleets(5, 91)) {
    const operator = new Operator(boatAt(description), RIVAL);
    const { circuit, solution } = operator.plant;
    boats.forEach(({ name: fault, boat }, b) => {
      operator.set(boat);
      for (let k = 0; k < 3; k++) {
        const point = operator.at(conditions[(5 * b + 4 * k + 1) % conditions.length]!);
        const where = `${name}, ${fault}, ${point.condition.engine}`;
        expect(point.converged, where).toBe(true);
        const sums = nodeCurrentSums(circuit, solution);
        // The solver's own tolerance is 1e-7 A and 1e-9 of the largest current.
        sums.forEach((sum, node) => {
          if (node > 0) expect(Math.abs(sum), where).toBeLessThan(2e-6);
        });
        const power = elementPowers(circuit, solution).reduce(
          (total, one) => total + one,
          leakPower(solution),
        );
        expect(Math.abs(power), where).toBeLessThan(1e-4); // 2e-6 A at 15 V, some nodes
        for (const { output } of point.alternators) expect(output, where).toBeGreaterThanOrEqual(0);
      }
    });
  }
});

it(
  '[rival] ngspice finds the same points with the tabulated machine, for 72 boats',
  { timeout: 120_000 },
  () => {
    const exported = randomFleets(3, 8200).flatMap(({ name, description, conditions, boats }) => {
      const operator = new Operator(boatAt(description), RIVAL);
      return boats.map(({ name: fault, boat }, b) => {
        const running = conditions.filter(({ engine }) => engine === 'running');
        const condition = running[b % running.length]!;
        return exportedPoint(operator, boat, condition, `${name}, ${fault}, ${condition.sinceStart} s`);
      });
    });
    expect(exported.length).toBe(72);
    expectSameAsNgspice(exported);
  },
);
