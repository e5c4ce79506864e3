import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, type Boat, type TemplateId } from '../../src/boat/index.ts';
import { chargeRun, type ChargeRun, type Phase } from '../../src/operate/index.ts';
import { availablePower } from '../../src/physics/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;

function boatOf(template: TemplateId, change: (boat: Boat) => void = () => undefined): Boat {
  const boat = boatAt(
    boatFromTemplate(template, {
      alternatorCurrent: told(120),
      bankCapacity: told(400 * HOUR),
      bankChemistry: 'lifepo4',
      loadsCurrent: told(8),
      excitation: 'ignition',
    }),
  );
  change(boat);
  return boat;
}
const running = (hours: number, rpm: number): Phase => ({
  duration: hours * HOUR,
  engine: 'running',
  engineSpeed: rpm * RPM,
});
const power =
  (watts: number) =>
  ({ engines: [engine] }: Boat): void => {
    engine!.ratedPower = watts;
  };
const start = { stateOfCharge: { battery: 0.3, house: 0.3, start: 0.3 } };
const kinds = (run: ChargeRun): string[] => run.events.map(({ kind }) => kind);

describe('an engine that its alternator stalls', () => {
  it('[law] stalls where the machine asks more than torque times speed gives, and not just below', () => {
    // What the same machine asks at 900 rpm of a boundless engine that hardly slows down.
    const wide = chargeRun(boatOf('one-battery', power(1e6)), [running(0.2, 900)], start);
    const asked = Math.max(...wide.alternators[0]!.shaftPower);
    const { engines } = boatOf('one-battery');
    const share = availablePower({ ...engines[0]!, ratedPower: 1 }, 900 * RPM);
    // 7 % of droop costs output, at cut-in speed a good part of it: engines of 1.5 and of 0.5 times what is asked.
    const enough = chargeRun(boatOf('one-battery', power((1.5 * asked) / share)), [running(0.2, 900)], start);
    const little = chargeRun(boatOf('one-battery', power((0.5 * asked) / share)), [running(0.2, 900)], start);
    expect(kinds(enough)).not.toContain('engine-stalls');
    expect(Math.max(...enough.alternators[0]!.engineShare)).toBeLessThan(1);
    expect(kinds(little)).toEqual(['engine-started', 'engine-stalls']);
    expect(little.events[1]!.share!).toBeGreaterThan(1);
    expect(little.notConverged).toBe(0);
  });

  it('[limit] from then on nothing turns, no speed lies between idle with all droop and standstill, and books close', () => {
    const plan = [running(0.5, 900), running(1, 2400)];
    const run = chargeRun(boatOf('one-battery', power(5000)), plan, start);
    const stall = run.events.find(({ kind }) => kind === 'engine-stalls')!;
    run.times.forEach((time, k) => {
      const { speed } = run.engines[0]!;
      expect(speed[k] === 0 || speed[k]! >= 900 * RPM * (1 - 0.07) - 1e-9).toBe(true);
      if (time > stall.time && time < 0.5 * HOUR) {
        expect(run.alternators[0]!.output[k]).toBe(0);
        expect(run.batteries[0]!.current[k]!).toBeLessThan(0);
        expect(speed[k]).toBe(0);
      }
    });
    // The plan starts it anew, faster: there it carries its machine.
    expect(kinds(run).filter((kind) => kind.startsWith('engine'))).toEqual([
      'engine-started',
      'engine-stalls',
      'engine-started',
    ]);
    expect(run.alternators[0]!.output.at(-1)!).toBeGreaterThan(40);
    expect(Math.abs(run.energy.imbalance)).toBeLessThan(1e-3);
  });

  it('[law] a stall that comes with the load is located: a finer run moves it by no more than seconds', () => {
    // A cold machine asks little while its regulator ramps up.
    const slow = boatOf('one-battery', (boat) => {
      power(4000)(boat);
      [boat.regulators[0]!.startDelay, boat.regulators[0]!.ramp] = [60, 120];
    });
    const at = (tolerance: number) =>
      chargeRun(slow, [running(1, 900)], { ...start, tolerance }).events.find(
        ({ kind }) => kind === 'engine-stalls',
      )!;
    expect(at(3e-4).time).toBeGreaterThan(60);
    expect(Math.abs(at(3e-4).time - at(3e-5).time)).toBeLessThan(2.5);
    // Located, it is only just too much.
    expect(at(3e-4).share!).toBeLessThan(1.1);
  });

  it('[limit] of two engines, the one that is asked too much stands, the other goes on', () => {
    const twin = boatOf('twin-engines', power(5000));
    const run = chargeRun(twin, [running(0.5, 900), running(0.1, 2400)], start);
    const [port, starboard] = twin.engines.map(({ id }) => id);
    expect(run.events.filter(({ kind }) => kind === 'engine-stalls').map(({ part }) => part)).toEqual([port]);
    const k = run.times.findIndex((time) => time > 0.25 * HOUR);
    expect(run.engines.find(({ id }) => id === port)!.speed[k]).toBe(0);
    expect(run.engines.find(({ id }) => id === starboard)!.speed[k]!).toBeGreaterThan(800 * RPM);
    const of = (engine: string | undefined) =>
      run.alternators[twin.alternators.findIndex((one) => one.engine === engine)]!;
    expect(of(port).output[k]).toBe(0);
    expect(of(starboard).output[k]!).toBeGreaterThan(5);
    // Started anew with the next stretch.
    expect(run.events.at(-1)).toMatchObject({ part: port, kind: 'engine-started', time: 0.5 * HOUR });
    expect(of(port).output.at(-1)!).toBeGreaterThan(5);
    expect(run.notConverged).toBe(0);
  });
});
