/** A second alternator, from a table: the full-field curve as a bench records it, behind the same call.
 *    I = λ · I_table(Ω · λ · E_t / E) · (1 − c · (T − T_t))
 *    λ = tanh(i_f / i_k) / tanh(i_F / i_k)       E ∝ V_dc + 2 · V_d
 *  I_table by monotone cubic interpolation, zero with zero slope at cut-in, level above the last point.
 *  λ flux over full-field flux  i_F full-field current [A]  i_k knee [A]  E_t, T_t at the test  c = 0.001 /K (from memory)
 *  The scaling is that of a machine without stator resistance (current ∝ flux, cut-in speed ∝ voltage / flux).
 *  Unlike the closed form it has no L_s and no R_s, another saturation curve and a soft start at cut-in. It is there to
 *  disagree: for checks, and for benchmarks that must not use the physics that made them.
 *  Source: similarity of [CALISKAN2003] at R_s = 0; interpolation after Fritsch and Carlson (from memory). */
import type { AlternatorCurrent } from './alternator.ts';
import { requirePositive } from './guard.ts';
import { softPlus, softPlusSlope } from './smooth.ts';

export interface TabulatedAlternator {
  /** Shaft speeds, rising, the first is cut-in [rad/s]. */
  readonly speeds: readonly number[];
  /** Output at full field and test voltage, rising, the first 0 [A]. */
  readonly currents: readonly number[];
  /** Slopes of the curve at the points, from `tabulatedAlternator` [A·s/rad]. */
  readonly slopes: readonly number[];
  readonly testVoltage: number;
  readonly testTemperature: number;
  readonly fullFieldCurrent: number;
  readonly kneeCurrent: number;
  readonly diodeDrop: number;
}

export const DERATE_PER_KELVIN = 0.001;
export const VOLTAGE_WIDTH = 0.05;
/** Keeps the scaled speed finite when the output is shorted [V]. */
export const VOLTAGE_FLOOR = 0.05;

/** Table with its slopes. Errors: RangeError unless there are two points or more, rising, starting at 0 A. */
export function tabulatedAlternator(table: Omit<TabulatedAlternator, 'slopes'>): TabulatedAlternator {
  const { speeds, currents } = table;
  if (speeds.length < 2 || speeds.length !== currents.length || currents[0] !== 0) {
    throw new RangeError(
      `tabulatedAlternator: needs two or more points starting at 0 A, got ${speeds.length}`,
    );
  }
  const count = speeds.length;
  const rises: number[] = [];
  for (let k = 0; k + 1 < count; k++) {
    requirePositive(
      'tabulatedAlternator',
      `speeds[${k + 1}] − speeds[${k}]`,
      speeds[k + 1]! - speeds[k]!,
      'rad/s',
    );
    requirePositive(
      'tabulatedAlternator',
      `currents[${k + 1}] − currents[${k}]`,
      currents[k + 1]! - currents[k]!,
      'A',
    );
    rises.push((currents[k + 1]! - currents[k]!) / (speeds[k + 1]! - speeds[k]!));
  }
  const slopes = speeds.map((_, k) =>
    k === 0 || k === count - 1 ? 0 : (2 * rises[k - 1]! * rises[k]!) / (rises[k - 1]! + rises[k]!),
  );
  return { ...table, slopes };
}

/** Output current and derivatives; the arguments of `alternatorCurrent`. HOT: no allocation; writes `out`. */
export function tabulatedAlternatorCurrent(
  table: TabulatedAlternator,
  speed: number,
  fieldCurrent: number,
  outputVoltage: number,
  statorTemperature: number,
  share: number,
  out: AlternatorCurrent,
): void {
  const full = Math.tanh(table.fullFieldCurrent / table.kneeCurrent);
  const bent = Math.tanh(fieldCurrent / table.kneeCurrent);
  const flux = bent > 0 ? bent / full : 0;
  const fluxSlope = bent > 0 ? (1 - bent * bent) / (table.kneeCurrent * full) : 0;
  const raw = outputVoltage + 2 * table.diodeDrop;
  const back = softPlus(raw, VOLTAGE_WIDTH) + VOLTAGE_FLOOR;
  const scaled = (speed * flux * (table.testVoltage + 2 * table.diodeDrop)) / back;
  const factor = share * (1 - DERATE_PER_KELVIN * (statorTemperature - table.testTemperature));
  const { speeds, currents, slopes } = table;
  const last = speeds.length - 1;
  let current = 0;
  let slope = 0;
  if (scaled >= speeds[last]!) {
    current = currents[last]!;
  } else if (scaled > speeds[0]!) {
    let k = 0;
    while (scaled > speeds[k + 1]!) k++;
    const width = speeds[k + 1]! - speeds[k]!;
    const t = (scaled - speeds[k]!) / width;
    const u = 1 - t;
    const from = currents[k]!;
    const to = currents[k + 1]!;
    const fromSlope = slopes[k]! * width;
    const toSlope = slopes[k + 1]! * width;
    current = u * u * (1 + 2 * t) * from + t * t * (3 - 2 * t) * to + t * u * (u * fromSlope - t * toSlope);
    slope = (6 * t * u * (to - from) + u * (1 - 3 * t) * fromSlope + t * (3 * t - 2) * toSlope) / width;
  }
  out.current = factor * flux * current;
  out.dByVoltage = (-factor * flux * slope * scaled * softPlusSlope(raw, VOLTAGE_WIDTH)) / back;
  out.dByFieldCurrent = flux > 0 ? factor * fluxSlope * (current + slope * scaled) : 0;
}
