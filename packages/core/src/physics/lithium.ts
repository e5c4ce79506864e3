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
  readonly reason: 'none' | 'over-voltage' | 'under-voltage' | 'cold' | 'hot' | 'over-current';
  /** Opened by too much current that way, and what drives it is still there. */
  readonly tripped: Direction;
}

export type Direction = 'none' | 'charge' | 'discharge';

export const PROTECTION_CLOSED: ProtectionState = {
  chargeOpen: false,
  dischargeOpen: false,
  reason: 'none',
  tripped: 'none',
};

/** What a protection switch is asked to carry. */
export interface ProtectionFlow {
  /** Way in which more has flowed than it lets through, for as long as it bears that. */
  readonly tooLong: Direction;
  /** Voltage outside less that of the cells: what would charge them when above 0 [V]. */
  readonly outside: number;
}

/** Current that a bank of a C20 [C] lets through either way where nobody told [A], and how long it bears more [s].
 *  Source: data/batteries/lifepo4.json, common practice, from memory. */
export function usualCurrentLimits(capacity: number): {
  readonly charge: number;
  readonly discharge: number;
} {
  const perHour = capacity / 3600;
  return {
    charge: lifepo4.protection.charge_perHourOfC20 * perHour,
    discharge: lifepo4.protection.discharge_perHourOfC20 * perHour,
  };
}
export const OVER_CURRENT_DELAY = lifepo4.protection.overCurrentDelay_s;

/** Charge between the fullest and the emptiest cell of a bank where nobody told, of its C20 [1]. Estimate. */
export const USUAL_CELL_SPREAD = lifepo4.protection.cellSpread_ratioOfC20;

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

/** Next state of a protection switch from the extreme cells, the temperature and what it carries; it releases only past a
 *  second limit, or once what drove the current is gone, so it does not chatter. Cell voltages [V], temperature [K].
 *  Source: limits are the usual ones of cell makers (data/batteries/lifepo4.json, estimate).
 *  Leaves out: short-circuit trips, balancing; the maker's values rule. */
export function protectionAfter(
  previous: ProtectionState,
  lowestCellVoltage: number,
  highestCellVoltage: number,
  temperature: number,
  flow: ProtectionFlow = { tooLong: 'none', outside: 0 },
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
  const tripped = tripAfter(previous.tripped, flow);
  return {
    chargeOpen: over || cold || hot || tripped === 'charge',
    dischargeOpen: under || hot || tripped === 'discharge',
    reason: over
      ? 'over-voltage'
      : under
        ? 'under-voltage'
        : hot
          ? 'hot'
          : cold
            ? 'cold'
            : tripped === 'none'
              ? 'none'
              : 'over-current',
    tripped,
  };
}

/** A trip holds while the charger, or the load, is still there. */
function tripAfter(previous: Direction, { tooLong, outside }: ProtectionFlow): Direction {
  if (tooLong !== 'none') return tooLong;
  const there = previous === 'charge' ? outside > 0 : previous === 'discharge' && outside < 0;
  return there ? previous : 'none';
}
