/** The two published machines that the alternator tests use, and short ways to ask them. */
import {
  type AlternatorCurrent,
  type AlternatorMachine,
  alternatorCurrent,
} from '../../src/physics/alternator.ts';
import { type AlternatorNameplate, fitAlternator } from '../../src/physics/alternator-fit.ts';

/** Shaft speed [rad/s] from revolutions per minute. */
export const perMinute = (revolutions: number): number => (revolutions * 2 * Math.PI) / 60;

/** Machine 1 [RIVAS2004], 130 A class; flux constant from its phase voltage 10.716 V rms at 180 Hz and 3.6 A. */
export const machineRivas: AlternatorMachine = {
  polePairs: 6,
  fluxPerAmp: (10.716 * Math.SQRT2) / (2 * Math.PI * 180 * 3.6),
  saturationCurrent: Infinity,
  residualFlux: 0,
  synchronousInductance: 120e-6,
  statorResistance20: 0.037,
  fieldResistance20: 3,
  diodeDrop: 0.9,
  brushDrop: 0.6,
};

/** Machine 2 [SARAFIANOS2015], measured: min⁻¹, output A, output V, field A, line rms V, line rms A. */
export const measuredSarafianos = [
  [1967, 36.058, 13.49, 1.97, 12.26, 27.9],
  [3994, 36.24, 13.54, 1.25, 12.42, 27.5],
  [3983, 55.65, 13.58, 1.65, 12.55, 41.7],
  [5992, 36.22, 13.61, 1.06, 12.53, 27.3],
  [5985, 56.19, 13.46, 1.51, 12.46, 42.0],
  [5967, 75.61, 13.58, 1.97, 12.6, 56.3],
] as const;

/** Copper at 80 °C, where nameplates are taken to hold, over copper at 20 °C. */
export const RATING_HEAT = 1 + 0.00393 * 60;

export const result: AlternatorCurrent = { current: 0, dByVoltage: 0, dByFieldCurrent: 0 };

/** Healthy output current; the derivatives stay in `result`. */
export function outputOf(
  machine: AlternatorMachine,
  speed: number,
  field: number,
  voltage: number,
  temperature = 293.15,
): number {
  alternatorCurrent(machine, speed, field, voltage, temperature, 1, result);
  return result.current;
}

export function fitted(nameplate: AlternatorNameplate): AlternatorMachine {
  const fit = fitAlternator(nameplate);
  if (fit.kind !== 'fitted') throw new Error(fit.reason);
  return fit.machine;
}

/** Field current with the whole voltage on the winding, copper `heat` times its resistance at 20 °C. */
export function fullField(machine: AlternatorMachine, voltage: number, heat: number): number {
  return (voltage - machine.brushDrop) / (machine.fieldResistance20 * heat);
}

/** Machine 2 as its nameplate tells it: 120 A at 2000 min⁻¹, 180 A at 6000 min⁻¹. */
export function nameplateSarafianos(): AlternatorMachine {
  return fitted({
    nominalVoltage: 12,
    ratedCurrent: 180,
    points: [{ speed: perMinute(2000), current: 120 }],
    polePairs: 8,
    fieldResistance: 1.9,
  });
}
