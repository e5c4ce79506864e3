import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  diodeAtTemperature,
  diodeCurrent,
  type DiodeLaw,
  EXCITATION_DIODE,
  FET_ISOLATOR,
  ISOLATOR_DIODE,
  ISOLATOR_RESISTANCE,
} from '../../src/physics/diode.ts';
import { fieldCurrent, fieldTerminalVoltages } from '../../src/physics/field.ts';

const out = { current: 0, dByVoltage: 0 };
const currentOf = (diode: DiodeLaw, voltage: number): number => (
  diodeCurrent(diode, voltage, out),
  out.current
);

it('[common practice] isolator diode: 0.6 V at 1 A, 0.9 V at 100 A; nothing backwards', () => {
  expect(currentOf(ISOLATOR_DIODE, 0.6)).toBeCloseTo(1, 6);
  expect(currentOf(ISOLATOR_DIODE, 0.9 - 100 * ISOLATOR_RESISTANCE)).toBeCloseTo(100, 4);
  expect(Math.abs(currentOf(ISOLATOR_DIODE, -14))).toBeLessThan(1e-5);
  expect(currentOf(FET_ISOLATOR, 0.12)).toBeCloseTo(100, 6);
  expect(currentOf(FET_ISOLATOR, -14)).toBeLessThan(1e-9);
});

it('[textbook, from memory] a warm junction drops 2 mV/K less', () => {
  const warm = diodeAtTemperature(ISOLATOR_DIODE, 298.15 + 50);
  // 0.001 A: the constant −I_0 grows with heat too.
  expect(Math.abs(currentOf(warm, 0.5) - 1)).toBeLessThan(0.001);
});

it('[law] slope equals the difference and the current rises everywhere', () => {
  for (const diode of [ISOLATOR_DIODE, EXCITATION_DIODE, FET_ISOLATOR]) {
    fc.assert(
      fc.property(fc.double({ min: -1, max: 1.5, noNaN: true }), (voltage) => {
        const step = 1e-7;
        const slope = (currentOf(diode, voltage + step) - currentOf(diode, voltage - step)) / (2 * step);
        diodeCurrent(diode, voltage, out);
        // 1e-4: rounding of some 1000 A over a step of 1e-7 V, and the bend where the straight part begins.
        expect(Math.abs(out.dByVoltage - slope)).toBeLessThan(1e-4 * (1 + Math.abs(slope)));
        expect(out.dByVoltage).toBeGreaterThanOrEqual(0);
      }),
      { seed: 91, numRuns: 200 },
    );
  }
});

it('[common practice] full field of a 12 V rotor of 2–5 Ω is 3–6 A', () => {
  const field = { current: 0, dByVoltage: 0, dByDuty: 0 };
  for (const resistance of [2.2, 3, 4]) {
    fieldCurrent({ fieldResistance20: resistance, brushDrop: 0.6 }, 1, 14, 293.15, 0, field);
    expect(field.current).toBeGreaterThan(3);
    expect(field.current).toBeLessThan(6.2);
  }
});

it('[law] field derivatives equal differences', () => {
  const field = { current: 0, dByVoltage: 0, dByDuty: 0 };
  const winding = { fieldResistance20: 3, brushDrop: 0.6 };
  const at = (duty: number, voltage: number): number => (
    fieldCurrent(winding, duty, voltage, 350, 0.2, field),
    field.current
  );
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 30, noNaN: true }),
      (duty, voltage) => {
        const step = 1e-6;
        const byVoltage = (at(duty, voltage + step) - at(duty, voltage - step)) / (2 * step);
        const byDuty = (at(duty + step, voltage) - at(duty - step, voltage)) / (2 * step);
        at(duty, voltage);
        // 1e-4: near the brush drop the third derivative is some 1e5 per duty cubed.
        expect(Math.abs(field.dByVoltage - byVoltage)).toBeLessThan(1e-6);
        expect(Math.abs(field.dByDuty - byDuty)).toBeLessThan(1e-4);
      },
    ),
    { seed: 92, numRuns: 200 },
  );
});

it('[definition] which terminal a meter finds live', () => {
  expect(fieldTerminalVoltages('positive', 0.25, 14)).toEqual({ first: 3.5, second: 0 });
  expect(fieldTerminalVoltages('negative', 0.25, 14)).toEqual({ first: 14, second: 10.5 });
});
