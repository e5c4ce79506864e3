/** Combining relays of a run: closed above one voltage for a while, open below another (physics/relay.ts).
 *  A threshold that is crossed within a step is located; the delay then runs by the clock.
 */
import type { Boat } from '../boat/index.ts';
import { nextRelayState, type RelayRules, type RelayState } from '../physics/index.ts';

/** A crossing is located within this [s]. */
const LOCATED_WITHIN = 5;

export interface RelayKeeper {
  readonly index: number;
  /** Fixed in one position by a fault; a healthy one is not. */
  readonly stuck: boolean;
  readonly rules: RelayRules;
  state: RelayState;
}

export function relayKeepers(boat: Boat): RelayKeeper[] {
  return boat.relays.map(({ closeVoltage, openVoltage, closeDelay, contact, state }, index) => ({
    index,
    stuck: state !== 'good',
    rules: { closeVoltage, openVoltage, closeDelay, openDelay: closeDelay, contactResistance: contact },
    state: { closed: state === 'always-closed', waited: 0 },
  }));
}

/** Whether this voltage leads to a change, once the delay is over. */
const isMet = ({ state, rules }: RelayKeeper, voltage: number): boolean =>
  state.closed ? voltage < rules.openVoltage : voltage >= rules.closeVoltage;

/** Time until a relay changes by the clock, its voltage being what it is [s]. */
export function untilRelay(keepers: readonly RelayKeeper[], voltages: readonly number[]): number {
  let until = Infinity;
  for (const keeper of keepers) {
    if (keeper.stuck || !isMet(keeper, voltages[keeper.index] ?? 0)) continue;
    const delay = keeper.state.closed ? keeper.rules.openDelay : keeper.rules.closeDelay;
    until = Math.min(until, Math.max(delay - keeper.state.waited, 1e-3));
  }
  return until;
}

/** A shorter step that ends near the crossing of a threshold; undefined when none is crossed, or it is located. */
export function stepToCrossing(
  keepers: readonly RelayKeeper[],
  from: readonly number[],
  to: readonly number[],
  step: number,
): number | undefined {
  if (step <= LOCATED_WITHIN) return undefined;
  let shorter: number | undefined;
  for (const keeper of keepers) {
    const [start = 0, end = 0] = [from[keeper.index], to[keeper.index]];
    if (keeper.stuck || isMet(keeper, start) === isMet(keeper, end)) continue;
    const { openVoltage, closeVoltage } = keeper.rules;
    const threshold = keeper.state.closed ? openVoltage : closeVoltage;
    const reached = step * Math.min(1, Math.max(0, (threshold - start) / (end - start)));
    if (step - reached > LOCATED_WITHIN)
      shorter = Math.min(shorter ?? Infinity, Math.max(reached + 1, step / 10));
  }
  return shorter;
}

/** Moves the relays on by a step whose condition held from its start; those that changed. */
export function advanceRelays(
  keepers: readonly RelayKeeper[],
  from: readonly number[],
  to: readonly number[],
  step: number,
): RelayKeeper[] {
  return keepers.filter((keeper) => {
    if (keeper.stuck) return false;
    const { closed } = keeper.state;
    // The wait begins where the threshold was crossed: at the end of a step that did so.
    const held = isMet(keeper, from[keeper.index] ?? 0) ? step : 0;
    const voltage = to[keeper.index] ?? 0;
    keeper.state = nextRelayState(keeper.rules, keeper.state, voltage, -Infinity, held);
    return keeper.state.closed !== closed;
  });
}
