/** Excitation: the first field current, and whether the machine then feeds its own field.
 *  Lamp:   I = V / (R_cold · (1 + (V / V_1)²)^0.2)      I ∝ V^0.6 when it glows, R_cold when it does not
 *  Self-excitation through the excitation diodes (D+):
 *    V_D = (3√3/π) · ω · ψ(i) − 2 · V_on                open-circuit mean of the bridge less two diodes
 *    excess(i) = V_D − R_f · i − V_b                    what drives the field current up
 *  ψ is concave, so excess is too. From a first current i_0 the field builds when excess(i_0) > 0 and excess(i_F) > 0,
 *  i_F the current at battery voltage: then it is positive all the way between. Once up, it holds as long as excess is
 *  positive anywhere: it drops out at a lower speed than it starts (latched).
 *  ω [rad/s]  ψ [V·s]  V_on = 0.7 V (two drops about 1.4 V, textbook, from memory)  R_f [Ω]  V_b brushes [V]
 *  Source: derived here from the flux curve; lamp 2–3 W giving 0.1–0.2 A is textbook; exponent 0.6 and a cold filament
 *  of one tenth of the hot resistance are from memory.
 *  Leaves out: build-up time, a film on the slip rings (enters as extra field resistance), rotor turning backwards. */
import { type AlternatorMachine, alternatorFlux, alternatorFluxSlope } from './alternator.ts';
import { fieldResistance } from './field.ts';
import { requirePositive } from './guard.ts';
import { spiceNumber } from './smooth.ts';

export interface Lamp {
  /** R_cold [Ω]. */
  readonly coldResistance: number;
  /** V_1 [V]. */
  readonly kneeVoltage: number;
}

/** What feeds the first field current: a lamp, a resistor or plain wire (0 Ω), or nothing but residual magnetism. */
export type ExcitationSource =
  | { readonly kind: 'lamp'; readonly lamp: Lamp; readonly extraResistance: number }
  | { readonly kind: 'wire'; readonly extraResistance: number }
  | { readonly kind: 'none' };

/** What `lampCurrent` fills in. */
export interface LampCurrent {
  current: number;
  dByVoltage: number;
}

export interface Excitation {
  readonly kind: 'builds' | 'too-slow' | 'no-first-current';
  /** First field current [A]. */
  readonly firstCurrent: number;
  /** Shaft speed above which the field builds up from rest [rad/s]; Infinity when it never does. */
  readonly buildSpeed: number;
  /** Shaft speed below which an excited field collapses [rad/s]. */
  readonly holdSpeed: number;
}

const STARTING_DROPS = 1.4;
const BRIDGE_MEAN = (3 * Math.sqrt(3)) / Math.PI;

/** Lamp by its rating: `power` [W] at `voltage` [V]; cold a tenth of its hot resistance. */
export function lampOf(power: number, voltage: number): Lamp {
  requirePositive('lampOf', 'power', power, 'W');
  requirePositive('lampOf', 'voltage', voltage, 'V');
  const coldResistance = (voltage * voltage) / power / 10;
  return { coldResistance, kneeVoltage: voltage / Math.sqrt(10 ** 5 - 1) };
}

/** Lamp current at `at.voltage`; odd, smooth, rising. HOT: no allocation; writes `at`. */
export function lampCurrentAt(lamp: Lamp, at: LampCurrent & { voltage: number }): void {
  const ratio = at.voltage / lamp.kneeVoltage;
  const square = 1 + ratio * ratio;
  const cold = Math.exp(-0.2 * Math.log(square)) / lamp.coldResistance;
  at.current = at.voltage * cold;
  at.dByVoltage = cold * (1 - (0.4 * ratio * ratio) / square);
}

/** The same at a voltage of its own [V]. */
export function lampCurrent(lamp: Lamp, voltage: number, out: LampCurrent): void {
  LAMP_AT.voltage = voltage;
  lampCurrentAt(lamp, LAMP_AT);
  out.current = LAMP_AT.current;
  out.dByVoltage = LAMP_AT.dByVoltage;
}

