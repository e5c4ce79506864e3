/** Protection switches of lithium banks in a run: charging or discharging opens when a cell or the temperature leaves its
 *  limits, and closes again past a second limit (physics/lithium.ts), after it has been open for a while. More current than
 *  the switch lets through opens it after some seconds; it closes once the charger, or the load, is gone.
 *  A change is located within its step. A limit of current that nobody told is the usual one for the bank's size.
 */
import type { Boat } from '../boat/index.ts';
import {
  OVER_CURRENT_DELAY,
  PROTECTION_CLOSED,
  protectionAfter,
  usualCurrentLimits,
  type Direction,
  type ProtectionState,
} from '../physics/lithium.ts';
import type { Gate } from './gates.ts';

/** A change is located within this [s]. */
const LOCATED_WITHIN = 2;
/** Open for at least this long, so that a bank that relaxes at once does not chatter; common practice, seconds to minutes. */
const LEAST_OPEN = 30; // s
const HALVINGS = 10;

/** Most current one way [A], and that nobody told it. */
interface CurrentLimit {
  readonly most: number;
  readonly assumed: boolean;
}

export interface ProtectionKeeper {
  readonly bank: number;
  readonly id: string;
  readonly limits: Readonly<Record<Exclude<Direction, 'none'>, CurrentLimit>>;
  state: ProtectionState;
  /** Since the last change [s]. */
  since: number;
  /** Way in which more flows than is let through, and for how long [s]. */
  over: Direction;
  overFor: number;
}

export function protectionKeepers(boat: Boat): ProtectionKeeper[] {
  return boat.batteries.flatMap(
    ({ id, chemistry, protection, capacity, chargeLimit, dischargeLimit }, bank) => {
      if (chemistry !== 'lifepo4' || protection !== 'closed') return [];
      const usual = usualCurrentLimits(capacity);
      const limit = (told: number | undefined, otherwise: number): CurrentLimit => ({
        most: told ?? otherwise,
        assumed: told === undefined,
      });
      return [
        {
          bank,
          id,
          limits: {
            charge: limit(chargeLimit, usual.charge),
            discharge: limit(dischargeLimit, usual.discharge),
          },
          state: PROTECTION_CLOSED,
          since: Infinity,
          over: 'none',
          overFor: 0,
        },
      ];
    },
  );
}

/** What a protection sees of each bank, in the order of the boat's batteries. */
export interface Cells {
  readonly lowest: readonly number[]; // V
  readonly highest: readonly number[]; // V
  readonly temperatures: readonly number[]; // K
  readonly currents: readonly number[]; // A, charging positive
  /** Voltage outside the switch less that of the cells [V]. */
  readonly outside: readonly number[];
}

/** Way in which more flows than is let through. */
function overAt({ limits, bank }: ProtectionKeeper, { currents }: Cells): Direction {
  const current = currents[bank] ?? 0;
  return current > limits.charge.most ? 'charge' : -current > limits.discharge.most ? 'discharge' : 'none';
}

/** The state that these cells bring, the wait apart. */
function stateAt(keeper: ProtectionKeeper, cells: Cells): ProtectionState {
  const { state, bank, over, overFor } = keeper;
  const lasts = over === overAt(keeper, cells) && overFor >= OVER_CURRENT_DELAY - 1e-6;
  return protectionAfter(
    state,
    cells.lowest[bank] ?? NaN,
    cells.highest[bank] ?? NaN,
    cells.temperatures[bank] ?? NaN,
    { tooLong: lasts ? over : 'none', outside: cells.outside[bank] ?? 0 },
  );
}

const differs = (a: Gate, b: Gate): boolean =>
  a.chargeOpen !== b.chargeOpen || a.dischargeOpen !== b.dischargeOpen;

/** Whether a change only closes what was open: that waits. */
const closes = (from: Gate, to: Gate): boolean =>
  !(to.chargeOpen && !from.chargeOpen) && !(to.dischargeOpen && !from.dischargeOpen);

/** Time until a protection that may close does so, or one that carries too much opens [s]. */
export function untilProtection(keepers: readonly ProtectionKeeper[], cells: Cells): number {
  let until = Infinity;
  for (const keeper of keepers) {
    if (overAt(keeper, cells) !== 'none')
      until = Math.min(until, Math.max(OVER_CURRENT_DELAY - keeper.overFor, 1e-3));
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
    const over = overAt(keeper, from);
    const changes = (cells: Cells): boolean =>
      differs(state, stateAt(keeper, cells)) || overAt(keeper, cells) !== over;
    if (changes(from) || !changes(to)) continue;
    let [low, high] = [0, 1];
    for (let k = 0; k < HALVINGS; k++) {
      const middle = (low + high) / 2;
      if (changes(between(from, to, middle))) high = middle;
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
    const over = overAt(keeper, cells);
    keeper.overFor = over !== 'none' && over === keeper.over ? keeper.overFor + step : 0;
    keeper.over = over;
    const was = keeper.state;
    const next = stateAt(keeper, cells);
    if (!differs(was, next) || (closes(was, next) && keeper.since < LEAST_OPEN)) return [];
    [keeper.state, keeper.since] = [next, 0];
    return [{ keeper, was }];
  });
}

const between = (from: Cells, to: Cells, share: number): Cells => {
  const mix = (a: readonly number[], b: readonly number[]): number[] =>
    a.map((value, i) => value + ((b[i] ?? value) - value) * share);
  return {
    lowest: mix(from.lowest, to.lowest),
    highest: mix(from.highest, to.highest),
    temperatures: mix(from.temperatures, to.temperatures),
    currents: mix(from.currents, to.currents),
    outside: mix(from.outside, to.outside),
  };
};
