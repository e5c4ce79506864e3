import { describe, expect, it } from 'vitest';
import { boatFromTemplate, type BoatDescription } from '../../src/boat/index.ts';
import { placedChecks } from '../../src/checks/index.ts';
import type { Suspect, Verdict } from '../../src/diagnosis/index.ts';
import { faultCatalogue, placedFaults, remedyPrice } from '../../src/faults/index.ts';
import {
  chargingHours,
  hoursByHand,
  remedyFor,
  repairedDescription,
  sparesFor,
} from '../../src/remedy/index.ts';

const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'measured' }) as const;

const boat: BoatDescription = boatFromTemplate('selector-switch', {
  alternatorCurrent: told(120),
  cableLength: told(4),
  bankCapacity: told(400 * HOUR),
  bankChemistry: 'agm',
  beltSection: 'ribbed-6',
  loadsCurrent: told(8),
});

/** A verdict that believes in one suspect so far. Invented. */
function believing(description: BoatDescription, fault: string, probability: number): Verdict {
  const placed = placedFaults(description).find((one) => one.fault.id === fault);
  if (placed === undefined) throw new RangeError(`no place for ${fault}`);
  const suspect: Suspect = {
    id: placed.id,
    fault,
    part: placed.part,
    family: placed.fault.family,
    nature: placed.fault.nature,
    question: placed.fault.question,
    words: placed.fault.words,
    ownerWords: placed.fault.ownerWords,
    probability,
    error: 0,
    prior: placed.prior,
    why: [],
  };
  return {
    wrong: placed.fault.nature === 'fault' ? probability : 1 - probability,
    answers: [],
    suspects: [suspect],
    nothingFits: 0,
    cleared: [],
    readings: [],
    next: [],
    conclusion: { kind: 'decided', suspect: suspect.id },
    amps: [],
    assumed: [],
    reliability: { draws: 0, operatingPoints: 0, notConverged: 0, effectiveDraws: 0, error: 0 },
  } as unknown as Verdict;
}

const withSolar = (description: BoatDescription): BoatDescription => ({
  ...description,
  parts: [
    ...description.parts,
    { id: 'solar', kind: 'source', quantities: {}, choices: {} },
    { id: 'solar-feed', kind: 'cable', from: 'solar.+', to: 'battery.+', quantities: {}, choices: {} },
    { id: 'solar-return', kind: 'cable', from: 'solar.-', to: 'battery.-', quantities: {}, choices: {} },
  ],
});

