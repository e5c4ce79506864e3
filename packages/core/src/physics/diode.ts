/** Diodes in the power path: a junction (isolator, excitation) and a FET isolator.
 *  Junction:  I = I_0 · (e^(V / V_n) − 1)         V ≤ V_lin
 *             I = I(V_lin) + g · (V − V_lin)      above, with g the slope there
 *  FET:       I = softPlus(V − V_offset, w) / R   w = 0.005 V
 *  I current from anode to cathode [A]  V anode to cathode [V]  V_n emission voltage [V]  I_0 [A]
 *  Source: Shockley's law; two points of an isolator diode, 0.6 V at 1 A and 0.9 V at 100 A (common practice).
 *  V falls 2 mV/K at one current (textbook, from memory); it is applied as a shift of V.
 *  Leaves out: breakdown, recovery, self-heating. Current rises with voltage everywhere. */
import { requirePositive } from './guard.ts';
import { softPlus, softPlusSlope, softPlusSpice, spiceNumber } from './smooth.ts';

export interface JunctionDiode {
  readonly kind: 'junction';
  /** I_0 [A]. */
  readonly saturationCurrent: number;
  /** V_n [V]. */
  readonly emissionVoltage: number;
  /** V_lin: above this the law goes on as a straight line [V]. */
  readonly linearAbove: number;
}

export interface FetDiode {
  readonly kind: 'fet';
  /** R [Ω]. */
  readonly resistance: number;
  /** V_offset: the drop that its controller regulates to [V]. */
  readonly offset: number;
}

export type DiodeLaw = JunctionDiode | FetDiode;

/** What `diodeCurrent` fills in. */
export interface DiodeCurrent {
  current: number;
  dByVoltage: number;
}

const FET_WIDTH = 0.005;
const SHIFT_PER_KELVIN = -0.002;

/** Junction through two points (V, I), straight above `linearAboveCurrent` [A]. */
export function junctionThrough(
  low: { readonly voltage: number; readonly current: number },
  high: { readonly voltage: number; readonly current: number },
  linearAboveCurrent: number,
): JunctionDiode {
  requirePositive('junctionThrough', 'low.current', low.current, 'A');
  requirePositive('junctionThrough', 'high.voltage − low.voltage', high.voltage - low.voltage, 'V');
  requirePositive('junctionThrough', 'high.current − low.current', high.current - low.current, 'A');
  requirePositive('junctionThrough', 'linearAboveCurrent', linearAboveCurrent, 'A');
  let saturationCurrent = 0;
  let emissionVoltage = 0;
  // The −1 of Shockley's law couples the two unknowns weakly; each pass gains some four digits.
  for (let pass = 0; pass < 6; pass++) {
    const ratio = (high.current + saturationCurrent) / (low.current + saturationCurrent);
    emissionVoltage = (high.voltage - low.voltage) / Math.log(ratio);
    saturationCurrent = low.current / Math.expm1(low.voltage / emissionVoltage);
  }
  const linearAbove = emissionVoltage * Math.log1p(linearAboveCurrent / saturationCurrent);
  return { kind: 'junction', saturationCurrent, emissionVoltage, linearAbove };
}

/** Emission voltage of a silicon rectifier [V]: 1.55 times kT/q; between 1 and 2 in textbooks. With the whole rise to 0.9 V
 *  taken for emission the diode would leak a tenth of a milliampere backwards, where a real one leaks microamperes. */
const RECTIFIER_EMISSION = 0.04;
/** Isolator diode, 0.6 V at 1 A, straight above 200 A; `ISOLATOR_RESISTANCE` in series makes it 0.9 V at 100 A. Common practice. */
export const ISOLATOR_DIODE: JunctionDiode = junctionThrough(
  { voltage: 0.6, current: 1 },
  { voltage: 0.6 + RECTIFIER_EMISSION * Math.log(100), current: 100 },
  200,
);
/** Leads and body of an isolator diode [Ω]. */
export const ISOLATOR_RESISTANCE = (0.3 - RECTIFIER_EMISSION * Math.log(100)) / 100;
/** FET isolator, 20 mV and 1 mΩ. Common practice. */
export const FET_ISOLATOR: FetDiode = { kind: 'fet', resistance: 0.001, offset: 0.02 };
/** Excitation diode of a D+ trio, 0.6 V at 0.1 A and 0.85 V at 5 A. Common practice. */
export const EXCITATION_DIODE: JunctionDiode = junctionThrough(
  { voltage: 0.6, current: 0.1 },
  { voltage: 0.85, current: 5 },
  20,
);

/** Junction at a temperature [K]: its voltages shifted 2 mV/K from 298.15 K. A FET is returned as it is. */
export function diodeAtTemperature(diode: DiodeLaw, temperature: number): DiodeLaw {
  if (diode.kind === 'fet') return diode;
  const shift = SHIFT_PER_KELVIN * (temperature - 298.15);
  return {
    ...diode,
    saturationCurrent: diode.saturationCurrent * Math.exp(-shift / diode.emissionVoltage),
    linearAbove: diode.linearAbove + shift,
  };
}

/** Current and conductance. HOT: no allocation; writes `out`. */
export function diodeCurrent(diode: DiodeLaw, voltage: number, out: DiodeCurrent): void {
  if (diode.kind === 'fet') {
    out.current = softPlus(voltage - diode.offset, FET_WIDTH) / diode.resistance;
    out.dByVoltage = softPlusSlope(voltage - diode.offset, FET_WIDTH) / diode.resistance;
    return;
  }
  const knee = voltage < diode.linearAbove ? voltage : diode.linearAbove;
  const growth = diode.saturationCurrent * Math.exp(knee / diode.emissionVoltage);
  const conductance = growth / diode.emissionVoltage;
  out.current = growth - diode.saturationCurrent + conductance * (voltage - knee);
  out.dByVoltage = conductance;
}

/** `diodeCurrent` as ngspice text; `voltage` is an ngspice expression, anode to cathode. */
export function diodeCurrentSpice(diode: DiodeLaw, voltage: string): string {
  const n = spiceNumber;
  if (diode.kind === 'fet') {
    return `(${softPlusSpice(`((${voltage})-${n(diode.offset)})`, FET_WIDTH)}/${n(diode.resistance)})`;
  }
  const top = diode.saturationCurrent * Math.exp(diode.linearAbove / diode.emissionVoltage);
  const limit = n(diode.linearAbove);
  return (
    `(${n(diode.saturationCurrent)}*(exp(min(${voltage},${limit})/${n(diode.emissionVoltage)})-1)` +
    `+${n(top / diode.emissionVoltage)}*max((${voltage})-${limit},0))`
  );
}
