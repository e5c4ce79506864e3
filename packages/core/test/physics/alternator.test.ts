import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type AlternatorMachine,
  alternatorCutInSpeed,
  phaseCurrentAmplitude,
} from '../../src/physics/alternator.ts';
import {
  fitted,
  fullField,
  machineRivas,
  measuredSarafianos,
  nameplateSarafianos,
  outputOf,
  perMinute,
  RATING_HEAT,
  result,
} from './machines.ts';

describe('closed form against the published machines', () => {
  // Columns recomputed from the published machine data; tolerance 0.15 A: the table prints one decimal, and the
  // smooth corner adds up to 0.05 A at these points.
  it.each([
    [1800, 86.2, 79.8, 61.1, 52.1],
    [3000, 99.8, 97.8, 90.0, 86.4],
    [6000, 105.0, 104.5, 102.4, 101.1],
  ])('[RIVAS2004] %i min⁻¹', (revolutions, lossless, withDiodes, withResistance, simulated) => {
    const speed = perMinute(revolutions);
    const nearlyLossless = { ...machineRivas, statorResistance20: 1e-9 };
    expect(Math.abs(outputOf({ ...nearlyLossless, diodeDrop: 0 }, speed, 3.6, 14) - lossless)).toBeLessThan(
      0.15,
    );
    expect(Math.abs(outputOf(nearlyLossless, speed, 3.6, 14) - withDiodes)).toBeLessThan(0.15);
    const predicted = outputOf(machineRivas, speed, 3.6, 14);
    expect(Math.abs(predicted - withResistance)).toBeLessThan(0.15);
    // Against the time-step simulation the closed form errs by +17.3 %, +4.2 % and +1.3 %: it assumes that the bridge
    // always conducts, which fails near cut-in (1195 min⁻¹ here). The bounds are those errors, rounded up.
    const error = predicted / simulated - 1;
    expect(error).toBeGreaterThan(0);
    expect(error).toBeLessThan(revolutions === 1800 ? 0.18 : revolutions === 3000 ? 0.05 : 0.02);
  });

  it('[SARAFIANOS2015] full-field curve through two nameplate points meets the third', () => {
    const machine = nameplateSarafianos();
    const field = fullField(machine, 13.5, RATING_HEAT);
    // 170 A at 4000 min⁻¹ is published and not used in the fit; 5 A covers a figure printed as "170".
    expect(Math.abs(outputOf(machine, perMinute(4000), field, 13.5, 353.15) - 170)).toBeLessThan(5);
  });

  it('[SARAFIANOS2015] part-load currents from a nameplate alone', () => {
    const machine = nameplateSarafianos();
    // None of the six rows is used in the fit. Errors: −22, +10, +14, +15, +20, +22 A of a 180 A machine. The low nameplate
    // point lies at 1.9 times cut-in, where the closed form is high; the fit passes it with too small φ and L_s, and at a
    // given small field current that shows. The next test, with φ and L_s from measured rows, has none of it.
    // The bound says what a nameplate is worth at a given field current: 13 % of rating.
    for (const [revolutions, current, voltage, field] of measuredSarafianos) {
      const error = outputOf(machine, perMinute(revolutions), field, voltage, 323.15) - current;
      expect(Math.abs(error) / 180).toBeLessThan(0.13);
    }
  });

  it('[SARAFIANOS2015] rows of other field currents from the two rows of one', () => {
    // Rows 1 and 6 (1.97 A) identify φ and L_s; the other four, at other field currents and speeds, are predicted.
    // Their errors are +0.7, −0.1, −0.5 and −0.1 %: within this range the machine is not saturated and the form holds.
    const machine = machineFromRows(measuredSarafianos[0], measuredSarafianos[5]);
    for (const [revolutions, current, voltage, field] of measuredSarafianos) {
      const error = outputOf(machine, perMinute(revolutions), field, voltage) / current - 1;
      expect(Math.abs(error)).toBeLessThan(0.01);
    }
  });

  it('[SARAFIANOS2015] phase current from output current', () => {
    // Sine theory lies 0.6–4.3 % below the measured rms: the real current is not a sine.
    for (const [, current, , , , line] of measuredSarafianos) {
      const ratio = phaseCurrentAmplitude(current) / Math.SQRT2 / line;
      expect(ratio).toBeGreaterThan(0.95);
      expect(ratio).toBeLessThan(1);
    }
  });
});

