/** Field winding: resistance, current under a chopping regulator, what its terminals show.
 *    R_f(T) = R_f20 · copper ratio        i_f = softPlus(d · V_f − V_b, 0.02 V) / R_f
 *  d duty, 0 to 1  V_f across regulator and winding [V]  V_b both brushes [V]  R_f [Ω]  i_f mean current [A]
 *  The winding's inductance (about 0.1–0.3 s time constant) and the freewheel diode keep the current smooth while the
 *  regulator chops, so the mean holds; the freewheel drop, (1 − d) · 0.7 V, is left out. At 14 V it lowers i_f by less than 5 %
 *  from d = 0.6 on and by a quarter at 0.2; a regulator makes up for it with a little more duty.
 *  Source: Ohm's law; copper [IEC60028]; brush drop common practice.
 *  Also left out: slip-ring resistance that grows with dirt, which a fault adds as resistance. */
import { copperRatio } from './conductor.ts';
import { softPlus, softPlusSlope, softPlusSpice, spiceNumber } from './smooth.ts';

/** Which end the regulator switches: 'positive' feeds F+ from the plus (other end on ground); 'negative' pulls F− down. */
export type FieldSwitching = 'positive' | 'negative';

export interface FieldWinding {
  readonly fieldResistance20: number;
  readonly brushDrop: number;
}

/** What `fieldCurrent` fills in. */
export interface FieldCurrent {
  current: number;
  /** ∂ current / ∂ supply voltage [A/V]. */
  dByVoltage: number;
  /** ∂ current / ∂ duty [A]. */
  dByDuty: number;
}

const BRUSH_WIDTH = 0.02;

/** Winding resistance at a temperature [Ω]. HOT: no allocation. */
export function fieldResistance(winding: FieldWinding, temperature: number): number {
  return winding.fieldResistance20 * copperRatio(temperature);
}

/** Mean field current; `extraResistance` [Ω] for leads, worn brushes, dirty rings. HOT: no allocation; writes `out`. */
export function fieldCurrent(
  winding: FieldWinding,
  duty: number,
  supplyVoltage: number,
  temperature: number,
  extraResistance: number,
  out: FieldCurrent,
): void {
  const resistance = fieldResistance(winding, temperature) + extraResistance;
  const driving = duty * supplyVoltage - winding.brushDrop;
  const slope = softPlusSlope(driving, BRUSH_WIDTH) / resistance;
  out.current = softPlus(driving, BRUSH_WIDTH) / resistance;
  out.dByVoltage = slope * duty;
  out.dByDuty = slope * supplyVoltage;
}

/** `fieldCurrent` as ngspice text; `at.duty` and `at.voltage` are ngspice expressions. */
export function fieldCurrentSpice(
  winding: FieldWinding,
  temperature: number,
  extraResistance: number,
  at: { readonly duty: string; readonly voltage: string },
): string {
  const driving = `((${at.duty})*(${at.voltage})-${spiceNumber(winding.brushDrop)})`;
  const resistance = fieldResistance(winding, temperature) + extraResistance;
  return `(${softPlusSpice(driving, BRUSH_WIDTH)}/${spiceNumber(resistance)})`;
}

/** Mean voltages of the two field terminals against ground, as a meter on DC shows them [V]. */
export function fieldTerminalVoltages(
  switching: FieldSwitching,
  duty: number,
  supplyVoltage: number,
): { readonly first: number; readonly second: number } {
  return switching === 'positive'
    ? { first: duty * supplyVoltage, second: 0 }
    : { first: supplyVoltage, second: (1 - duty) * supplyVoltage };
}
