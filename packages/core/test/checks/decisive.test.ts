/** Checks that settle a question: a machine under its full load, a bank once filled, the gauge against a meter. */
import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, cloneBoat } from '../../src/boat/index.ts';
import { placedChecks } from '../../src/checks/index.ts';
import { placedFaults } from '../../src/faults/index.ts';
import { Operator, readProbe } from '../../src/operate/index.ts';

const description = boatFromTemplate('one-battery', {
  alternatorCurrent: { value: 70, origin: 'nameplate' },
  bankCapacity: { value: 200 * 3600, origin: 'nameplate' },
});
const checks = placedChecks(description);
const faults = placedFaults(description);

/** What a check reads on the median boat at a charge, with a fault or none. */
function reads(id: string, fault?: string, severity = 0.5, charge = 0.7): number {
  const boat = cloneBoat(boatAt(description));
  for (const battery of boat.batteries) battery.stateOfCharge = charge;
  const placed = faults.find((one) => one.fault.id === fault);
  if (fault !== undefined && placed === undefined) throw new Error(`no fault ${fault}`);
  placed?.fault.apply(boat, placed.part, severity);
  const operator = new Operator(boat);
  const check = checks.find((one) => one.text.id === id);
  if (check?.outcome.kind !== 'number') throw new Error(`no number ${id}`);
  return readProbe(operator, boat, operator.at(check.condition), check.outcome.probe);
}

describe('a machine under its full load', () => {
  it('[common practice] a sound alternator gives most of its rating at 1500 rpm, however full the bank', () => {
    for (const charge of [0.3, 0.7, 0.97]) {
      const amps = reads('output-amps', undefined, 0, charge);
      expect(amps).toBeGreaterThan(0.7 * 70);
      expect(amps).toBeLessThan(1.1 * 70);
    }
    expect(reads('alternator-amps-fast', undefined, 0, 0.97)).toBeLessThan(0.5 * 70);
  });

  it('[common practice] a belt that slips shows it under load, and hides on a full bank', () => {
    expect(reads('belt-slip', 'belt-slipping', 0.3, 0.97)).toBeLessThan(0.03);
    expect(reads('belt-slip-loaded', 'belt-slipping', 0.3, 0.97)).toBeGreaterThan(0.1);
  });

  it('[common practice] an open diode costs a good part of the output', () => {
    const lost = 1 - reads('output-amps', 'diode-open') / reads('output-amps');
    expect(lost).toBeGreaterThan(0.15);
  });
});

describe('a bank once it is filled', () => {
  it('[common practice] after a night of rest a full flooded bank reads 12.6 to 12.9 V', () => {
    const volts = reads('filled-rest-volts', undefined, 0, 0.2);
    expect(volts).toBeGreaterThan(12.6);
    expect(volts).toBeLessThan(12.9);
  });

  it('[law] how it was found makes no difference', () => {
    for (const id of ['filled-rest-volts', 'filled-load-test', 'filled-discharge', 'filled-volts-fast'])
      expect(reads(id, undefined, 0, 0.15)).toBeCloseTo(reads(id, undefined, 0, 0.9), 6);
  });

  it('[common practice] a shorted cell keeps it two volts low', () => {
    expect(reads('filled-rest-volts') - reads('filled-rest-volts', 'battery-cell-shorted')).toBeGreaterThan(
      1.9,
    );
  });

  it('[common practice] half of the label taken leaves a sound bank above 11 V and ends a worn one at 10.5 V', () => {
    expect(reads('filled-discharge')).toBeGreaterThan(11);
    expect(reads('filled-discharge', 'battery-capacity-lost')).toBeCloseTo(10.5, 9);
  });

  it('[common practice] on the engine the regulator alone says how high it goes', () => {
    const sound = reads('filled-volts-fast');
    expect(sound).toBeGreaterThan(13.8);
    expect(sound).toBeLessThan(14.6);
    expect(reads('filled-volts-fast', 'internal-regulator-stuck-full')).toBeGreaterThan(15);
  });
});

describe('the gauge against a meter on its terminals', () => {
  it('[law] shows the error of the gauge and nothing else', () => {
    expect(reads('gauge-against-meter', 'charge-cable-resistive')).toBe(0);
    const boat = boatAt(description);
    const [gauge] = boat.gauges;
    if (gauge === undefined) throw new Error('no gauge');
    gauge.error = -0.8;
    const operator = new Operator(boat);
    const check = checks.find(({ text }) => text.id === 'gauge-against-meter');
    if (check === undefined) throw new Error('no check');
    expect(
      readProbe(operator, boat, operator.at(check.condition), { kind: 'gauge-error', gauge: gauge.id }),
    ).toBe(-0.8);
  });
});