describe('remedy', () => {
  it('[law] every fault and normal state has work to do, in the order: safe first, and proof that the boat allows', () => {
    const boats = [
      boat,
      ...(['combining-relay', 'diode-isolator', 'two-alternators'] as const).map((template) =>
        boatFromTemplate(template),
      ),
      boatFromTemplate('one-battery', { bankChemistry: 'lifepo4', excitation: 'ignition' }),
      boatFromTemplate('one-battery', { excitation: 'none' }),
      withSolar(boatFromTemplate('one-battery')),
    ];
    const without = new Set(faultCatalogue.map(({ id }) => id));
    for (const description of boats) {
      const ids = new Set(placedChecks(description).map(({ id }) => id));
      for (const fault of new Set(placedFaults(description).map((one) => one.fault.id))) {
        without.delete(fault);
        const remedy = remedyFor(description, believing(description, fault, 0.95));
        expect(remedy.work.length, fault).toBeGreaterThan(0);
        expect(
          remedy.work.slice(1).every(({ act }) => act !== 'make-safe'),
          fault,
        ).toBe(true);
        expect(remedy.proof.length, fault).toBeGreaterThan(0);
        for (const { check } of remedy.proof) expect(ids.has(check), `${fault}: ${check}`).toBe(true);
        for (const { checks } of remedy.behind)
          for (const { check } of checks) expect(ids.has(check), `${fault}: ${check}`).toBe(true);
      }
    }
    expect([...without]).toEqual([]);
  });

  it('[law] a cable that was never changed: size for the whole output, its clause, the fuse for it, and what it costs', () => {
    const verdict = believing(boat, 'charge-cable-undersized', 0.95);
    const remedy = remedyFor(boat, verdict);
    const [cable, fuse] = ['charge-cable', 'fuse'].map((key) =>
      remedy.parts.find((part) => part.key === key)!,
    );
    // 8 m round trip, 120 A, 0.36 V: CM = 10.75 · 120 · 26.25 / 0.36 = 94 060 cmil, so 1/0 AWG (105 600), 50 mm² (98 700).
    expect(cable!.sizing[0]!.citation).toMatchObject({ source: 'E11', clause: '11.14.2.6' });
    expect(cable!.sizing[0]!.value * 1e6).toBeCloseTo(94_060 * 5.067075e-4, 0);
    // With the copper hot one size more is asked for.
    expect(cable!.size).toMatch(/^70 mm² or 2\/0 AWG$/);
    expect(fuse!.size).toMatch(/A, for 70 mm²/);
    const alone = remedyPrice(faultCatalogue.find(({ id }) => id === 'charge-cable-undersized')!);
    expect(remedy.cost!.high).toBeGreaterThan(alone.high);
    expect(remedy.work[0]!.act).toBe('make-safe');
    // The old cable's drop is no measure of the new one.
    const repaired = repairedDescription(boat, verdict.suspects[0]);
    const size = repaired.parts.find(({ id }) => id === 'charge-cable')!.quantities as {
      area?: { value: number };
    };
    expect(size.area!.value).toBeCloseTo(70e-6, 9);
    expect(repairedDescription(boat, believing(boat, 'belt-slipping', 0.9).suspects[0])).toBe(boat);
  });

  it('[law] a cable known to be thin is on the work list whatever the suspect', () => {
    const thin = boatFromTemplate('selector-switch', {
      alternatorCurrent: told(120),
      cableArea: told(10e-6),
      cableLength: told(4),
    });
    const remedy = remedyFor(thin, believing(thin, 'battery-flat', 0.95));
    expect(remedy.work.map(({ because }) => because)).toContain('charge-cable-drop@charge-cable');
    expect(remedy.parts.map(({ key }) => key)).toContain('charge-cable');
    expect(remedy.cost!.high).toBeGreaterThan(100);
  });

  it('[law] below an even chance nothing is bought; a normal state is not repaired', () => {
    const unsure = remedyFor(boat, believing(boat, 'rotor-open', 0.3));
    expect(unsure.kind).toBe('check-on');
    expect(unsure.parts).toEqual([]);
    const flat = remedyFor(boat, believing(boat, 'battery-flat', 0.95));
    expect(flat.kind).toBe('nothing-broken');
    expect(flat.hours[0]!.battery).toBe('house');
    const lost = remedyFor(boat, { ...believing(boat, 'rotor-open', 0.3), nothingFits: 0.6 });
    expect(lost.kind).toBe('read-again');
  });

  it('[common practice] hours by hand: 400 Ah half empty at 40 A is three to four hours to 80 %, then hours more', () => {
    const hours = hoursByHand({
      battery: 'house',
      chemistry: 'agm',
      capacity: 400 * HOUR,
      from: 0.5,
      amps: 40,
      efficiency: 0.95,
    });
    // (0.8 − 0.5) · 400 Ah / (0.95 · 40 A) = 3.16 h; tail 80 Ah / 38 A = 2.1 h, three times that to 95 % of it.
    expect(hours.toKnee / HOUR).toBeCloseTo(3.158, 3);
    expect((hours.toFull - hours.toKnee) / HOUR).toBeCloseTo(2.105 * Math.log(20), 2);
    expect(
      hoursByHand({ ...{ battery: '', chemistry: 'agm', capacity: 1, from: 0, efficiency: 1 }, amps: -3 })
        .toFull,
    ).toBe(Infinity);
    expect(() => chargingHours(boat, new Map([['house', 1.2]]))).toThrow(/stateOfCharge 1.2 of house/);
  });

  it('[law] spares: nothing near help, more the farther; an alternator aboard makes brushes worth less', () => {
    const near = sparesFor(boat, { daysToHelp: 0, years: 1, costPerDay: 100 });
    expect(near.filter(({ carry }) => carry)).toEqual([]);
    const carried = (days: number) =>
      sparesFor(boat, { daysToHelp: days, years: 1, costPerDay: 100 })
        .filter(({ carry }) => carry)
        .map(({ key }) => key);
    expect(carried(3).length).toBeLessThanOrEqual(carried(20).length);
    expect(carried(20)).toContain('belt');
    const list = sparesFor(boat, { daysToHelp: 20, years: 1, costPerDay: 100 });
    const alternator = list.findIndex(({ key, carry }) => key === 'alternator' && carry);
    expect(alternator).toBeGreaterThanOrEqual(0);
    expect(list.slice(alternator + 1).some(({ key }) => key === 'brushes')).toBe(false);
    expect(() => sparesFor(boat, { daysToHelp: -1, years: 1, costPerDay: 1 })).toThrow(/daysToHelp -1/);
  });
});
