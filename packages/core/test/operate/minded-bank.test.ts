import { describe, expect, it } from 'vitest';
import {
  boatAt,
  boatFromTemplate,
  chargingPaths,
  mindedBanks,
  templateIds,
  type Boat,
} from '../../src/boat/index.ts';
import { asFound, chargeRun, Operator, type ChargeRun } from '../../src/operate/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;

/** An AGM house bank with an outside regulator, and a start bank with its own alternator; both nearly full. */
function twoBanks(house: number, start: number): Boat {
  const boat = boatAt(boatFromTemplate('two-alternators', { bankChemistry: 'agm' }));
  for (const battery of boat.batteries) {
    battery.temperature = battery.id === 'house' ? house : start;
    battery.stateOfCharge = 0.99;
  }
  for (const regulator of boat.regulators) [regulator.setpoint, regulator.compensation] = [14.2, -0.024];
  return boat;
}

/** Stud voltages at 1500 rpm in the order of the alternators [V]. */
function held(boat: Boat): number[] {
  const operator = new Operator(boat);
  const point = operator.at({
    ...asFound,
    loads: 'off',
    engine: 'running',
    engineSpeed: 1500 * RPM,
    sinceStart: 7200,
  });
  return operator.plant.alternators.map(
    ({ sense, regulatorGround }) => (point.voltages[sense] ?? NaN) - (point.voltages[regulatorGround] ?? NaN),
  );
}

describe('the bank that a regulator minds', () => {
  it.each(templateIds)('[law] is the one that the wiring leads its alternator to: %s', (template) => {
    for (const regulatorPlace of ['inside', 'outside'] as const) {
      const description = boatFromTemplate(template, { regulatorPlace });
      const boat = boatAt(description);
      const wired = chargingPaths(description).map(({ battery }) => battery);
      expect(mindedBanks(boat).map((at) => boat.batteries[at]?.id)).toEqual(wired);
    }
  });

  it('[law] a sense lead at the posts of another bank decides', () => {
    const boat = twoBanks(298.15, 298.15);
    const lead = boat.conductors.find(({ to }) => to === 'regulator-house.sense')!;
    const at = boat.alternators.findIndex(({ id }) => id === 'alternator-house');
    expect(boat.batteries[mindedBanks(boat)[at]!]!.id).toBe('house');
    lead.from = 'start.+';
    expect(boat.batteries[mindedBanks(boat)[at]!]!.id).toBe('start');
  });

  it('[law] compensation moves the voltage of the machine whose bank is cold, by its own slope, and no other', () => {
    const usual = held(twoBanks(298.15, 298.15));
    const coldHouse = held(twoBanks(278.15, 298.15));
    const coldStart = held(twoBanks(298.15, 278.15));
    const { alternators } = twoBanks(298.15, 298.15);
    alternators.forEach(({ id }, i) => {
      const own = id === 'alternator-house' ? coldHouse : coldStart;
      const other = id === 'alternator-house' ? coldStart : coldHouse;
      // 20 K at -24 mV/K; the band of a regulator of gain 5/V takes up to 0.1 V of it, as the cold bank takes less.
      expect(own[i]! - usual[i]!).toBeGreaterThan(0.38);
      expect(own[i]! - usual[i]!).toBeLessThan(0.58);
      expect(Math.abs(other[i]! - usual[i]!)).toBeLessThan(0.02);
    });
  });

  it('[law] in a run, stage and set-point go by the same bank: absorption of a cold bank is held at its own voltage', () => {
    const run = (house: number, start: number): ChargeRun =>
      chargeRun(
        twoBanks(house, start),
        [{ duration: 3 * HOUR, engine: 'running', engineSpeed: 1500 * RPM }],
        { stateOfCharge: { house: 0.9, start: 0.9 } },
      );
    const highest = (found: ChargeRun): number =>
      Math.max(...found.batteries.find(({ id }) => id === 'house')!.voltage);
    const absorbs = (found: ChargeRun): boolean =>
      found.events.some(({ part, kind }) => part === 'regulator-house' && kind === 'absorption');
    const usual = run(298.15, 298.15);
    const coldHouse = run(283.15, 298.15);
    const coldStart = run(298.15, 283.15);
    // 15 K at -24 mV/K.
    expect(highest(coldHouse) - highest(usual)).toBeGreaterThan(0.3);
    expect(Math.abs(highest(coldStart) - highest(usual))).toBeLessThan(0.02);
    for (const found of [usual, coldHouse, coldStart]) expect(absorbs(found)).toBe(true);
  });
});
