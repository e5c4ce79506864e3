/** Protection switches of lithium banks in a run: charging or discharging opens when a cell or the temperature leaves its
 *  limits, and closes again past a second limit (physics/lithium.ts), after it has been open for a while.
 *  A change is located within its step. All cells of a bank are alike here; a real one opens at its worst cell, earlier.
 */
import type { Boat } from '../boat/index.ts';
import { openCircuitSlopePerCell } from '../handbook/index.ts';
import type { BatteryState } from '../physics/battery.ts';
import { PROTECTION_CLOSED, protectionAfter, type ProtectionState } from '../physics/lithium.ts';
import type { Gate } from './gates.ts';

/** A change is located within this [s]. */
const LOCATED_WITHIN = 2;
/** Open for at least this long, so that a bank that relaxes at once does not chatter; common practice, seconds to minutes. */
const LEAST_OPEN = 30; // s
const HALVINGS = 10;
/** Rise of a full cell within a step [V]. */
const RISE = 0.01;

export interface ProtectionKeeper {
  readonly bank: number;
  readonly id: string;
  state: ProtectionState;
  /** Since the last change [s]. */
  since: number;
}

export function protectionKeepers(boat: Boat): ProtectionKeeper[] {
  return boat.batteries.flatMap(({ id, chemistry, protection }, bank) =>
    chemistry === 'lifepo4' && protection === 'closed'
      ? [{ bank, id, state: PROTECTION_CLOSED, since: Infinity }]
      : [],
  );
}

/** Cell voltage [V] and temperature [K] of each bank, in the order of the boat's batteries. */
export interface Cells {
  readonly voltages: readonly number[];
  readonly temperatures: readonly number[];
}

/** The state that these cells bring, the wait apart. */
function stateAt({ state, bank }: ProtectionKeeper, cells: Cells): ProtectionState {
  const voltage = cells.voltages[bank] ?? NaN;
  return protectionAfter(state, voltage, voltage, cells.temperatures[bank] ?? NaN);
}

const differs = (a: Gate, b: Gate): boolean =>
  a.chargeOpen !== b.chargeOpen || a.dischargeOpen !== b.dischargeOpen;

/** Whether a change only closes what was open: that waits. */
const closes = (from: Gate, to: Gate): boolean =>
  !(to.chargeOpen && !from.chargeOpen) && !(to.dischargeOpen && !from.dischargeOpen);

/** Time until a protection that may close does so [s]. */
export function untilProtection(keepers: readonly ProtectionKeeper[], cells: Cells): number {
  let until = Infinity;
  for (const keeper of keepers) {
    if (keeper.since >= LEAST_OPEN || !differs(keeper.state, stateAt(keeper, cells))) continue;
    until = Math.min(until, Math.max(LEAST_OPEN - keeper.since, 1e-3));
  }
  return until;
}

/** A shorter step that ends just after a protection changes; undefined when none does, or the change is located. */
export function stepToProtection(
  keepers: readonly ProtectionKeeper[],
  from: Cells,
  to: Cells,
  step: number,
): number | undefined {
  if (step <= LOCATED_WITHIN) return undefined;
  let shorter: number | undefined;
  for (const keeper of keepers) {
    const { state } = keeper;
    if (!differs(state, stateAt(keeper, to)) || differs(state, stateAt(keeper, from))) continue;
    let [low, high] = [0, 1];
    for (let k = 0; k < HALVINGS; k++) {
      const middle = (low + high) / 2;
      if (differs(state, stateAt(keeper, between(from, to, middle)))) high = middle;
      else low = middle;
    }
    if (step * (1 - high) <= LOCATED_WITHIN) continue;
    shorter = Math.min(shorter ?? Infinity, Math.max(step * high + LOCATED_WITHIN / 4, step / 10));
  }
  return shorter;
}

/** Moves the protections on by a step; those whose state changed, with what it was. */
export function advanceProtections(
  keepers: readonly ProtectionKeeper[],
  cells: Cells,
  step: number,
): { readonly keeper: ProtectionKeeper; readonly was: ProtectionState }[] {
  return keepers.flatMap((keeper) => {
    keeper.since += step;
    const was = keeper.state;
    const next = stateAt(keeper, cells);
    if (!differs(was, next) || (closes(was, next) && keeper.since < LEAST_OPEN)) return [];
    [keeper.state, keeper.since] = [next, 0];
    return [{ keeper, was }];
  });
}

/** Cells that are charged past full: their voltage goes on rising along the last slope of the table, which ends there.
 *    V → V + dE/ds(1) · Q / C        Q charge past full [C], gone as soon as the bank gives current
 *  An estimate; a real cell rises faster still. */
export class PastFull {
  private readonly shares: number[];

  constructor(private readonly boat: Boat) {
    this.shares = boat.batteries.map(() => 0);
  }

  /** What it adds to the voltage of a bank's cells [V]. */
  rise(bank: number): number {
    return this.slope(bank) * (this.shares[bank] ?? 0);
  }

  /** Time in which a full bank rises noticeably [s]. */
  until(states: readonly BatteryState[], main: readonly number[]): number {
    return states.reduce((until, { stateOfCharge }, bank) => {
      const current = main[bank] ?? 0;
      const slope = this.slope(bank);
      if (stateOfCharge < 1 || current <= 0 || slope === 0) return until;
      return Math.min(until, Math.max((RISE / slope) * (this.capacity(bank) / current), 0.5));
    }, Infinity);
  }

  advance(states: readonly BatteryState[], main: readonly number[], step: number): void {
    states.forEach(({ stateOfCharge }, bank) => {
      const share = ((main[bank] ?? 0) * step) / this.capacity(bank);
      this.shares[bank] = stateOfCharge < 1 || share < 0 ? 0 : (this.shares[bank] ?? 0) + share;
    });
  }

  private slope(bank: number): number {
    return this.boat.batteries[bank]?.chemistry === 'lifepo4' ? openCircuitSlopePerCell('lifepo4', 1) : 0;
  }

  private capacity(bank: number): number {
    const { capacity = 1, health = 1 } = this.boat.batteries[bank] ?? {};
    return capacity * health;
  }
}

const between = (from: Cells, to: Cells, share: number): Cells => {
  const mix = (a: readonly number[], b: readonly number[]): number[] =>
    a.map((value, i) => value + ((b[i] ?? value) - value) * share);
  return {
    voltages: mix(from.voltages, to.voltages),
    temperatures: mix(from.temperatures, to.temperatures),
  };
};