describe('laws of the machine', () => {
  const point = fc.record({
    speed: fc.double({ min: 0, max: 1500, noNaN: true }),
    field: fc.double({ min: -1, max: 8, noNaN: true }),
    voltage: fc.double({ min: -5, max: 60, noNaN: true }),
    temperature: fc.double({ min: 250, max: 450, noNaN: true }),
  });
  const machine = fitted({ nominalVoltage: 12, ratedCurrent: 90 });

  it('[law] derivatives equal differences', () => {
    fc.assert(
      fc.property(point, ({ speed, field, voltage, temperature }) => {
        const step = 1e-5;
        const at = (dField: number, dVoltage: number): number =>
          outputOf(machine, speed, field + dField, voltage + dVoltage, temperature);
        const byVoltage = (at(0, step) - at(0, -step)) / (2 * step);
        const byField = (at(step, 0) - at(-step, 0)) / (2 * step);
        at(0, 0);
        // Central differences of step 1e-5 carry about 1e-9 of rounding and 1e-10 · I''' ≈ 1e-6 of truncation.
        expect(Math.abs(result.dByVoltage - byVoltage)).toBeLessThan(1e-5 * (1 + Math.abs(byVoltage)));
        expect(Math.abs(result.dByFieldCurrent - byField)).toBeLessThan(1e-5 * (1 + Math.abs(byField)));
      }),
      { seed: 32, numRuns: 500 },
    );
  });

  it('[law] never negative, falls with voltage, rises with field current', () => {
    fc.assert(
      fc.property(point, ({ speed, field, voltage, temperature }) => {
        const current = outputOf(machine, speed, field, voltage, temperature);
        expect(current).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(current)).toBe(true);
        // 1e-12: rounding of a slope that cancels to zero below cut-in.
        expect(result.dByVoltage).toBeLessThan(1e-12);
        expect(result.dByFieldCurrent).toBeGreaterThanOrEqual(0);
      }),
      { seed: 33, numRuns: 500 },
    );
  });

  it('[limit] a stopped machine gives no current, nor does one far below cut-in', () => {
    // 0.01 A: at a dead short the smooth corner is 0.035 V · 3/π / R_s ≈ 0.6 A only once the voltage is under −1.7 V.
    expect(outputOf(machine, 0, 4, 0)).toBeLessThan(0.01);
    expect(outputOf(machine, 0, 4, 12.6)).toBeLessThan(1e-9);
    expect(outputOf(machine, perMinute(700), 4, 14)).toBeLessThan(1e-9);
  });

  it('[limit] output begins at the cut-in speed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: 11, max: 15, noNaN: true }),
        (field, voltage) => {
          const cutIn = alternatorCutInSpeed(machine, field, voltage);
          expect(outputOf(machine, 0.9 * cutIn, field, voltage)).toBeLessThan(0.01);
          expect(outputOf(machine, 1.1 * cutIn, field, voltage)).toBeGreaterThan(0.5);
        },
      ),
      { seed: 34, numRuns: 100 },
    );
  });
});

/** φ and L_s from two rows with one field current: ψ² − (L_s·I)² = ((E + R_s·I)/ω)² twice, straight flux line. */
function machineFromRows(slow: readonly number[], fast: readonly number[]): AlternatorMachine {
  const equation = (row: readonly number[]): readonly [number, number] => {
    const amplitude = (Math.PI / 3) * row[1]!;
    const back = (2 / Math.PI) * (row[2]! + 1.7) + 0.03 * amplitude;
    return [(back / (8 * perMinute(row[0]!))) ** 2, amplitude ** 2];
  };
  const [slowBack, slowCurrent] = equation(slow);
  const [fastBack, fastCurrent] = equation(fast);
  const inductance2 = (slowBack - fastBack) / (fastCurrent - slowCurrent);
  return {
    ...machineRivas,
    polePairs: 8,
    fluxPerAmp: Math.sqrt(slowBack + inductance2 * slowCurrent) / slow[3]!,
    synchronousInductance: Math.sqrt(inductance2),
    statorResistance20: 0.03,
    diodeDrop: 0.85,
  };
}
