import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, type Boat } from '../../src/boat/index.ts';
import { chargeRun, type Phase } from '../../src/operate/index.ts';
import { loadedEngineSpeed } from '../../src/physics/engine.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;

function boat(change: (boat: Boat) => void = () => undefined): Boat {
  const found = boatAt(
    boatFromTemplate('two-alternators', {
      alternatorCurrent: told(100),
      bankCapacity: told(400 * HOUR),
      bankChemistry: 'agm',
      loadsCurrent: told(8),
    }),
  );
  change(found);
  return found;
}
const running = (hours: number, rpm: number): Phase => ({
  duration: hours * HOUR,
  engine: 'running',
  engineSpeed: rpm * RPM,
});
const start = { stateOfCharge: { house: 0.4, start: 0.8 } };
const set = 1600 * RPM;

describe('engine speed in a run', () => {
  it('[law] each moment has the speed that the governor leaves under the power the shafts take then', () => {
    const world = boat();
    const run = chargeRun(world, [running(3, 1600)], start);
    const engine = world.engines[0]!;
    const { speed, speedDrop } = run.engines[0]!;
    run.times.forEach((_, k) => {
      const shafts = run.alternators.reduce((sum, { shaftPower }) => sum + shaftPower[k]!, 0);
      const law = loadedEngineSpeed({ ...engine, droop: 0.07 }, set, shafts);
      if (law.kind !== 'runs') throw new Error('stalled');
      // Settled to 1e-4 of the speed; what a belt loses counts at the crank, and is small here.
      expect(Math.abs(speed[k]! - law.speed) / set).toBeLessThan(3e-4);
      expect(speed[k]! + speedDrop[k]!).toBeCloseTo(set, 6);
    });
    // From next to nothing before the field is up, over the full output to the taper at the end.
    expect(speedDrop[0]!).toBeLessThan(RPM);
    expect(Math.max(...speedDrop)).toBeGreaterThan(8 * RPM);
    expect(speedDrop.at(-1)!).toBeLessThan(0.7 * Math.max(...speedDrop));
    expect(run.engineAngle).toBeLessThan(run.engineSeconds * set);
    expect(Math.abs(run.energy.imbalance)).toBeLessThan(1e-3);
  });

  it('[limit] no load, no droop: regulators dead, or the engine off', () => {
    const dead = boat(({ regulators }) => regulators.forEach((regulator) => (regulator.state = 'dead')));
    const run = chargeRun(dead, [running(1, 1600), { duration: HOUR, engine: 'off' }], start);
    // What turns the fans is left: 0.2 % of the speed at most.
    expect(Math.max(...run.engines[0]!.speedDrop) / set).toBeLessThan(2e-3);
    expect(run.engines[0]!.speed.at(-1)!).toBe(0);
    const still = chargeRun(boat(), [{ duration: HOUR, engine: 'off' }], start);
    expect(Math.max(...still.engines[0]!.speedDrop)).toBe(0);
  });

  it('[law] the same power drops a smaller engine further, as one over its rated power', () => {
    const at = (watts: number) => {
      const small = boat(({ engines }) => engines.forEach((engine) => (engine.ratedPower = watts)));
      return Math.max(...chargeRun(small, [running(0.5, 1600)], start).engines[0]!.speedDrop);
    };
    // The slower machines of the small engine give a little less.
    expect(at(11_000) / at(22_000)).toBeGreaterThan(1.9);
    expect(at(11_000) / at(22_000)).toBeLessThanOrEqual(2.001);
  });
});
