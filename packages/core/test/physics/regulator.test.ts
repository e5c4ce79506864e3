import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dutyCap,
  heatLimitFactor,
  nextStage,
  plainRegulator,
  regulatorDuty,
  type RegulatorSettings,
  regulatorSetpoint,
  startRamp,
  TYPICAL_STAGE_RULES,
} from '../../src/physics/regulator.ts';

const celsius = (t: number): number => t + 273.15;
const staged: RegulatorSettings = {
  gain: 10,
  absorptionVoltage: 14.4,
  floatVoltage: 13.4,
  temperatureCompensation: -0.005 * 6,
  compensationRange: [celsius(-20), celsius(50)],
  fieldCap: 0.9,
  startDelay: 15,
  rampTime: 30,
};
const out = { duty: 0, dBySensed: 0 };

describe('set-point and stages', () => {
  it('[common practice, −5 mV/K per cell] 14.85 V at 10 °C, 13.95 V at 40 °C; 24 V 27.90 V', () => {
    expect(regulatorSetpoint(staged, 'absorption', celsius(25))).toBeCloseTo(14.4, 9);
    expect(regulatorSetpoint(staged, 'absorption', celsius(10))).toBeCloseTo(14.85, 9);
    expect(regulatorSetpoint(staged, 'absorption', celsius(40))).toBeCloseTo(13.95, 9);
    const double = { ...staged, absorptionVoltage: 28.8, temperatureCompensation: -0.06 };
    expect(regulatorSetpoint(double, 'absorption', celsius(40))).toBeCloseTo(27.9, 9);
  });

  it('[limit] bulk, absorption, float, and back when the voltage falls away', () => {
    const reading = { sensedVoltage: 13.2, chargeCurrent: 60, capacity: 200 * 3600, secondsInStage: 60 };
    const step = (stage: 'bulk' | 'absorption' | 'float', change: Partial<typeof reading>): string =>
      nextStage(staged, TYPICAL_STAGE_RULES, stage, { ...reading, ...change }, celsius(25));
    expect(step('bulk', {})).toBe('bulk');
    expect(step('bulk', { sensedVoltage: 14.35 })).toBe('absorption');
    expect(step('absorption', { sensedVoltage: 14.35, chargeCurrent: 20 })).toBe('absorption');
    // Tail current 1–2 % of C20 (common practice): 4 A of 200 Ah.
    expect(step('absorption', { sensedVoltage: 14.35, chargeCurrent: 3.9 })).toBe('float');
    expect(step('absorption', { chargeCurrent: 20, secondsInStage: 5 * 3600 })).toBe('float');
    expect(step('float', { sensedVoltage: 13.3 })).toBe('float');
    expect(step('float', { sensedVoltage: 12.7 })).toBe('bulk');
  });
});

describe('duty', () => {
  it('[limit] full below, nothing above, half a cap half-way', () => {
    regulatorDuty(10, 14.4, 13, 0.9, out);
    expect(out.duty).toBeCloseTo(0.9, 6);
    regulatorDuty(10, 14.4, 15, 0.9, out);
    expect(out.duty).toBeLessThan(1e-9);
    regulatorDuty(10, 14.4, 14.355, 0.9, out);
    expect(out.duty).toBeCloseTo(0.45, 6);
  });

  it('[law] falls with the sensed voltage, stays within the cap, slope equals the difference', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 12, max: 16, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (sensed, cap) => {
          const step = 1e-6;
          regulatorDuty(10, 14.3, sensed + step, cap, out);
          const above = out.duty;
          regulatorDuty(10, 14.3, sensed - step, cap, out);
          const slope = (above - out.duty) / (2 * step);
          regulatorDuty(10, 14.3, sensed, cap, out);
          // Gain 10 /V over a width of 0.005 makes a third derivative of about 1e6: 1e-6 of truncation at this step.
          expect(Math.abs(out.dBySensed - slope)).toBeLessThan(1e-5);
          expect(out.dBySensed).toBeLessThanOrEqual(0);
          expect(out.duty).toBeGreaterThanOrEqual(-1e-12);
          expect(out.duty).toBeLessThanOrEqual(cap + 1e-12);
        },
      ),
      { seed: 81, numRuns: 200 },
    );
  });

  it('[limit] start delay, ramp, states, heat limit', () => {
    expect(startRamp(15, 30, 10)).toBe(0);
    expect(startRamp(15, 30, 30)).toBe(0.5);
    expect(startRamp(15, 0, 16)).toBe(1);
    expect(dutyCap(staged, 'normal', 100, 1)).toBeCloseTo(0.9, 12);
    expect(dutyCap(staged, 'normal', 100, 0.5)).toBeCloseTo(0.45, 12);
    expect(dutyCap(staged, 'dead', 100, 1)).toBe(0);
    expect(dutyCap(staged, 'stuck-full', 0, 0.2)).toBe(1);
    expect(heatLimitFactor(celsius(60), celsius(105), 10, 0.5)).toBe(1);
    expect(heatLimitFactor(celsius(105), celsius(105), 10, 0.5)).toBeCloseTo(0.75, 12);
    expect(heatLimitFactor(celsius(140), celsius(105), 10, 0.5)).toBe(0.5);
    expect(plainRegulator(24).absorptionVoltage).toBeCloseTo(28.6, 9);
  });
});
