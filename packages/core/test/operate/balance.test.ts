/** Balances of every solution: currents and powers of the circuit, heat of the machines, and what happens when there is none. */
import { expect, test } from 'vitest';
import { boatAt, boatFromTemplate, cloneBoat, templateIds } from '../../src/boat/index.ts';
import { elementPowers, leakPower, nodeCurrentSums, terminalCurrents } from '../../src/circuit/index.ts';
import { asFound, engineLoads, Operator, type Condition, type Models } from '../../src/operate/index.ts';
import { alternatorFlux, copperRatio } from '../../src/physics/index.ts';
import { randomFleets } from './random-boat.ts';

const fast: Condition = { ...asFound, engine: 'running', engineSpeed: 157, sinceStart: 300 };
const models: readonly Models[] = [{}, { battery: 'rival', alternator: 'rival' }];

test.each(models)('[law] every solution: currents, powers and heat balance, %o', (chosen) => {
  let solutions = 0;
  for (const { name, description, conditions, boats } of randomFleets(4, 313)) {
    const operator = new Operator(boatAt(description), chosen);
    const { circuit, solution, alternators } = operator.plant;
    for (const { name: fault, boat } of boats) {
      operator.set(boat);
      for (const condition of conditions) {
        const point = operator.at(condition);
        const where = `${name}, ${fault}, ${condition.engine} ${condition.sinceStart} s`;
        expect(point.converged, where).toBe(true);
        solutions++;
        // The solver's own tolerance is 1e-7 A and 1e-9 of the largest current; 2e-6 A at 15 V, some nodes.
        nodeCurrentSums(circuit, solution).forEach((sum, node) => {
          if (node > 0) expect(Math.abs(sum), where).toBeLessThan(2e-6);
        });
        const powers = elementPowers(circuit, solution);
        const power = powers.reduce((total, one) => total + one, leakPower(solution));
        expect(Math.abs(power), where).toBeLessThan(1e-4);
        // No cable, joint, switch or load gives power.
        circuit.elements.forEach((element, e) => {
          if (circuit.wires.resistors.includes(element as never))
            expect(powers[e], element.name).toBeGreaterThanOrEqual(0);
        });
        for (const unit of alternators) {
          const machine = point.alternators[unit.index]!;
          const losses = operator.lossesOf(unit.index);
          // The element takes field power and gives the output: shaft + what it takes = all losses, part by part.
          const taken = powers[circuit.elements.indexOf(unit.element)]!;
          const parts =
            losses.statorCopper + losses.bridge + losses.field + losses.iron + losses.windage + losses.fault;
          if (machine.speed <= 1) continue;
          const scale = 1 + machine.shaftPower;
          expect(Math.abs(losses.shaftPower + taken - parts) / scale, where).toBeLessThan(1e-9);
          expect(Math.abs(losses.torque * machine.speed - losses.shaftPower) / scale, where).toBeLessThan(
            1e-9,
          );
          // A field held below the brushes' drop takes 1e-23 W the wrong way, in the tail of their smooth corner.
          for (const part of ['statorCopper', 'bridge', 'field', 'iron', 'windage', 'fault'] as const)
            expect(losses[part], `${part}: ${where}`).toBeGreaterThanOrEqual(-1e-12);
          expect(losses.heat, where).toBeLessThanOrEqual(parts * (1 + 1e-12));
        }
      }
    }
  }
  expect(solutions).toBeGreaterThan(1000);
});

