/** Losses, shaft power, torque and efficiency of an alternator at one operating point.
 *    I = π/3 · I_dc          V_g = E + R_s · I         n = Ω / (6000 min⁻¹)
 *    stator copper  1.05 · 3/2 · R_s · I²              bridge  2 · V_d · I_dc
 *    field          V_f · i_f                          stator iron  p_iron · (V_g / V_g,rated)²
 *    pole faces     p_face · (I / I_rated)² · n^1.5    bearings and fan  p_bearing · n + p_fan · n³
 *    shaft power = V · I_dc + all but the field        torque = shaft power / Ω
 *    efficiency  = (V · I_dc − field) / shaft power    the field is fed from the output
 *  I, I_rated phase amplitudes [A]  E, V_g [V]  p [W at the rated point]  Ω [rad/s]
 *  3/2 · E · I = V_e · I_dc, so output, bridge and sine copper add up exactly to the closed form of alternator.ts.
 *  1.05: measured I_L/I_dc of 0.745–0.774 against 0.7405 for sine [SARAFIANOS2015], squared.
 *  p_iron, p_face, p_bearing, p_fan = 4, 6, 1.5, 3.5 % of rated output: from memory, low confidence.
 *  Leaves out: regulator and ripple losses. */
import type { AlternatorMachine } from './alternator.ts';
import { RATED_SPEED, ratingVoltage } from './alternator-fit.ts';
import { copperRatio } from './conductor.ts';
import { requirePositive } from './guard.ts';

export interface StrayLosses {
  /** Powers at rated output and 6000 min⁻¹ [W]. */
  readonly statorIron: number;
  readonly poleFaces: number;
  readonly bearings: number;
  readonly fan: number;
  /** Phase current amplitude [A] and air-gap voltage [V] at the rated point. */
  readonly ratedAmplitude: number;
  readonly ratedGapVoltage: number;
}

export interface AlternatorPoint {
  /** Shaft [rad/s]. */
  readonly speed: number;
  readonly outputVoltage: number;
  /** Out of B+, before the field takes its part [A]. */
  readonly outputCurrent: number;
  readonly fieldCurrent: number;
  /** Across regulator and field together, both included in the field's power [V]. */
  readonly fieldVoltage: number;
  readonly statorTemperature: number;
  /** From `alternatorFaultHeat` [W]. */
  readonly faultHeat: number;
}

/** What `alternatorLosses` fills in; powers [W], torque [N·m]. */
export interface AlternatorLosses {
  statorCopper: number;
  bridge: number;
  field: number;
  iron: number;
  windage: number;
  fault: number;
  shaftPower: number;
  torque: number;
  /** Net electrical output over shaft power; 0 at rest or when the field takes more than is made. */
  efficiency: number;
  /** Heat left inside the machine: all losses but the air moved by the fan [W]. */
  heat: number;
}

const HARMONIC_COPPER = 1.05;

/** Stray losses scaled to a machine's rating. */
export function strayLosses(
  machine: AlternatorMachine,
  nominalVoltage: 12 | 24,
  ratedCurrent: number,
): StrayLosses {
  requirePositive('strayLosses', 'ratedCurrent', ratedCurrent, 'A');
  const voltage = ratingVoltage(nominalVoltage);
  const ratedAmplitude = (Math.PI / 3) * ratedCurrent;
  const power = voltage * ratedCurrent;
  return {
    statorIron: 0.04 * power,
    poleFaces: 0.06 * power,
    bearings: 0.015 * power,
    fan: 0.035 * power,
    ratedAmplitude,
    ratedGapVoltage: gapVoltage(machine, voltage, ratedAmplitude, machine.statorResistance20),
  };
}

/** A fresh result object to pass to `alternatorLosses`. */
export function emptyLosses(): AlternatorLosses {
  return {
    statorCopper: 0,
    bridge: 0,
    field: 0,
    iron: 0,
    windage: 0,
    fault: 0,
    shaftPower: 0,
    torque: 0,
    efficiency: 0,
    heat: 0,
  };
}

/** Losses and what the belt must bring. HOT: no allocation; writes `out`. */
export function alternatorLosses(
  machine: AlternatorMachine,
  stray: StrayLosses,
  point: AlternatorPoint,
  out: AlternatorLosses,
): void {
  const resistance = machine.statorResistance20 * copperRatio(point.statorTemperature);
  const amplitude = (Math.PI / 3) * point.outputCurrent;
  const relativeSpeed = point.speed / RATED_SPEED;
  const load = amplitude / stray.ratedAmplitude;
  // Below cut-in the bus no longer holds the phase voltage; iron loss then falls with speed.
  const gap = gapVoltage(machine, point.outputVoltage, amplitude, resistance) / stray.ratedGapVoltage;
  const turning = Math.tanh(6 * relativeSpeed);
  out.statorCopper = HARMONIC_COPPER * 1.5 * resistance * amplitude * amplitude;
  out.bridge = 2 * machine.diodeDrop * point.outputCurrent;
  out.field = point.fieldVoltage * point.fieldCurrent;
  out.iron =
    stray.statorIron * gap * gap * turning +
    stray.poleFaces * load * load * relativeSpeed * Math.sqrt(relativeSpeed);
  const fan = stray.fan * relativeSpeed * relativeSpeed * relativeSpeed;
  out.windage = stray.bearings * relativeSpeed + fan;
  out.fault = point.faultHeat;
  const output = point.outputVoltage * point.outputCurrent;
  out.shaftPower = output + out.statorCopper + out.bridge + out.iron + out.windage + out.fault;
  out.torque = point.speed > 0 ? out.shaftPower / point.speed : 0;
  const net = output - out.field;
  out.efficiency = point.speed > 0 && net > 0 ? net / out.shaftPower : 0;
  out.heat = out.shaftPower - output + out.field - fan;
}

function gapVoltage(
  machine: AlternatorMachine,
  voltage: number,
  amplitude: number,
  resistance: number,
): number {
  return (2 / Math.PI) * (voltage + 2 * machine.diodeDrop) + resistance * amplitude;
}
