import fc from 'fast-check';
import { expect, it } from 'vitest';
import { alternatorFlux } from '../../src/physics/alternator.ts';
import { excitationBuilds, firstFieldCurrent, lampCurrent, lampOf } from '../../src/physics/excitation.ts';
import { fitted, machineRivas, perMinute } from './machines.ts';

const machine = fitted({ nominalVoltage: 12, ratedCurrent: 90 });
const law = { current: 0, dByVoltage: 0 };

it('[textbook, from memory] a 2–3 W lamp feeds the field 0.1–0.2 A at 12 V', () => {
  for (const power of [2, 2.5]) {
    const current = firstFieldCurrent(
      { kind: 'lamp', lamp: lampOf(power, 12), extraResistance: 0 },
      12.6,
      3,
      0.6,
    );
    expect(current).toBeGreaterThan(0.1);
    expect(current).toBeLessThan(0.21);
  }
});

it('[limit] the lamp draws its rating at its voltage and ten times the conductance cold', () => {
  const lamp = lampOf(2.4, 12);
  lampCurrent(lamp, 12, law);
  expect(law.current).toBeCloseTo(0.2, 9);
  lampCurrent(lamp, 1e-6, law);
  expect(law.current / 1e-6).toBeCloseTo(10 * (0.2 / 12), 6);
});

it('[law] lamp slope equals the difference, rising everywhere', () => {
  const lamp = lampOf(3, 24);
  fc.assert(
    fc.property(fc.double({ min: -30, max: 30, noNaN: true }), (voltage) => {
      const step = 1e-6;
      lampCurrent(lamp, voltage + step, law);
      const above = law.current;
      lampCurrent(lamp, voltage - step, law);
      const slope = (above - law.current) / (2 * step);
      lampCurrent(lamp, voltage, law);
      // 1e-5 relative: the cold region is 0.08 V wide, which the difference of 1e-6 V resolves to about that.
      expect(Math.abs(law.dByVoltage - slope)).toBeLessThan(1e-5 * (0.01 + slope));
      expect(law.dByVoltage).toBeGreaterThan(0);
    }),
    { seed: 51, numRuns: 200 },
  );
});

it('[textbook, from memory] residual magnetism alone needs more than two diode drops', () => {
  const { buildSpeed } = excitationBuilds(machine, { kind: 'none' }, 0, 12.6, 300, 0);
  const meanLine =
    ((3 * Math.sqrt(3)) / Math.PI) * machine.polePairs * buildSpeed * alternatorFlux(machine, 0);
  expect(meanLine).toBeGreaterThan(1.4);
  // Common practice: several thousand min⁻¹ of the alternator, a blip of the throttle.
  expect(buildSpeed).toBeGreaterThan(perMinute(2000));
  expect(buildSpeed).toBeLessThan(perMinute(7000));
});

it('[law] with a lamp it starts sooner than without, and holds below where it started', () => {
  const lamp = { kind: 'lamp', lamp: lampOf(2.4, 12), extraResistance: 0 } as const;
  const withLamp = excitationBuilds(machine, lamp, perMinute(1800), 12.6, 300, 0);
  const without = excitationBuilds(machine, { kind: 'none' }, perMinute(1800), 12.6, 300, 0);
  expect(withLamp.kind).toBe('builds');
  expect(without.kind).toBe('too-slow');
  expect(withLamp.buildSpeed).toBeLessThan(without.buildSpeed);
  expect(withLamp.holdSpeed).toBeLessThan(withLamp.buildSpeed);
});

it('[limit] no residual magnetism and no lamp: never', () => {
  const state = excitationBuilds(
    { ...machineRivas, saturationCurrent: 4 },
    { kind: 'none' },
    1000,
    12.6,
    300,
    0,
  );
  expect(state.kind).toBe('no-first-current');
});

it('[rival] the build speed agrees with iterating the loop', () => {
  const source = { kind: 'lamp', lamp: lampOf(2, 12), extraResistance: 0 } as const;
  const { buildSpeed, firstCurrent } = excitationBuilds(machine, source, 0, 12.6, 293.15, 0);
  const settles = (speed: number): number => {
    let current = firstCurrent;
    for (let turn = 0; turn < 20000; turn++) {
      const mean =
        ((3 * Math.sqrt(3)) / Math.PI) * machine.polePairs * speed * alternatorFlux(machine, current);
      const next = (mean - 1.4 - machine.brushDrop) / machine.fieldResistance20;
      current += 0.1 * (Math.min(Math.max(next, firstCurrent), 4) - current);
    }
    return current;
  };
  expect(settles(1.01 * buildSpeed)).toBeGreaterThan(2);
  expect(settles(0.99 * buildSpeed)).toBeLessThan(1.01 * firstCurrent);
});
