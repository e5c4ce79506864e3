import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate } from '../../src/boat/index.ts';
import { chargeRun, type Phase } from '../../src/operate/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;
const description = boatFromTemplate('combining-relay', {
  alternatorCurrent: told(80),
  bankCapacity: told(300 * HOUR),
  bankChemistry: 'agm',
  loadsCurrent: told(6),
});
const plan: Phase[] = [
  { duration: 3 * HOUR, engine: 'running', engineSpeed: 1600 * RPM },
  { duration: 6 * HOUR, engine: 'off' },
];

describe('combining relay in a run', () => {
  it('[common practice] closes once charging, opens some time after the engine is stopped, and parts the banks', () => {
    const boat = boatAt(description);
    const run = chargeRun(boat, plan, { stateOfCharge: { house: 0.7, start: 0.9 } });
    const events = run.events.filter(({ kind }) => kind.startsWith('relay'));
    expect(events[0]).toMatchObject({ kind: 'relay-closed' });
    // It waits for its delay at least.
    expect(events[0]!.time).toBeGreaterThanOrEqual(boat.relays[0]!.closeDelay);
    const opened = events.at(-1)!;
    expect(opened.kind).toBe('relay-opened');
    expect(opened.time).toBeGreaterThan(3 * HOUR);
    // Apart, the loads take from the house bank alone.
    const { current, stateOfCharge } = run.batteries.find(({ id }) => id === 'start')!;
    expect(Math.abs(current.at(-1)!)).toBeLessThan(0.1);
    expect(stateOfCharge.at(-1)!).toBeGreaterThan(0.9);
    expect(run.batteries.find(({ id }) => id === 'house')!.current.at(-1)!).toBeLessThan(-4);
  });

  it('[law] between its thresholds it stays as it is; books stay closed through every change', () => {
    const boat = boatAt(description);
    for (const relay of boat.relays) [relay.closeVoltage, relay.openVoltage] = [13.4, 12.9];
    const run = chargeRun(boat, plan, { stateOfCharge: { house: 0.2, start: 0.95 } });
    // The relay senses at its own terminals against the house bank's negative.
    const between = ['relay-start-cable', 'house-return']
      .map((id) => boat.conductors.find((cable) => cable.id === id)!)
      .reduce((sum, { resistance, joints }) => sum + resistance + joints, 0);
    // A change is recorded twice: as it was, and as it is from then on.
    const atRelay = (time: number): number => {
      const k = run.times.findIndex((one) => one >= time);
      const house = run.batteries.find(({ id }) => id === 'house')!.current[k]!;
      // From the start bank's posts through the cables that house bank and loads draw through, 5 % above 20 °C.
      return Math.max(...run.batteries.map(({ voltage }) => voltage[k]!)) - 1.05 * between * (house + 6);
    };
    expect(run.events.some(({ kind }) => kind === 'relay-opened')).toBe(true);
    for (const { time, kind } of run.events) {
      // 20 mV for the copper's temperature and the loads' own voltage.
      if (kind === 'relay-opened') expect(atRelay(time)).toBeLessThan(12.9 + 0.02);
    }
    expect(run.notConverged).toBe(0);
    expect(Math.abs(run.energy.imbalance)).toBeLessThan(1e-3);
  });

  it('[limit] a relay that never closes leaves the house bank to its loads', () => {
    const boat = boatAt(description);
    for (const relay of boat.relays) relay.state = 'never-closes';
    const run = chargeRun(boat, [plan[0]!], { stateOfCharge: { house: 0.7, start: 0.9 } });
    expect(run.events.some(({ kind }) => kind.startsWith('relay'))).toBe(false);
    expect(run.batteries.find(({ id }) => id === 'house')!.current.at(-1)!).toBeLessThan(-4);
  });
});
