/** A sound boat against the limits by which service manuals find a bad one. */
import { describe, expect, it } from 'vitest';

import { boatAt, boatFromTemplate, cloneBoat, templateIds } from '../../src/boat/index.ts';
import { asFound, Operator } from '../../src/operate/index.ts';

const fast = { ...asFound, engine: 'running', engineSpeed: 157, sinceStart: 300, loads: 'off' } as const;

// The manuals know no isolator: its drop is its own.
describe.each(templateIds.filter((id) => id !== 'diode-isolator'))('%s', (template) => {
  it('[NAVED 14273; TM 10-3930-671-24] at 20 A the way loses at most 0.7 V and a joint 0.1 V; at 10 A both ways 0.3 V', () => {
    const boat = boatAt(boatFromTemplate(template, { excitation: 'ignition' }));
    for (const battery of boat.batteries) battery.stateOfCharge = 0.5;
    const operator = new Operator(boat);
    const { alternators, voltages, converged } = operator.at(fast);
    expect(converged).toBe(true);
    const volts = (node: number): number => voltages[node] ?? NaN;
    for (const { stud, frame, index } of operator.plant.alternators) {
      const output = alternators[index]?.output ?? NaN;
      // Resistances: what is lost at one current tells it at another. More than 20 A, so that it is lost at all.
      expect(output).toBeGreaterThan(20);
      for (const { plus, minus } of operator.plant.batteries) {
        const out = (volts(stud) - volts(plus)) / output;
        const back = (volts(minus) - volts(frame)) / output;
        expect(20 * out).toBeLessThan(0.7);
        expect(10 * (out + back)).toBeLessThan(0.3);
        expect(out).toBeGreaterThan(0);
      }
    }
    // Both ends of each lead that carries the charge (10 mm² and up) together.
    const heavy = boat.conductors.filter(({ area }) => area > 9e-6);
    expect(heavy.length).toBeGreaterThan(4);
    for (const { joints, id } of heavy) expect(20 * joints, id).toBeLessThan(0.1);
  });
});

it('[TM 10-3930-671-24 F-276] engine off, the output stud reads the battery and the field tap 0 V; a shorted diode makes it live', () => {
  const tapAndStud = (fault: 'none' | 'diode-shorted'): [tap: number, stud: number] => {
    const boat = cloneBoat(boatAt(boatFromTemplate('one-battery', { excitation: 'lamp' })));
    boat.alternators[0]!.windingFault = fault;
    const operator = new Operator(boat);
    const { voltages } = operator.at({ ...asFound, loads: 'off' });
    const at = (terminal: string): number => voltages[operator.plant.nodeOf(terminal)!]!;
    return [at('alternator.D+') - at('alternator.case'), at('alternator.B+') - at('alternator.case')];
  };
  const [tap, stud] = tapAndStud('none');
  // A meter of 10 mV reads that as 0.00.
  expect(Math.abs(tap)).toBeLessThan(0.005);
  expect(stud).toBeGreaterThan(12.0);
  expect(stud).toBeLessThan(12.6);
  // All but a diode's drop of the battery.
  expect(tapAndStud('diode-shorted')[0]).toBeGreaterThan(10);
});
