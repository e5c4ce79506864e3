import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, type Battery, type Boat } from '../../src/boat/index.ts';
import { openCircuitVoltagePerCell } from '../../src/handbook/index.ts';
import { chargeRun, type ChargeRun, type Phase, type RunEvent } from '../../src/operate/index.ts';
import { eventWords } from '../../src/planning/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
/** Seconds that the switch bears too much, and what a change is located within. */
const DELAY = 10;
const LOCATED = 2.5;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;

function lithium(change: (bank: Battery, boat: Boat) => void = () => undefined, ampHours = 200): Boat {
  const boat = boatAt(
    boatFromTemplate('one-battery', {
      alternatorCurrent: told(100),
      bankCapacity: told(ampHours * HOUR),
      bankChemistry: 'lifepo4',
      loadsCurrent: told(8),
    }),
  );
  change(boat.batteries[0]!, boat);
  return boat;
}
const running = (hours: number, loads = 1): Phase => ({
  duration: hours * HOUR,
  engine: 'running',
  engineSpeed: 1800 * RPM,
  loads,
});
const off = (hours: number, loads = 1): Phase => ({ duration: hours * HOUR, engine: 'off', loads });
const from = (share: number) => ({ stateOfCharge: { battery: share } });
const first = (run: ChargeRun, kind: RunEvent['kind']) => run.events.find((event) => event.kind === kind);
const sound = (run: ChargeRun): void => {
  expect(run.notConverged).toBe(0);
  expect(Math.abs(run.energy.imbalance)).toBeLessThan(1e-3);
};

describe('over-current trips of a lithium bank in a run', () => {
  it('[law] too much charge opens it when the switch has borne it for its time, and not just below its limit', () => {
    const free = chargeRun(lithium(), [running(0.5)], from(0.3));
    const most = Math.max(...free.batteries[0]!.current);
    const at = (limit: number) =>
      chargeRun(
        lithium((bank) => (bank.chargeLimit = limit)),
        [running(0.5), off(0.5)],
        from(0.3),
      );
    expect(first(at(1.01 * most), 'charging-opened')).toBeUndefined();
    const run = at(0.7 * most);
    const opened = first(run, 'charging-opened')!;
    expect(opened).toMatchObject({ part: 'battery', reason: 'over-current' });
    expect(opened.current!).toBeGreaterThan(0.7 * most);
    expect(opened.assumedLimit).toBeUndefined();
    const over = run.times[run.batteries[0]!.current.findIndex((amps) => amps > 0.7 * most)]!;
    expect(Math.abs(opened.time - over - DELAY)).toBeLessThan(LOCATED);
    // The machine still pushes: open for as long as it does. The loads live on the bank once it has stopped.
    run.times.forEach((time, k) => {
      if (time > opened.time && time < 0.5 * HOUR) expect(run.batteries[0]!.current[k]!).toBeLessThan(0.01);
    });
    expect(first(run, 'load-dump')).toMatchObject({ time: opened.time });
    const closed = first(run, 'charging-closed')!;
    expect(closed.time).toBeGreaterThanOrEqual(0.5 * HOUR);
    expect(run.batteries[0]!.current.at(-1)!).toBeLessThan(-7);
    sound(run);
  });

  it('[law] too much load opens discharging, for as long as the load is there; a charger gets in and closes it', () => {
    const boat = lithium((bank) => (bank.dischargeLimit = 20));
    const run = chargeRun(boat, [off(1), off(1, 3), running(1)], from(0.6));
    const opened = first(run, 'discharging-opened')!;
    expect(opened).toMatchObject({ reason: 'over-current' });
    expect(Math.abs(opened.time - HOUR - DELAY)).toBeLessThan(LOCATED);
    expect(opened.current!).toBeGreaterThan(20);
    const k = run.times.findIndex((time) => time > 1.5 * HOUR);
    expect(Math.abs(run.batteries[0]!.current[k]!)).toBeLessThan(0.01);
    expect(first(run, 'discharging-closed')!.time).toBeGreaterThanOrEqual(2 * HOUR);
    expect(run.batteries[0]!.current.at(-1)!).toBeGreaterThan(10);
    sound(run);
  });

  it('[limit] a peak that is shorter than the switch bears opens nothing', () => {
    const boat = lithium((bank) => (bank.dischargeLimit = 20));
    const peaks = Array.from({ length: 4 }, () => [off(6 / HOUR, 3), off(0.1)]).flat();
    expect(chargeRun(boat, peaks, from(0.6)).events).toEqual([]);
  });

  it('[common practice] 100 A into 50 Ah is too much, into 200 Ah is not; what was assumed is said', () => {
    const small = chargeRun(lithium(undefined, 50), [running(0.5)], from(0.3));
    const opened = first(small, 'charging-opened')!;
    expect(opened).toMatchObject({ reason: 'over-current', assumedLimit: 50 });
    expect(eventWords(opened)).toMatch(
      /more current than it lets through, \d+ A, its limit of 50 A is assumed/,
    );
    expect(first(chargeRun(lithium(), [running(0.5)], from(0.3)), 'charging-opened')).toBeUndefined();
  });
});

describe('cells of a lithium bank that are apart, in a run', () => {
  const spread = (share: number) =>
    lithium((bank, { regulators: [regulator] }) => {
      bank.cellSpread = share * bank.capacity * bank.health;
      regulator!.setpoint = 14.2;
    });

  it.each([0.02, 0.04, 0.08])(
    '[law] a spread of %d of its charge stops charging that much earlier',
    (share) => {
      const run = chargeRun(spread(share), [running(6)], from(0.7));
      const opened = first(run, 'charging-opened')!;
      expect(opened).toMatchObject({ reason: 'over-voltage' });
      const k = run.times.findIndex((time) => time >= opened.time);
      const charge = run.batteries[0]!.stateOfCharge[k]!;
      // The fullest cell is full, and little more: 3.65 V less the table's 3.598 V and what the current drops, at 36 V per 1.
      expect(charge + share / 2).toBeGreaterThan(0.998);
      expect(charge + share / 2).toBeLessThan(1.002);
      // At the posts all looks well; the fullest cell alone is at its limit.
      const mean = run.batteries[0]!.voltage[k]! / 4;
      expect(mean).toBeLessThan(3.56);
      const beyond = openCircuitVoltagePerCell('lifepo4', 1) - openCircuitVoltagePerCell('lifepo4', charge);
      expect(Math.abs(mean + beyond - 3.65)).toBeLessThan(0.07);
      sound(run);
    },
  );

  it('[limit] cells that are alike never come near the limit at the same set-point', () => {
    expect(first(chargeRun(spread(0), [running(6)], from(0.7)), 'charging-opened')).toBeUndefined();
  });

  it('[law] the emptiest cell cuts the loads off earlier, by half of the spread', () => {
    const left = (share: number): number => {
      const run = chargeRun(spread(share), [off(40)], from(0.5));
      const opened = first(run, 'discharging-opened')!;
      expect(opened.reason).toBe('under-voltage');
      return run.batteries[0]!.stateOfCharge[run.times.findIndex((time) => time >= opened.time)]!;
    };
    expect(Math.abs(left(0.1) - left(0) - 0.05)).toBeLessThan(1e-3);
  });
});
