/** AC ripple at the stud and its frequencies.
 *    f = p · Ω / (2π)                u = r · I_dc · (R_battery + R_cable)
 *  f electrical frequency [Hz]  u ripple voltage, rms [V]  r ripple of the rectified current, rms over mean
 *  State          r at 1800 / 3000 / 6000 min⁻¹    strongest at
 *  healthy        .042                            6 f      ideal bridge, textbook (peak to peak 14.03 % of mean)
 *  diode open     .514 / .425 / .449              f
 *  phase open     .769 / .521 / .490              2 f      tends to 0.483, the single-phase full-wave rectifier
 *  diode shorted  .996 / .858 / .819              f
 *  turns shorted  hypot(.042, .483 · (1 − share))  2 f     derived here, low confidence
 *  The three faulty rows are a time-step simulation of bridge and machine [RIVAS2004 machine, full field, 14 V], kept as a
 *  test. Between the speeds r follows the share of output (alternator-fault.ts), straight, level outside.
 *  The battery is taken as a resistance.
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

/** Share of output and ripple at 1800, 3000 and 6000 min⁻¹. */
const SIMULATED = {
  'diode-open': { shares: [0.67, 0.83, 0.98], ripples: [0.514, 0.425, 0.449] },
  'phase-open': { shares: [0.33, 0.52, 0.57], ripples: [0.769, 0.521, 0.49] },
  'diode-shorted': { shares: [0.23, 0.28, 0.3], ripples: [0.996, 0.858, 0.819] },
} as const;
const HEALTHY = 0.042;
const SINGLE_PHASE = 0.483;

/** Ripple of the rectified current, rms over mean. `share` of healthy output at this speed. */
export function rippleFactor(fault: AlternatorFault, share: number): number {
  if (fault.kind === 'none') return HEALTHY;
  if (fault.kind === 'turns-shorted') return Math.hypot(HEALTHY, SINGLE_PHASE * (1 - share));
  const { shares, ripples } = SIMULATED[fault.kind];
  const [slow, middle, fast] = shares;
  return share < middle
    ? between(share, slow, middle, ripples[0], ripples[1])
    : between(share, middle, fast, ripples[1], ripples[2]);
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

function between(x: number, from: number, to: number, atFrom: number, atTo: number): number {
  const t = Math.min(Math.max((x - from) / (to - from), 0), 1);
  return atFrom + t * (atTo - atFrom);
}
