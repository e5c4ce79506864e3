import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, type Boat, type TemplateId } from '../../src/boat/index.ts';
import { chargeRun, type ChargeRun, type Phase } from '../../src/operate/index.ts';
import { eventCaution, eventWords } from '../../src/planning/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;

function lithium(template: TemplateId, change: (boat: Boat) => void = () => undefined): Boat {
  const boat = boatAt(
    boatFromTemplate(template, {
      alternatorCurrent: told(100),
      bankCapacity: told(200 * HOUR),
      bankChemistry: 'lifepo4',
      loadsCurrent: told(8),
    }),
  );
  change(boat);
  return boat;
}
const running = (hours: number): Phase => ({
  duration: hours * HOUR,
  engine: 'running',
  engineSpeed: 1800 * RPM,
});
const off = (hours: number): Phase => ({ duration: hours * HOUR, engine: 'off' });
const tooHigh = (boat: Boat): void => boat.regulators.forEach((regulator) => (regulator.setpoint = 15));
const kinds = (run: ChargeRun): string[] => run.events.map(({ kind }) => kind);
const sound = (run: ChargeRun): void => {
  expect(run.notConverged).toBe(0);
  expect(Math.abs(run.energy.imbalance)).toBeLessThan(1e-3);
};

describe('protection switch of a lithium bank in a run', () => {
  it('[common practice] set right, a full bank never needs it', () => {
    const run = chargeRun(lithium('one-battery'), [running(5), off(4)], { stateOfCharge: { battery: 0.3 } });
    expect(kinds(run)).toEqual(['engine-started', 'engine-stopped']);
  });

  it('[law] it opens at 3.65 V per cell, whatever the steps, and closes once the cells are below 3.45 V', () => {
    const at = (tolerance: number) =>
      chargeRun(lithium('one-battery', tooHigh), [running(3), off(3)], {
        stateOfCharge: { battery: 0.5 },
        tolerance,
      });
    const run = at(3e-4);
    const [opened, closed] = ['charging-opened', 'charging-closed'].map((kind) =>
      run.events.find((event) => event.kind === kind)!,
    );
    expect(opened).toMatchObject({ part: 'battery', reason: 'over-voltage' });
    // The table of cell voltage ends at 3.598 V; what a cell rises by past full, up to 50 mV, is not in the posts' voltage.
    const k = run.times.findIndex((time) => time >= opened!.time);
    expect(run.batteries[0]!.voltage[k]! / 4).toBeGreaterThan(3.6);
    expect(run.batteries[0]!.voltage[k]! / 4).toBeLessThan(3.67);
    const after = run.times.findIndex((time) => time >= closed!.time);
    expect(run.batteries[0]!.voltage[after]! / 4).toBeLessThan(3.46);
    // Nothing goes in between, and the loads of 8 A live on it as soon as the engine stops.
    run.times.forEach((time, i) => {
      if (time > opened!.time && time < closed!.time)
        expect(run.batteries[0]!.current[i]!).toBeLessThan(0.01);
    });
    expect(run.batteries[0]!.current.at(-1)!).toBeLessThan(-7);
    const fine = at(3e-5).events.find(({ kind }) => kind === 'charging-opened')!;
    // Located to 2 s; the charge so far differs by up to 0.5 % of the time.
    expect(Math.abs(opened!.time - fine.time)).toBeLessThan(2 + 0.005 * fine.time);
    sound(run);
  });

  it('[common practice] the only bank cut off while it charges is a load dump, and the run says what it can break', () => {
    const run = chargeRun(lithium('one-battery', tooHigh), [running(3)], { stateOfCharge: { battery: 0.5 } });
    const dump = run.events.find(({ kind }) => kind === 'load-dump')!;
    expect(dump).toMatchObject({ part: 'alternator' });
    expect(dump.time).toBe(run.events.find(({ kind }) => kind === 'charging-opened')!.time);
    // What the machine gave a moment before.
    const before = run.times.findIndex((time) => time >= dump.time) - 1;
    expect(Math.abs(dump.current! / run.alternators[0]!.output[before]! - 1)).toBeLessThan(0.1);
    expect(eventCaution('load-dump')).toMatch(/diodes.*regulator.*electronics/);
    expect(eventWords(dump)).toContain('load dump');
  });

  it('[common practice] a second bank that stays joined takes the load: no load dump', () => {
    const run = chargeRun(lithium('combining-relay', tooHigh), [running(4)], {
      stateOfCharge: { house: 0.5, start: 0.9 },
    });
    expect(kinds(run)).toContain('charging-opened');
    expect(kinds(run)).not.toContain('load-dump');
    expect(kinds(run)).not.toContain('without-bank');
    sound(run);
    // A bank of its own is no help to the other machine.
    const two = chargeRun(lithium('two-alternators', tooHigh), [running(3)], {
      stateOfCharge: { house: 0.5, start: 0.9 },
    });
    expect(two.events.filter(({ kind }) => kind === 'load-dump').map(({ part }) => part)).toEqual([
      'alternator-house',
    ]);
    sound(two);
  });

  it('[limit] a regulator that is stuck: without its bank the machine runs away to several times its voltage', () => {
    const stuck = lithium('one-battery', (boat) =>
      boat.regulators.forEach((regulator) => (regulator.state = 'stuck-full')),
    );
    const run = chargeRun(stuck, [running(3)], { stateOfCharge: { battery: 0.5 } });
    expect(kinds(run)).toContain('load-dump');
    expect(run.alternators[0]!.voltage.at(-1)!).toBeGreaterThan(25);
    sound(run);
  });

  it('[common practice] no charge below 0 °C, while the loads live on; the machine is said to work alone', () => {
    const cold = lithium('one-battery', (boat) => boat.batteries.forEach((one) => (one.temperature = 270)));
    const run = chargeRun(cold, [off(0.5), running(1)], { stateOfCharge: { battery: 0.5 } });
    expect(run.events[0]).toMatchObject({ time: 0, kind: 'charging-opened', reason: 'cold' });
    expect(kinds(run)).toContain('without-bank');
    expect(kinds(run)).not.toContain('load-dump');
    const k = run.times.findIndex((time) => time > 0.4 * HOUR);
    expect(run.batteries[0]!.current[k]!).toBeLessThan(-7);
    expect(Math.max(...run.batteries[0]!.current)).toBeLessThan(0.01);
    sound(run);
  });

  it('[common practice] empty, it cuts the loads off at 2.5 V per cell and lets charge in', () => {
    const run = chargeRun(lithium('one-battery'), [off(30), running(1)], { stateOfCharge: { battery: 0.5 } });
    const opened = run.events.find(({ kind }) => kind === 'discharging-opened')!;
    expect(opened.reason).toBe('under-voltage');
    // 100 Ah at 8 A, less what a worn bank no longer holds.
    expect(opened.time / HOUR).toBeGreaterThan(8);
    expect(opened.time / HOUR).toBeLessThan(12.5);
    const k = run.times.findIndex((time) => time > opened.time + HOUR);
    expect(Math.abs(run.batteries[0]!.current[k]!)).toBeLessThan(0.01);
    expect(run.batteries[0]!.voltage[k]!).toBeLessThan(1);
    expect(kinds(run)).toContain('discharging-closed');
    expect(run.batteries[0]!.current.at(-1)!).toBeGreaterThan(50);
    sound(run);
  });
});