test('[law] what crosses the air gap of a healthy machine is output, bridge and stator copper', () => {
  let compared = 0;
  for (const { description, conditions, boats } of randomFleets(3, 77)) {
    const operator = new Operator(boatAt(description));
    const { circuit, solution, alternators } = operator.plant;
    for (const { boat } of boats) {
      operator.set(boat);
      for (const condition of conditions) {
        operator.at(condition);
        for (const unit of alternators) {
          const { machine, speed, temperature, share } = unit.machine;
          const at = circuit.terminalOffsets[circuit.elements.indexOf(unit.element)]!;
          const currents = terminalCurrents(circuit, solution);
          const output = -currents[at]!;
          if (share < 1 || output < 5) continue;
          compared++;
          // From the electromotive force alone: P = 3/2 · V_s · I · cos φ, sin φ = ω L_s I / V_s.
          const electrical = machine.polePairs * speed;
          const source = electrical * alternatorFlux(machine, currents[at + 2]!);
          const amplitude = (Math.PI / 3) * output;
          const sine = (electrical * machine.synchronousInductance * amplitude) / source;
          const gap = 1.5 * source * amplitude * Math.sqrt(1 - sine * sine);
          const voltage = solution.voltages[unit.stud]! - solution.voltages[unit.frame]!;
          const copper = 1.5 * machine.statorResistance20 * copperRatio(temperature) * amplitude * amplitude;
          const taken = (voltage + 2 * machine.diodeDrop) * output + copper;
          // The smooth corners of the closed form are 0.05 V of some 10 V soft near cut-in.
          expect(Math.abs(gap / taken - 1)).toBeLessThan(0.005);
        }
      }
    }
  }
  expect(compared).toBeGreaterThan(300);
});

test('[limit] a hostile boat is solved, or says that it is not and by how much; never a wrong number', () => {
  const hostile: readonly ((boat: ReturnType<typeof boatAt>) => void)[] = [
    (boat) => boat.conductors.forEach((cable) => (cable.resistance = 0)),
    (boat) => boat.conductors.forEach((cable) => (cable.joints = Infinity)),
    (boat) => boat.conductors.forEach((cable) => (cable.joints = NaN)),
    (boat) => boat.conductors.forEach((cable) => (cable.leakage = 0)),
    (boat) => boat.regulators.forEach((regulator) => (regulator.gain = 1e6)),
    (boat) => boat.regulators.forEach((regulator) => (regulator.setpoint = -50)),
    (boat) => boat.regulators.forEach((regulator) => (regulator.setpoint = 500)),
    (boat) => boat.batteries.forEach((battery) => (battery.resistanceFactor = 1e9)),
    (boat) => boat.batteries.forEach((battery) => (battery.stateOfCharge = 0)),
    (boat) => boat.batteries.forEach((battery) => (battery.surfaceVoltage = 400)),
    (boat) => boat.alternators.forEach((machine) => (machine.pulleyRatio = 1e4)),
    (boat) => boat.alternators.forEach((machine) => (machine.fieldResistance = 1e-3)),
    (boat) => boat.loads.forEach((load) => (load.current = 1e6)),
  ];
  const kinds = { solved: 0, unsolved: 0 };
  for (const template of templateIds) {
    for (const [k, spoil] of hostile.entries()) {
      const boat = cloneBoat(boatAt(boatFromTemplate(template)));
      const operator = new Operator(boat);
      spoil(boat);
      operator.set(boat);
      const point = operator.at(fast);
      const { circuit, solution } = operator.plant;
      if (point.converged) {
        kinds.solved++;
        const currents = terminalCurrents(circuit, solution);
        const largest = currents.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
        const worst = nodeCurrentSums(circuit, solution)
          .subarray(1)
          .reduce((most, one) => Math.max(most, Math.abs(one)), 0);
        // Tolerance of the solver with the rounding of some dozen terms of the largest current.
        expect(worst, `${template} ${k}`).toBeLessThan(2e-6 + 1e-8 * largest);
      } else {
        kinds.unsolved++;
        expect(solution.kind, `${template} ${k}`).toBe('did-not-converge');
        // Stated, and too large for a solution; infinite or not a number where nothing could be evaluated.
        expect(point.residual < 1e-7, `${template} ${k}: ${point.residual}`).toBe(false);
      }
    }
  }
  expect(kinds.solved).toBeGreaterThan(0);
  expect(kinds.unsolved).toBeGreaterThan(0);
});

test('[limit] fields fed by hand past regulators that stand in their band', () => {
  // Taken off, a regulator must leave nothing in the Jacobian: with its slope there Newton's error grew elevenfold a step.
  const fleets = randomFleets(4, 1).filter(({ name }) => name.startsWith('two-alternators'));
  for (const { description, conditions, boats } of fleets) {
    const operator = new Operator(boatAt(description));
    for (const { name, boat } of boats) {
      operator.set(boat);
      for (const condition of conditions.filter(({ field }) => field === 'full'))
        expect(operator.at(condition).converged, name).toBe(true);
    }
  }
  expect(fleets.length).toBe(4);
});

