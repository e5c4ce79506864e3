import { describe, expect, it } from 'vitest';
import {
  boatAt,
  boatFromTemplate,
  cloneBoat,
  templateIds,
  type Boat,
  type BoatDescription,
  type TemplateId,
  type TenFacts,
} from '../../src/boat/index.ts';
import { faultById, faultCatalogue, placedFaults } from '../../src/faults/index.ts';
import { asFound, Operator, type Condition, type OperatingPoint } from '../../src/operate/index.ts';

const RPM = (2 * Math.PI) / 60;
const running = (rpm: number, sinceStart = 120): Condition => ({
  ...asFound,
  engine: 'running',
  engineSpeed: rpm * RPM,
  sinceStart,
});

const withCharger = (description: BoatDescription): BoatDescription => ({
  ...description,
  parts: [
    ...description.parts,
    { id: 'charger', kind: 'source', quantities: {}, choices: {} },
    { id: 'charger-plus', kind: 'cable', from: 'charger.+', to: 'battery.+', quantities: {}, choices: {} },
    { id: 'charger-minus', kind: 'cable', from: 'charger.-', to: 'battery.-', quantities: {}, choices: {} },
  ],
});

const descriptions: readonly { name: string; description: BoatDescription }[] = [
  ...templateIds.flatMap((template) =>
    (['inside', 'outside'] as const).map((regulatorPlace) => ({
      name: `${template}, regulator ${regulatorPlace}`,
      description: boatFromTemplate(template, { regulatorPlace }),
    })),
  ),
  {
    name: 'one-battery, lithium',
    description: boatFromTemplate('one-battery', { bankChemistry: 'lifepo4' }),
  },
  {
    name: 'one-battery, no excitation',
    description: boatFromTemplate('one-battery', { excitation: 'none' }),
  },
  { name: 'one-battery, 24 V', description: boatFromTemplate('one-battery', { nominalVoltage: 24 }) },
  { name: 'one-battery, charger', description: withCharger(boatFromTemplate('one-battery')) },
];

function changed(boat: Boat, id: string, part: string, severity: number): Boat {
  const copy = cloneBoat(boat);
  faultById(id).apply(copy, part, severity);
  return copy;
}

/** A template's median boat, and the same with a fault, at work. */
function compare(
  template: TemplateId,
  facts: TenFacts,
  fault: string,
  part: string,
  severity: number,
  condition = running(1500),
): { well: OperatingPoint; faulty: OperatingPoint } {
  const boat = boatAt(boatFromTemplate(template, facts));
  const operator = new Operator(boat);
  const well = operator.at(condition);
  operator.set(changed(boat, fault, part, severity));
  return { well, faulty: operator.at(condition) };
}

const intoBank = (point: OperatingPoint, bank: string): number =>
  point.batteries.find(({ id }) => id === bank)?.current ?? NaN;

