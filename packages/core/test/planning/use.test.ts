import { describe, expect, it } from 'vitest';
import { boatFromTemplate, unknownsOf } from '../../src/boat/index.ts';
import { chargeRunOf, type Phase } from '../../src/operate/index.ts';
import { dailyPlan, parsePhase, runBands, useOverDays } from '../../src/planning/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;
const boat = boatFromTemplate('one-battery', {
  alternatorCurrent: told(80),
  bankCapacity: told(300 * HOUR),
  bankChemistry: 'agm',
  loadsCurrent: told(4),
});
const day: Phase[] = [{ duration: 3 * HOUR, engine: 'running', engineSpeed: 1500 * RPM }];

describe('use over time', () => {
  it('[law] where days are alike, as much goes in as comes out, but for what is lost', () => {
    const plan = dailyPlan(day, 14);
    if (plan.kind !== 'plan') throw new Error(plan.why);
    const run = chargeRunOf(boat, plan.plan, { stateOfCharge: { battery: 0.6 } });
    const use = useOverDays(run, 'battery');
    expect(use.days).toHaveLength(14);
    expect(use.settles).toBeDefined();
    const { into, outOf, engineTime } = use.days.at(-1)!;
    expect(engineTime).toBeCloseTo(3 * HOUR, 3);
    // 21 h of 4 A at under nominal voltage.
    expect(outOf / HOUR).toBeGreaterThan(0.9 * 21 * 4);
    expect(outOf / HOUR).toBeLessThan(1.1 * 21 * 4);
    // AGM gives back 95 % and more of what goes in (common practice), and never more than all.
    expect(outOf / into).toBeGreaterThan(0.9);
    expect(outOf / into).toBeLessThan(1.001);
  });

  it('[law] bands are in order, hold the median boat, and do not depend on the run before', () => {
    const options = { draws: 40, points: 7, stateOfCharge: { battery: 0.4 } };
    const bands = runBands(boat, [{ duration: 4 * HOUR, engine: 'running' }], options);
    const { stateOfCharge, timeTo80 } = bands.batteries[0]!;
    stateOfCharge.low.forEach((low, k) => {
      expect(low).toBeLessThanOrEqual(stateOfCharge.middle[k]!);
      expect(stateOfCharge.middle[k]!).toBeLessThanOrEqual(stateOfCharge.high[k]!);
    });
    expect(timeTo80.low).toBeLessThan(timeTo80.high);
    const same = runBands(boat, [{ duration: 4 * HOUR, engine: 'running' }], options);
    expect(same).toEqual(bands);
  });

  it('[limit] a world given in place of draws leaves no spread; a band can be cancelled', () => {
    const world = new Float64Array(unknownsOf(boat).length);
    const bands = runBands(boat, day, { worlds: [world, world], points: 3 });
    expect(bands.peakTemperature.low).toBe(bands.peakTemperature.high);
    const cancelled = runBands(boat, day, { draws: 10, points: 3, onProgress: (done) => done < 0.3 });
    expect(cancelled).toMatchObject({ ended: 'cancelled', draws: 3 });
  });

  it('[limit] plans in words', () => {
    expect(parsePhase('running 2h 900rpm loads 1.5')).toEqual({
      kind: 'phase',
      phase: { engine: 'running', duration: 2 * HOUR, engineSpeed: 900 * RPM, loads: 1.5 },
    });
    expect(parsePhase('sailing 2h')).toMatchObject({ kind: 'not-a-phase' });
    expect(dailyPlan([{ duration: 30 * HOUR, engine: 'off' }], 2)).toMatchObject({ kind: 'not-a-day' });
    const plan = dailyPlan(day, 3);
    if (plan.kind !== 'plan') throw new Error(plan.why);
    expect(plan.plan.reduce((sum, { duration }) => sum + duration, 0)).toBeCloseTo(3 * 86_400, 6);
  });
});