test('[limit] a ground fault on the charge cable takes current from the bank to the hull, by Ohm', () => {
  const boat = cloneBoat(boatAt(boatFromTemplate('one-battery')));
  const operator = new Operator(boat);
  const quiet = { ...asFound, loads: 'off' } as const;
  operator.set(boat);
  const before = operator.at(quiet).batteries[0]!.current;
  expect(Math.abs(before)).toBeLessThan(0.01);
  boat.conductors.find(({ id }) => id === 'charge-cable')!.leakage = 5;
  operator.set(boat);
  const { batteries } = operator.at(quiet);
  // 12.3 V over 5 Ω; cables and joints are some milliohms.
  expect(Math.abs(-batteries[0]!.current / (batteries[0]!.voltage / 5) - 1)).toBeLessThan(0.01);
});

test('[TM 10-3930-671-24 F-276] a shorted diode feeds the field at rest, and only where field diodes are', () => {
  const drain = (excitation: 'lamp' | 'ignition', fieldDiodes: 'good' | 'open' = 'good'): number => {
    const boat = cloneBoat(boatAt(boatFromTemplate('one-battery', { excitation })));
    boat.alternators[0]!.windingFault = 'diode-shorted';
    boat.alternators[0]!.fieldDiodes = fieldDiodes;
    const operator = new Operator(boat);
    return -operator.at({ ...asFound, loads: 'off' }).batteries[0]!.current;
  };
  // Some 12 V less diode and brushes over 3 Ω of winding: 3.3 to 3.8 A.
  expect(drain('lamp')).toBeGreaterThan(3);
  expect(drain('lamp')).toBeLessThan(4.2);
  expect(drain('lamp', 'open')).toBeLessThan(0.01);
  expect(drain('ignition')).toBeLessThan(0.01);
});

test('[common practice] the engine note drops when the alternator takes its load, and the belt of a slipping one heats', () => {
  const boat = cloneBoat(boatAt(boatFromTemplate('one-battery', { excitation: 'ignition' })));
  const operator = new Operator(boat);
  const [load] = engineLoads(boat, operator.at({ ...fast, loads: 'test', testLoad: 60 }));
  const [idle] = engineLoads(boat, operator.at({ ...fast, sinceStart: 0.5 }));
  expect(load!.power).toBeGreaterThan(500);
  // A 22 kW engine at 1500 of 3200 min⁻¹ gives some 10 kW; a kilowatt is a tenth of it, and a few turns of the note.
  expect(load!.shareOfPower).toBeGreaterThan(0.05);
  expect(load!.shareOfPower).toBeLessThan(0.25);
  expect(load!.speedDrop).toBeGreaterThan(3 * idle!.speedDrop);
  boat.belts[0]!.grip = 0.3;
  operator.set(boat);
  const [slipping] = operator.at({ ...fast, loads: 'test', testLoad: 60 }).alternators;
  expect(slipping!.slip).toBeGreaterThan(0.05);
  expect(slipping!.beltHeat).toBeGreaterThan(20);
  // Torque times the speed lost.
  const lost = (slipping!.speed / (1 - slipping!.slip)) * slipping!.slip;
  expect(Math.abs(slipping!.beltHeat / (slipping!.torque * lost) - 1)).toBeLessThan(1e-9);
});

test('[limit] a regulator that is too warm itself drives the field less', () => {
  const boat = cloneBoat(boatAt(boatFromTemplate('one-battery', { regulatorPlace: 'outside' })));
  const operator = new Operator(boat);
  const heavy = { ...fast, sinceStart: 3600, loads: 'test', testLoad: 80 } as const;
  const free = operator.at(heavy).alternators[0]!.duty;
  boat.regulators[0]!.ownTemperatureLimit = 313.15;
  operator.set(boat);
  const held = operator.at(heavy).alternators[0]!.duty;
  expect(free).toBeGreaterThan(0.5);
  expect(held).toBeLessThan(0.5 * free);
});
