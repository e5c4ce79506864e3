/** Bridge and winding faults of an alternator: what is left of its output, the heat, and the drain at rest.
 *  Share of healthy output, at full field and one bus voltage, by speed; computed by time-step simulation of an
 *  idealised machine with the data of [RIVAS2004]; our own simulation (a test) agrees within 0.02:
 *      min⁻¹ (ω · L_s / R_s)   1800 (3.67)   3000 (6.11)   6000 (12.2)
 *      diode open               .67           .83           .98
 *      phase open               .33           .52           .57
 *      diode shorted            .23           .28           .30
 *  Carried to another machine by the ratio x = ω · L_s / R_s20, smooth (cubic in ln x) between and constant outside.
 *  Shorted turns (derived here, low confidence): a fraction h of one phase closed on itself carries
 *    I_h = V_s / sqrt(R_s² + (h · X)²)          X = ω · L_s
 *  whose magnetomotive force, against that of a whole phase on short circuit, is λ = h · X / sqrt(R_s² + (h · X)²);
 *    share = 1 − λ · (1 − share of an open phase)        heat in the loop = h · R_s · I_h² / 2
 *  Leaves out: partial field (the share of an open diode is then nearer to 1), arcing, two faults at once. */
import { type AlternatorMachine, alternatorFlux } from './alternator.ts';
import { copperRatio } from './conductor.ts';
import { type DiodeCurrent, type DiodeLaw, diodeCurrent } from './diode.ts';
import { requireWithin } from './guard.ts';

export type AlternatorFault =
  | { readonly kind: 'none' }
  | { readonly kind: 'diode-open' }
  | { readonly kind: 'diode-shorted' }
  | { readonly kind: 'phase-open' }
  /** `fraction` of the turns of one phase closed on themselves, 0–1. */
  | { readonly kind: 'turns-shorted'; readonly fraction: number };

const LOG_RATIO = [Math.log(3.67), Math.log(6.11), Math.log(12.2)] as const;
const SHARES = {
  'diode-open': [0.67, 0.83, 0.98],
  'phase-open': [0.33, 0.52, 0.57],
  'diode-shorted': [0.23, 0.28, 0.3],
} as const;

/** Output over healthy output, at a shaft speed [rad/s]: the `share` argument of `alternatorCurrent`. */
export function alternatorOutputShare(
  machine: AlternatorMachine,
  fault: AlternatorFault,
  speed: number,
): number {
  if (fault.kind === 'none' || speed <= 0) return 1;
  const ratio = (machine.polePairs * speed * machine.synchronousInductance) / machine.statorResistance20;
  if (fault.kind !== 'turns-shorted') return tabledShare(SHARES[fault.kind], ratio);
  const lost = loopShare(fault.fraction, ratio);
  return 1 - lost * (1 - tabledShare(SHARES['phase-open'], ratio));
}

/** Heat in a shorted part of the winding, or in the windings that a shorted diode closes [W], beyond that of the output.
 *  A shorted diode lets two phases drive each other through half of each cycle: taken as the whole-phase loop, h = 1,
 *  for half the time (derived here, low confidence). */
export function alternatorFaultHeat(
  machine: AlternatorMachine,
  fault: AlternatorFault,
  speed: number,
  fieldCurrent: number,
  statorTemperature: number,
): number {
  if (fault.kind !== 'turns-shorted' && fault.kind !== 'diode-shorted') return 0;
  const fraction = fault.kind === 'turns-shorted' ? fault.fraction : 1;
  const dutyOfCycle = fault.kind === 'turns-shorted' ? 1 : 0.5;
  const electricalSpeed = machine.polePairs * speed;
  const resistance = machine.statorResistance20 * copperRatio(statorTemperature);
  const source = electricalSpeed * alternatorFlux(machine, fieldCurrent);
  const loop = source / Math.hypot(resistance, fraction * electricalSpeed * machine.synchronousInductance);
  return (dutyOfCycle * fraction * resistance * loop * loop) / 2;
}

/** Current drawn from the battery at rest through a shorted positive diode [A].
 *  With excitation diodes the path is stud → shorted diode → stator → excitation diode → field → ground:
 *    I · R_field + V_excitation(I) = V_battery
 *  and the charge lamp may glow with the key off. Without excitation diodes one shorted diode drains nothing,
 *  as the negative diodes still block; a shorted diode of each sign is a short circuit across the battery.
 *  Source: the circuit itself; the tap that is live at rest is [TM 10-3930-671-24 F-276]. */
export function restDrainThroughShortedDiode(
  batteryVoltage: number,
  fieldResistance: number,
  excitation: DiodeLaw,
): number {
  requireWithin('restDrainThroughShortedDiode', 'batteryVoltage', batteryVoltage, 'V', 0, 100);
  requireWithin('restDrainThroughShortedDiode', 'fieldResistance', fieldResistance, 'Ω', 0.01, 1e6);
  const law: DiodeCurrent = { current: 0, dByVoltage: 0 };
  let low = 0;
  let high = batteryVoltage;
  for (let step = 0; step < 60; step++) {
    const drop = (low + high) / 2;
    diodeCurrent(excitation, drop, law);
    if (law.current * fieldResistance + drop > batteryVoltage) high = drop;
    else low = drop;
  }
  return (batteryVoltage - (low + high) / 2) / fieldResistance;
}

function loopShare(fraction: number, ratio: number): number {
  requireWithin('alternatorOutputShare', 'fraction', fraction, '', 0, 1);
  return (fraction * ratio) / Math.hypot(1, fraction * ratio);
}

/** Monotone cubic through the three tabled points, level outside. */
function tabledShare(shares: readonly [number, number, number], ratio: number): number {
  const x = Math.log(ratio);
  if (x <= LOG_RATIO[0]) return shares[0];
  if (x >= LOG_RATIO[2]) return shares[2];
  const firstWidth = LOG_RATIO[1] - LOG_RATIO[0];
  const secondWidth = LOG_RATIO[2] - LOG_RATIO[1];
  const first = (shares[1] - shares[0]) / firstWidth;
  const second = (shares[2] - shares[1]) / secondWidth;
  const middle = (2 * first * second) / (first + second);
  return x < LOG_RATIO[1]
    ? hermite((x - LOG_RATIO[0]) / firstWidth, shares[0], shares[1], 0, middle * firstWidth)
    : hermite((x - LOG_RATIO[1]) / secondWidth, shares[1], shares[2], middle * secondWidth, 0);
}

function hermite(t: number, from: number, to: number, fromSlope: number, toSlope: number): number {
  const u = 1 - t;
  return u * u * (1 + 2 * t) * from + t * t * (3 - 2 * t) * to + t * u * (u * fromSlope - t * toSlope);
}
