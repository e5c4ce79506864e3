/** Gassing of lead-acid cells: a branch in parallel with the main reaction, per active cell v = V/cells.
 *    I_gas = v·G·exp(v/V_p0 + A_p(1 − θ/θ_f)) / (1 + exp((V_on − v)/w))
 *  G = 2e-11 S · C20/50 Ah · factor of chemistry, V_p0 = 0.12 V, A_p = 2, θ_f = −40 °C, θ [°C]
 *  The last quotient is an estimate: V_on = 2.155 V, w = 0.05 V. Without it the published set would
 *  self-discharge by about 2 % a day; with it, within a factor of 1.5 of an Army manual from 50 to 100 °F.
 *  Above 2.8 V per cell and below 0 V the branch goes on as a straight line with the slope at that point, so
 *  that a solver cannot overflow. A shorted cell raises v, and so the gassing, of the others.
 *  Source: [JACKEY2007] 50 Ah set; [TM 9-6140-200-14] self-discharge.  Valid: 2.0..2.7 V per cell, 0..50 °C
 *  Leaves out: dependence on state of charge, age and antimony; recombination limits of AGM at high current. */

import type { BatteryLaw, CurrentAt, PreparedBattery } from './battery-law.ts';

const REFERENCE_CAPACITY = 50 * 3600;
const CONDUCTANCE = 2e-11;
const VOLTAGE_SCALE = 0.12;
const TEMPERATURE_FACTOR = 2;
const FREEZING = -40;
const ONSET = 2.155;
const ONSET_WIDTH = 0.05;
const LINEAR_ABOVE = 2.8;

/** Fill the constants of the gassing branch. */
export function prepareGassing(
  law: BatteryLaw,
  activeCells: number,
  chemistryFactor: number,
  into: PreparedBattery,
): void {
  const celsius = law.temperature - 273.15;
  into.gassingCells = activeCells;
  into.gassingConductance =
    CONDUCTANCE *
    (law.capacity / REFERENCE_CAPACITY) *
    chemistryFactor *
    Math.exp(TEMPERATURE_FACTOR * (1 - celsius / FREEZING));
}

/** Gassing current and slope at the terminal voltage `at.voltage`. Hot: two exp, no allocation. */
export function gassingCurrent(p: PreparedBattery, at: CurrentAt): void {
  if (p.gassingCells === 0) {
    at.current = 0;
    at.dByVoltage = 0;
    return;
  }
  const cell = at.voltage / p.gassingCells;
  const held = cell > LINEAR_ABOVE ? LINEAR_ABOVE : cell < 0 ? 0 : cell;
  const onset = 1 / (1 + Math.exp((ONSET - held) / ONSET_WIDTH));
  const conductance = p.gassingConductance * Math.exp(held / VOLTAGE_SCALE) * onset;
  const slope = conductance * (1 + held / VOLTAGE_SCALE + (held * (1 - onset)) / ONSET_WIDTH);
  at.current = conductance * held + slope * (cell - held);
  at.dByVoltage = slope / p.gassingCells;
}

/** The same law as text. */
export function gassingExpression(p: PreparedBattery, voltage: string): string {
  if (p.gassingCells === 0) return '0';
  const cell = `((${voltage})/${p.gassingCells})`;
  const held = `(min(max(${cell},0),${LINEAR_ABOVE}))`;
  const atTop = slopeAt(p, LINEAR_ABOVE);
  const atZero = slopeAt(p, 0);
  return (
    `(${p.gassingConductance}*${held}*exp(${held}/${VOLTAGE_SCALE})/(1+exp((${ONSET}-${held})/${ONSET_WIDTH}))` +
    `+${atTop}*max(${cell}-${LINEAR_ABOVE},0)+${atZero}*min(${cell},0))`
  );
}

function slopeAt(p: PreparedBattery, cell: number): number {
  const at: CurrentAt = { voltage: cell * p.gassingCells, current: 0, dByVoltage: 0 };
  gassingCurrent(p, at);
  return at.dByVoltage * p.gassingCells;
}
