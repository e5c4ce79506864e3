/** LiFePO4 battery: open-circuit table, a resistance that acts at once, the rest in minutes; no gassing.
 *    V = E(s) + R·I + g(t)·Rp·I + memories     f∞(I) = (R + Rp)·I
 *  R, Rp [Ω] scale with cells/C20, and rise in the cold by 3 %/K below 25 °C.
 *  Source: E(s) [SUNIL2025] table; resistances are estimates (data/batteries/lifepo4.json).
 *  Valid: −20..60 °C, up to about 1 C.  Leaves out: hysteresis, 10 to 25 mV per cell between charge and
 *  discharge at mid charge, and charge-transfer curvature. Only 74 mV separate 30 % from 98 %. */

import lifepo4 from '../../data/batteries/lifepo4.json' with { type: 'json' };

import { openCircuitSlopePerCell, openCircuitVoltagePerCell } from '../handbook/batteries.ts';
import type { BatteryLaw, PreparedBattery, VoltageAt } from './battery-law.ts';

/** State of a protection switch, and why. Charging and discharging open apart. */
export interface ProtectionState {
  readonly chargeOpen: boolean;
  readonly dischargeOpen: boolean;
  readonly reason: 'none' | 'over-voltage' | 'under-voltage' | 'cold' | 'hot';
}

export const PROTECTION_CLOSED: ProtectionState = { chargeOpen: false, dischargeOpen: false, reason: 'none' };

/** Fill the constants of a LiFePO4 battery. */
export function prepareLithium(law: BatteryLaw, stateOfCharge: number, into: PreparedBattery): void {
  const active = law.cells - law.shortedCells;
  const cold = 1 + lifepo4.resistance.coldRisePerKelvin * Math.max(0, 298.15 - law.temperature);
  const scale = active * (360000 / law.capacity) * law.resistanceFactor * cold;
  into.family = 1;
  into.emf = active * openCircuitVoltagePerCell('lifepo4', stateOfCharge);
  into.emfSlope = active * openCircuitSlopePerCell('lifepo4', stateOfCharge);
  into.ohmicResistance = scale * lifepo4.resistance.ohmicPerCellAt100Ah_ohm;
  into.linearResistance = into.ohmicResistance + scale * lifepo4.resistance.polarisationPerCellAt100Ah_ohm;
  into.gassingCells = 0;
}

/** Settled f∞(I). Hot. */
export function lithiumOverpotential(p: PreparedBattery, at: VoltageAt): void {
  at.voltage = p.linearResistance * at.current;
  at.dByCurrent = p.linearResistance;
}

/** The same law as text. */
export function lithiumOverpotentialExpression(p: PreparedBattery, current: string): string {
  return `(${p.linearResistance}*(${current}))`;
}

/** Next state of a protection switch from the extreme cells and the temperature; it releases only past a
 *  second limit, so it does not chatter. Cell voltages [V], temperature [K].
 *  Source: limits are the usual ones of cell makers (data/batteries/lifepo4.json, estimate).
 *  Leaves out: over-current and short-circuit trips, balancing, delays; the maker's values rule. */
export function protectionAfter(
  previous: ProtectionState,
  lowestCellVoltage: number,
  highestCellVoltage: number,
  temperature: number,
): ProtectionState {
  const limit = lifepo4.protection;
  const was = previous.reason;
  const over =
    highestCellVoltage > limit.overVoltage_V ||
    (was === 'over-voltage' && highestCellVoltage > limit.overVoltageRelease_V);
  const under =
    lowestCellVoltage < limit.underVoltage_V ||
    (was === 'under-voltage' && lowestCellVoltage < limit.underVoltageRelease_V);
  const cold = temperature < limit.chargeLow_K || (was === 'cold' && temperature < limit.chargeLowRelease_K);
  const hot = temperature > limit.chargeHigh_K || (was === 'hot' && temperature > limit.chargeHighRelease_K);
  return {
    chargeOpen: over || cold || hot,
    dischargeOpen: under || hot,
    reason: over ? 'over-voltage' : under ? 'under-voltage' : hot ? 'hot' : cold ? 'cold' : 'none',
  };
}
