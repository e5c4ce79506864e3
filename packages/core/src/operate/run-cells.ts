/** Extreme cells of the lithium banks in a run. The bank's own voltage is that of its mean cell; the fullest is half of the spread
 *  ahead of it in charge, the emptiest half behind:
 *    V_highest = V/n + E(s + x + d/2) − E(s)      V_lowest with −d/2
 *    E(s) = E(1) + dE/ds(1) · (s − 1)             beyond full: along the last slope of the table, which ends there
 *  V [V] at the poles, n cells  s state of charge  x charged past full, gone as soon as the bank gives current
 *  d spread, in charge over C20 [1]: told, else as small as a balancer leaves it (physics/lithium.ts)
 *  The slope beyond full is an estimate; a real cell rises faster still.
 *  Leaves out: what a cell that runs ahead adds to the bank's voltage, some 0.3 V; balancing within a run. */
import type { Boat } from '../boat/index.ts';
import { openCircuitSlopePerCell, openCircuitVoltagePerCell } from '../handbook/index.ts';
import type { BatteryState } from '../physics/battery.ts';
import { USUAL_CELL_SPREAD } from '../physics/lithium.ts';

/** Rise of a full cell within a step [V]. */
const RISE = 0.01;
const SLOPE = openCircuitSlopePerCell('lifepo4', 1);

export class ExtremeCells {
  private readonly past: number[];
  /** Half the spread of each bank; undefined for one that has no such cells. */
  private readonly ahead: readonly (number | undefined)[];
  private readonly capacities: readonly number[];

  constructor(boat: Boat) {
    this.past = boat.batteries.map(() => 0);
    this.capacities = boat.batteries.map(({ capacity, health }) => capacity * health);
    this.ahead = boat.batteries.map(({ chemistry, capacity, health, cellSpread }) => {
      if (chemistry !== 'lifepo4') return undefined;
      return (cellSpread === undefined ? USUAL_CELL_SPREAD : cellSpread / (capacity * health)) / 2;
    });
  }

  /** By how much the fullest cell of a bank stands above its mean cell [V]. */
  above(bank: number, stateOfCharge: number): number {
    return this.beside(bank, stateOfCharge, 1);
  }

  /** By how much the emptiest stands above it: negative [V]. */
  below(bank: number, stateOfCharge: number): number {
    return this.beside(bank, stateOfCharge, -1);
  }

  /** Time in which a full cell rises noticeably [s]. */
  until(states: readonly BatteryState[], main: readonly number[]): number {
    return states.reduce((until, { stateOfCharge }, bank) => {
      const current = main[bank] ?? 0;
      const ahead = this.ahead[bank];
      if (ahead === undefined || stateOfCharge + ahead < 1 || current <= 0) return until;
      return Math.min(until, Math.max((RISE / SLOPE) * ((this.capacities[bank] ?? 1) / current), 0.5));
    }, Infinity);
  }

  advance(states: readonly BatteryState[], main: readonly number[], step: number): void {
    states.forEach(({ stateOfCharge }, bank) => {
      const share = ((main[bank] ?? 0) * step) / (this.capacities[bank] ?? 1);
      this.past[bank] = stateOfCharge < 1 || share < 0 ? 0 : (this.past[bank] ?? 0) + share;
    });
  }

  private beside(bank: number, stateOfCharge: number, side: 1 | -1): number {
    const ahead = this.ahead[bank];
    if (ahead === undefined) return 0;
    return restVoltage(stateOfCharge + (this.past[bank] ?? 0) + side * ahead) - restVoltage(stateOfCharge);
  }
}

/** Of a cell, full and beyond [V]. */
const restVoltage = (charge: number): number =>
  openCircuitVoltagePerCell('lifepo4', Math.min(1, Math.max(0, charge))) + SLOPE * Math.max(0, charge - 1);