const LAMP_AT = { voltage: 0, current: 0, dByVoltage: 0 };

/** `lampCurrent` as ngspice text. */
export function lampCurrentSpice(lamp: Lamp, voltage: string): string {
  const ratio = `((${voltage})/${spiceNumber(lamp.kneeVoltage)})`;
  return `((${voltage})/(${spiceNumber(lamp.coldResistance)}*pow(1+${ratio}*${ratio},0.2)))`;
}

/** Field current before the machine turns [A]: source, brushes and winding in series on the battery. */
export function firstFieldCurrent(
  source: ExcitationSource,
  batteryVoltage: number,
  windingResistance: number,
  brushDrop: number,
): number {
  const available = batteryVoltage - brushDrop;
  if (source.kind === 'none' || available <= 0) return 0;
  const series = windingResistance + source.extraResistance;
  if (source.kind === 'wire') return available / series;
  const law: LampCurrent = { current: 0, dByVoltage: 0 };
  let low = 0;
  let high = available;
  for (let step = 0; step < 60; step++) {
    const voltage = (low + high) / 2;
    lampCurrent(source.lamp, voltage, law);
    if (voltage + law.current * series > available) high = voltage;
    else low = voltage;
  }
  return (available - (low + high) / 2) / series;
}

/** Whether self-excitation begins at a shaft speed, from where, and down to where it holds. */
export function excitationBuilds(
  machine: AlternatorMachine,
  source: ExcitationSource,
  speed: number,
  batteryVoltage: number,
  fieldTemperature: number,
  extraFieldResistance: number,
): Excitation {
  const resistance = fieldResistance(machine, fieldTemperature) + extraFieldResistance;
  requirePositive('excitationBuilds', 'field resistance', resistance, 'Ω');
  const firstCurrent = firstFieldCurrent(source, batteryVoltage, resistance, machine.brushDrop);
  const fullCurrent = Math.max((batteryVoltage - machine.brushDrop) / resistance, firstCurrent);
  const buildSpeed = Math.max(
    balanceSpeed(machine, resistance, firstCurrent),
    balanceSpeed(machine, resistance, fullCurrent),
  );
  const holdSpeed = Math.min(collapseSpeed(machine, resistance, fullCurrent), buildSpeed);
  if (buildSpeed === Infinity) return { kind: 'no-first-current', firstCurrent, buildSpeed, holdSpeed };
  return { kind: speed > buildSpeed ? 'builds' : 'too-slow', firstCurrent, buildSpeed, holdSpeed };
}

/** V_D: what the machine would put on D+ with nothing drawn from it [V]; `speed` of the shaft [rad/s]. */
export function openExcitationVoltage(
  machine: AlternatorMachine,
  speed: number,
  fieldCurrent: number,
): number {
  return BRIDGE_MEAN * machine.polePairs * speed * alternatorFlux(machine, fieldCurrent) - STARTING_DROPS;
}

/** Shaft speed at which excess(i) = 0 [rad/s]. */
function balanceSpeed(machine: AlternatorMachine, resistance: number, current: number): number {
  const flux = alternatorFlux(machine, current);
  if (flux <= 0) return Infinity;
  return (
    (resistance * current + machine.brushDrop + STARTING_DROPS) / (BRIDGE_MEAN * flux * machine.polePairs)
  );
}

/** Least speed at which excess is nowhere below zero: the minimum of the balance speed over the field current, where
 *  (R_f · i + V_b + 2 V_on) · ψ′ = R_f · ψ. */
function collapseSpeed(machine: AlternatorMachine, resistance: number, fullCurrent: number): number {
  let low = 0;
  let high = fullCurrent;
  for (let step = 0; step < 50; step++) {
    const current = (low + high) / 2;
    const stillFalling =
      (resistance * current + machine.brushDrop + STARTING_DROPS) * alternatorFluxSlope(machine, current) >
      resistance * alternatorFlux(machine, current);
    if (stillFalling) low = current;
    else high = current;
  }
  return balanceSpeed(machine, resistance, (low + high) / 2);
}
