/** Lead-acid cell after Copetti, Lorenzo and Chenlo, as published and as a law for the circuit.
 *  Published (per 2 V cell, I > 0 in A, C10 in Ah, ΔT = T − 25 °C): the functions named `...Copetti`.
 *    discharge  V = [2.085 − 0.12(1 − s)] − (I/C10)·[4/(1 + I^1.3) + 0.27/s^1.5 + 0.02]·(1 − 0.007 ΔT)
 *    charge     V = [2 + 0.16 s] + (I/C10)·[6/(1 + I^0.86) + 0.48/(1 − s)^1.2 + 0.036]·(1 − 0.025 ΔT)
 *  Law for the circuit: only the terms beyond the rest voltage, so V(I → 0) is the open-circuit table.
 *  I^1.3 and I^0.86 are in amperes, so the law runs on i = 100·|I|/C10, a battery of C10 = 100 Ah:
 *    discharge  f = −kd·i·[4/(1 + i^1.3) + Bd],               Bd = 0.27/s^1.5 + 0.02
 *    charge     f = +kc·i·[6/(1 + i^0.86) + Bc] − D·i/(1 + i/b)²,  Bc = 0.48/(1 − s)^1.2 + 0.036
 *    D = kc(6 + Bc) − kd(4 + Bd)   makes both sides meet with one slope at I = 0 (b = 0.5, i.e. C/200)
 *    kd, kc = cells/100 · factors of chemistry, age, sulphation, temperature   [V]
 *  Inside Bd, s is replaced by (s⁴ + 0.17⁴)^¼: a flooded cell then ends at 1.75 V when its C20 is taken out in 20 h, as C20
 *  is defined, where the published term falls without end; from s = 0.4 on it differs by at most 1.2 %. Inside Bc, s ≤ 0.998.
 *  kc's temperature factor ≥ 0.2.
 *  C10 = C20·(10/20)^(1 − 1/k), Peukert's k of the chemistry.
 *  Source: [COPETTI] equations; exponent 1.5 (one transcription has 1.2); the factors of AGM, gel, age and
 *  sulphation are estimates (data/batteries).  Valid: −30..60 °C  Leaves out: stratification, cell spread,
 *  temperature coefficient of the rest voltage (about +0.2 mV/K per cell). */

import agm from '../../data/batteries/agm.json' with { type: 'json' };
import flooded from '../../data/batteries/flooded.json' with { type: 'json' };
import gel from '../../data/batteries/gel.json' with { type: 'json' };

import { openCircuitSlopePerCell, openCircuitVoltagePerCell } from '../handbook/batteries.ts';
import type { BatteryLaw, PreparedBattery, VoltageAt } from './battery-law.ts';
import { prepareGassing } from './lead-acid-gassing.ts';

const PARAMETERS = { flooded, agm, gel } as const;
/** C10 of a C20 of 1. */
const TEN_HOUR_SHARE = {
  flooded: tenHourCapacity(1, flooded.peukertExponent.typical),
  agm: tenHourCapacity(1, agm.peukertExponent.typical),
  gel: tenHourCapacity(1, gel.peukertExponent.typical),
} as const;

/** A sulphated plate resists and accepts less: estimates, no source. */
const SULPHATION_ON_DISCHARGE = 1.5;
const SULPHATION_ON_CHARGE = 4;

/** Makes the 20 h discharge end at 1.75 V per cell; see above. */
const EMPTY_SHARE = 0.17;
const SLOPE_BLEND = 0.5;
const REFERENCE_TEMPERATURE = 298.15;

/** [V/cell]  current [A] > 0  tenHourCapacity [Ah]  temperature [K]. Source: [COPETTI]. Errors: none, NaN outside. */
export function dischargeVoltageCopetti(
  stateOfCharge: number,
  current: number,
  tenHourCapacity: number,
  temperature: number,
): number {
  const bracket = 4 / (1 + current ** 1.3) + 0.27 / stateOfCharge ** 1.5 + 0.02;
  const cold = 1 - 0.007 * (temperature - REFERENCE_TEMPERATURE);
  return 2.085 - 0.12 * (1 - stateOfCharge) - (current / tenHourCapacity) * bracket * cold;
}

/** [V/cell], below the gassing voltage only: it diverges at full. Units and source as above. */
export function chargeVoltageCopetti(
  stateOfCharge: number,
  current: number,
  tenHourCapacity: number,
  temperature: number,
): number {
  const bracket = 6 / (1 + current ** 0.86) + 0.48 / (1 - stateOfCharge) ** 1.2 + 0.036;
  const cold = 1 - 0.025 * (temperature - REFERENCE_TEMPERATURE);
  return 2 + 0.16 * stateOfCharge + (current / tenHourCapacity) * bracket * cold;
}

/** Vg = [2.24 + 1.97 ln(1 + I/C10)]·(1 − 0.002 ΔT) [V/cell]. Source: [COPETTI] */
export function gassingVoltageCopetti(current: number, tenHourCapacity: number, temperature: number): number {
  return (
    (2.24 + 1.97 * Math.log(1 + current / tenHourCapacity)) *
    (1 - 0.002 * (temperature - REFERENCE_TEMPERATURE))
  );
}

/** Vec = [2.45 + 2.011 ln(1 + I/C10)]·(1 − 0.002 ΔT) [V/cell]. Source: [COPETTI] */
export function endOfChargeVoltageCopetti(
  current: number,
  tenHourCapacity: number,
  temperature: number,
): number {
  return (
    (2.45 + 2.011 * Math.log(1 + current / tenHourCapacity)) *
    (1 - 0.002 * (temperature - REFERENCE_TEMPERATURE))
  );
}