describe('what a fault does to a boat', () => {
  it('[rule] every fault can be placed on some boat and changes its median, the original staying as it was', () => {
    const left = new Set(faultCatalogue.map(({ id }) => id));
    for (const { description } of descriptions) {
      const boat = boatAt(description);
      const kept = structuredClone(boat);
      for (const { id, fault, part } of placedFaults(description)) {
        for (const severity of [0, 1]) expect(changed(boat, fault.id, part, severity), id).not.toEqual(kept);
        left.delete(fault.id);
      }
      expect(boat).toEqual(kept);
    }
    expect([...left]).toEqual([]);
  });

  it.each(descriptions)(
    '[law] $name: every fault at both ends of its spread has an operating point',
    ({ description }) => {
      const boat = boatAt(description);
      const operator = new Operator(boat);
      const lost: string[] = [];
      for (const { id, fault, part } of placedFaults(description)) {
        for (const severity of [0, 1]) {
          operator.set(changed(boat, fault.id, part, severity));
          for (const condition of [asFound, running(800, 30), running(1500, 600)]) {
            const { converged, engineSpeed } = operator.at(condition);
            if (!converged) lost.push(`${id}, severity ${severity}, ${engineSpeed.toFixed(0)} rad/s`);
          }
        }
      }
      expect(lost).toEqual([]);
    },
  );

  it('[rule] a part that the boat has not is named', () => {
    const boat = boatAt(boatFromTemplate('one-battery'));
    expect(() => changed(boat, 'belt-broken', 'sail', 0.5)).toThrow(/"sail".*belt/);
  });

  it('[NAVED 14273] nine in ten bad joints lose more than the 0.1 V allowed at 20 A', () => {
    const boat = boatAt(boatFromTemplate('one-battery'));
    const joint = (severity: number) =>
      (changed(boat, 'charge-cable-resistive', 'charge-cable', severity).conductors.find(
        (c) => c.id === 'charge-cable',
      )?.joints ?? 0) * 20;
    expect(joint(0.1)).toBeGreaterThan(0.1);
    expect(joint(1)).toBeLessThan(2); // beyond that a joint burns: common practice
  });

  it.each([
    ['charge-cable-resistive', 'charge-cable', {}],
    ['return-resistive', 'return-cable', {}],
    ['belt-slipping', 'belt', {}],
    ['field-lead-resistive', 'field-lead', { regulatorPlace: 'outside' }],
    ['regulator-setpoint-low', 'regulator', { regulatorPlace: 'outside' }],
  ] as const)('[law] the worse %s, the less arrives', (fault, part, facts) => {
    const amps = [0, 0.25, 0.5, 0.75, 1].map((severity) =>
      intoBank(compare('one-battery', facts, fault, part, severity).faulty, 'battery'),
    );
    // 1 mA: the solver's own error.
    for (let i = 1; i < amps.length; i++) expect(amps[i]).toBeLessThanOrEqual((amps[i - 1] ?? NaN) + 1e-3);
    expect(amps.at(-1)).toBeLessThan((amps[0] ?? NaN) / 2);
  });

  it.each([
    ['one-battery', {}, 'main-fuse-open', 'main-fuse', 'battery'],
    ['one-battery', {}, 'charge-cable-open', 'charge-cable', 'battery'],
    ['selector-switch', {}, 'switch-off', 'switch', 'house'],
    ['selector-switch', {}, 'switch-wrong-bank', 'switch', 'house'],
    ['selector-switch', { bankChemistry: 'lifepo4' }, 'protection-open', 'house', 'house'],
    ['combining-relay', {}, 'relay-never-closes', 'relay', 'house'],
    ['diode-isolator', {}, 'isolator-leg-open', 'isolator', 'house'],
  ] as const)('[law] %s %o: nothing arrives with %s', (template, facts, fault, part, bank) => {
    const { well, faulty } = compare(template, facts, fault, part, 0.5);
    expect(intoBank(well, bank)).toBeGreaterThan(5);
    expect(intoBank(faulty, bank)).toBeLessThan(0.1); // loads may still draw on it
  });

  it.each([
    ['brushes-worn', 'alternator', {}],
    ['rotor-open', 'alternator', {}],
    ['field-diodes-open', 'alternator', {}],
    ['internal-regulator-dead', 'regulator', {}],
    ['belt-broken', 'belt', {}],
    ['regulator-dead', 'regulator', { regulatorPlace: 'outside' }],
    ['field-lead-open', 'field-lead', { regulatorPlace: 'outside' }],
    ['enable-lead-open', 'enable-lead', { regulatorPlace: 'outside' }],
    ['supply-lead-open', 'regulator-supply', { regulatorPlace: 'outside' }],
    ['regulator-start-delay', 'regulator', { regulatorPlace: 'outside' }],
  ] as const)('[common practice] the machine gives next to nothing with %s', (fault, part, facts) => {
    const { well, faulty } = compare('one-battery', facts, fault, part, 1, running(1500, 90));
    expect(well.alternators[0]?.output).toBeGreaterThan(30);
    expect(faulty.alternators[0]?.output).toBeLessThan(1); // residual magnetism
  });

  it('[common practice] a blown charge lamp keeps the machine asleep until it is revved', () => {
    const facts = {};
    const part = 'lamp';
    const idle = running(800);
    expect(
      compare('one-battery', facts, 'charge-lamp-blown', part, 0.5, idle).faulty.alternators[0]?.output,
    ).toBeLessThan(1);
    const revved = compare('one-battery', facts, 'charge-lamp-blown', part, 0.5, { ...idle, revved: true });
    expect(revved.faulty.alternators[0]?.output).toBeGreaterThan(10);
    const misleads = compare('one-battery', facts, 'charge-lamp-misleads', part, 0, idle);
    expect(misleads.faulty.alternators[0]?.output).toBeGreaterThan(10);
  });

  it('[textbook, from memory] the charge lamp: lit with the key, out while charging, lit without output, dim on lost volts', () => {
    const boat = boatAt(boatFromTemplate('one-battery', { excitation: 'lamp' }));
    const operator = new Operator(boat);
    const glow = (condition: Condition): number => operator.at(condition).lamps[0]?.glow ?? NaN;
    expect(glow({ ...asFound, engine: 'key-on' })).toBeGreaterThan(0.8);
    expect(glow(running(1500))).toBeLessThan(0.05);
    for (const [fault, part] of [
      ['belt-broken', 'belt'],
      ['field-diodes-open', 'alternator'],
    ] as const) {
      operator.set(changed(boat, fault, part, 0.5));
      expect(glow(running(1500)), fault).toBeGreaterThan(0.8);
    }
    // A cable that loses 1.5 V or more at the stud leaves that much on the lamp, the other way round.
    for (const [fault, part] of [
      ['charge-cable-resistive', 'charge-cable'],
      ['charge-cable-open', 'charge-cable'],
    ] as const) {
      operator.set(changed(boat, fault, part, 1));
      expect(glow(running(1500)), fault).toBeGreaterThan(0.1);
      expect(glow(running(1500)), fault).toBeLessThan(0.3);
    }
  });

  it('[NAVED 14050] a stuck regulator takes a full 12 V bank above 16 V', () => {
    const boat = boatAt(boatFromTemplate('one-battery', { regulatorPlace: 'outside' }));
    for (const battery of boat.batteries) battery.stateOfCharge = 1;
    const operator = new Operator(boat);
    const volts = () => operator.at(running(1500)).batteries[0]?.voltage ?? NaN;
    expect(volts()).toBeLessThan(15);
    operator.set(changed(boat, 'regulator-stuck-full', 'regulator', 0.5));
    expect(volts()).toBeGreaterThan(16);
  });

  it('[common practice] a boat that idles too slowly charges at cruising speed', () => {
    const at = (rpm: number) =>
      intoBank(
        compare('one-battery', {}, 'idle-too-slow', 'alternator', 0.8, running(rpm)).faulty,
        'battery',
      );
    expect(at(800)).toBeLessThan(0);
    expect(at(2000)).toBeGreaterThan(20);
  });

  it('[common practice] another source at work lets the alternator rest', () => {
    const boat = boatAt(withCharger(boatFromTemplate('one-battery')));
    const operator = new Operator(changed(boat, 'other-source-hides', 'charger', 0.5));
    const both = operator.at({ ...running(1500), otherSources: 'as-found' });
    const alone = operator.at({ ...running(1500), otherSources: 'off' });
    expect(both.alternators[0]?.output).toBeLessThan((alone.alternators[0]?.output ?? NaN) / 2);
  });

  it('[common practice] a stuck regulator or a lost sense lead overcharges a full bank', () => {
    const boat = boatAt(boatFromTemplate('one-battery', { regulatorPlace: 'outside' }));
    for (const battery of boat.batteries) battery.stateOfCharge = 0.95;
    const operator = new Operator(boat);
    const volts = () => operator.at(running(2000)).batteries[0]?.voltage ?? NaN;
    const well = volts();
    for (const [fault, part] of [
      ['regulator-stuck-full', 'regulator'],
      ['sense-lead-open', 'sense-lead'],
      ['sense-lead-resistive', 'sense-lead'],
      ['regulator-setpoint-high', 'regulator'],
    ] as const) {
      operator.set(changed(boat, fault, part, 0));
      expect(volts(), fault).toBeGreaterThan(well + 0.25);
    }
  });

  it('[rule] only what comes and goes is present on some starts and not on others', () => {
    for (const { description } of descriptions) {
      const boat = boatAt(description);
      for (const { fault, part } of placedFaults(description)) {
        const { presence } = changed(boat, fault.id, part, 0.5).traits;
        expect(presence < 1, fault.id).toBe(fault.id.endsWith('-intermittent'));
      }
    }
  });
});
