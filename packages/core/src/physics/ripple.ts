/** AC ripple at the stud and its frequencies.
 *    f = p · Ω / (2π)                u = r · I_dc · (R_battery + R_cable)
 *  f electrical frequency [Hz]  u ripple voltage, rms [V]  r ripple of the rectified current, rms over mean
 *  State          r                              strongest at   from
 *  healthy        0.0420                         6 f            ideal bridge, textbook (peak to peak 14.03 % of mean)
 *  phase open     0.483                          2 f            single-phase full-wave rectifier, textbook
 *  diode shorted  1.21                           f              single-phase half-wave rectifier, textbook; a rough upper value
 *  diode open     0.607 to 0.707                 f              derived below
 *  turns shorted  hypot(0.042, 0.483 · (1 − share))  2 f        derived here, low confidence
 *  Diode open: near cut-in one of six half waves is missing, i = i_b⁺ + i_c⁺: mean 2/3 of healthy and r = 0.607.
 *  At high speed the winding carries a steady offset instead and i = I · (1 − cos θ): share near 1, r = 0.707. Between,
 *  r follows the share of output (alternator-fault.ts).
 *  Phase currents are taken as sines, the battery as a resistance.
 *  Leaves out: inductance of cable and battery (raises 6 f more than f), capacitors, chopping of the field, loads that
 *  share the current, and the bandwidth of the meter (instruments.ts). */
import type { AlternatorFault } from './alternator-fault.ts';
import { requireWithin } from './guard.ts';

export interface Ripple {
  /** RMS of the AC part at the stud [V]. */
  readonly voltage: number;
  /** Where most of it lies [Hz]. */
  readonly frequency: number;
  /** Electrical frequency f of the machine [Hz], what a W terminal gives. */
  readonly electricalFrequency: number;
  /** `frequency` / `electricalFrequency`. */
  readonly order: 1 | 2 | 6;
}

/** Ripple of the rectified current, rms over mean. `share` of healthy output at this speed. */
export function rippleFactor(fault: AlternatorFault, share: number): number {
  switch (fault.kind) {
    case 'none':
      return 0.042;
    case 'phase-open':
      return 0.483;
    case 'diode-shorted':
      return 1.21;
    case 'diode-open':
      return 0.607 + (0.707 - 0.607) * Math.min(Math.max((share - 2 / 3) * 3, 0), 1);
    case 'turns-shorted':
      return Math.hypot(0.042, 0.483 * (1 - share));
  }
}

/** Ripple at the stud. `outputCurrent` as it flows, with the fault [A]; `resistance` of battery and cable [Ω];
 *  `speed` of the shaft [rad/s]. */
export function studRipple(
  polePairs: number,
  speed: number,
  outputCurrent: number,
  resistance: number,
  fault: AlternatorFault,
  share: number,
): Ripple {
  requireWithin('studRipple', 'resistance', resistance, 'Ω', 0, 1e3);
  const electricalFrequency = (polePairs * speed) / (2 * Math.PI);
  const order = strongestOrder(fault);
  return {
    voltage: rippleFactor(fault, share) * outputCurrent * resistance,
    frequency: order * electricalFrequency,
    electricalFrequency,
    order,
  };
}

/** Order of the strongest part of the ripple, in electrical frequencies. */
export function strongestOrder(fault: AlternatorFault): 1 | 2 | 6 {
  switch (fault.kind) {
    case 'none':
      return 6;
    case 'phase-open':
    case 'turns-shorted':
      return 2;
    case 'diode-open':
    case 'diode-shorted':
      return 1;
  }
}