/** τ = 17.3/(1 + 852 (I/C10)^1.67) h, returned in seconds. Source: [COPETTI] */
export function overchargeTimeCopetti(current: number, tenHourCapacity: number): number {
  return (3600 * 17.3) / (1 + 852 * (current / tenHourCapacity) ** 1.67);
}

/** C = 1.67 C10/(1 + 0.67 (I/I10)^0.9)·(1 + 0.005 ΔT) [Ah]. Source: [COPETTI]; exponent 0.9 from memory. */
export function capacityCopetti(current: number, tenHourCapacity: number, temperature: number): number {
  const ratio = current / (tenHourCapacity / 10);
  return (
    ((1.67 * tenHourCapacity) / (1 + 0.67 * ratio ** 0.9)) *
    (1 + 0.005 * (temperature - REFERENCE_TEMPERATURE))
  );
}

/** η = 1 − exp[20.73 (s − 1)/(I/I10 + 0.55)] [0..1]. Source: [COPETTI] */
export function chargeEfficiencyCopetti(
  stateOfCharge: number,
  current: number,
  tenHourCapacity: number,
): number {
  return 1 - Math.exp((20.73 * (stateOfCharge - 1)) / (current / (tenHourCapacity / 10) + 0.55));
}

/** C10 from C20, both in the same unit, by Peukert's exponent k: C20·(10/20)^(1 − 1/k). */
export function tenHourCapacity(twentyHourCapacity: number, peukertExponent: number): number {
  return twentyHourCapacity * 0.5 ** (1 - 1 / peukertExponent);
}

/** Fill the constants of one lead-acid battery. */
export function prepareLeadAcid(law: BatteryLaw, stateOfCharge: number, into: PreparedBattery): void {
  const chemistry = law.chemistry === 'agm' || law.chemistry === 'gel' ? law.chemistry : 'flooded';
  const parameters = PARAMETERS[chemistry];
  const resistance = parameters.resistance;
  const active = law.cells - law.shortedCells;
  const c10 = (law.capacity * TEN_HOUR_SHARE[chemistry]) / 3600;
  const warmer = law.temperature - REFERENCE_TEMPERATURE;
  const coldDischarge = 1 - 0.007 * warmer;
  const coldCharge = Math.max(0.2, 1 - 0.025 * warmer);
  const worn = law.resistanceFactor;
  const dischargeScale =
    (active / 100) *
    resistance.dischargeFactor *
    worn *
    coldDischarge *
    (1 + SULPHATION_ON_DISCHARGE * law.sulphation);
  const chargeScale =
    (active / 100) *
    resistance.chargeFactor *
    (worn / (law.acceptance ?? 1)) *
    coldCharge *
    (1 + SULPHATION_ON_CHARGE * law.sulphation);
  into.family = 0;
  into.emf = active * openCircuitVoltagePerCell(chemistry, stateOfCharge);
  into.emfSlope = active * openCircuitSlopePerCell(chemistry, stateOfCharge);
  into.ohmicResistance =
    active *
    resistance.ohmicPerCellAt100Ah_ohm *
    (360000 / law.capacity) *
    worn *
    coldDischarge *
    (1 + SULPHATION_ON_DISCHARGE * law.sulphation);
  into.perAmpere = 100 / c10;
  into.dischargeScale = dischargeScale;
  into.dischargeConstant = 0.27 / (stateOfCharge ** 4 + EMPTY_SHARE ** 4) ** 0.375 + 0.02;
  into.chargeScale = chargeScale;
  into.chargeConstant = 0.48 / Math.max(0.002, 1 - stateOfCharge) ** 1.2 + 0.036;
  into.slopeStep = chargeScale * (6 + into.chargeConstant) - dischargeScale * (4 + into.dischargeConstant);
  prepareGassing(law, active, parameters.gassing.conductanceFactor, into);
}

/** Settled f∞ at `at.current`, rest voltage not included. Hot: one logarithm and one exponential, no allocation. */
export function leadAcidOverpotential(p: PreparedBattery, at: VoltageAt): void {
  const { current } = at;
  if (current >= 0) {
    const i = current * p.perAmpere;
    // Twice as fast as Math.pow and as exact here: 0 for i = 0.
    const power = Math.exp(0.86 * Math.log(i));
    const one = 1 + power;
    const blend = 1 / (1 + i / SLOPE_BLEND);
    at.voltage = p.chargeScale * i * (6 / one + p.chargeConstant) - p.slopeStep * i * blend * blend;
    at.dByCurrent =
      p.perAmpere *
      (p.chargeScale * ((6 * (1 + 0.14 * power)) / (one * one) + p.chargeConstant) -
        p.slopeStep * (1 - i / SLOPE_BLEND) * blend * blend * blend);
  } else {
    const i = -current * p.perAmpere;
    const power = Math.exp(1.3 * Math.log(i));
    const one = 1 + power;
    at.voltage = -p.dischargeScale * i * (4 / one + p.dischargeConstant);
    at.dByCurrent =
      p.perAmpere * p.dischargeScale * ((4 * (1 - 0.3 * power)) / (one * one) + p.dischargeConstant);
  }
}

/** f∞(I) as text, the same law. The 1e-12 keeps the slope of pow finite at zero. */
export function leadAcidOverpotentialExpression(p: PreparedBattery, current: string): string {
  const charging = `(max((${current})*${p.perAmpere},0))`;
  const discharging = `(max(-(${current})*${p.perAmpere},0))`;
  return (
    `(${p.chargeScale}*${charging}*(6/(1+pow(${charging}+1e-12,0.86))+${p.chargeConstant})` +
    `-(${p.slopeStep})*${charging}/pow(1+${charging}/${SLOPE_BLEND},2)` +
    `-${p.dischargeScale}*${discharging}*(4/(1+pow(${discharging}+1e-12,1.3))+${p.dischargeConstant}))`
  );
}
