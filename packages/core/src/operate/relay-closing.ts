/** Combining relays at an operating point: one has closed when the higher of its two sides, against the first bank's
 *  negative, is at its closing voltage and the engine has run longer than its delay. A relay with a fault stands as
 *  wiring-setting.ts put it.
 *  Leaves out: opening. A point has no past; run-relay.ts has both.
 */
import type { Boat } from '../boat/index.ts';
import type { Condition } from './condition.ts';
import type { Plant } from './plant.ts';

/** Closes relays on the present solution, or as `before` tells; whether any closed. Hot. */
export function closeRelays(
  { wiring, solution, batteries }: Plant,
  boat: Boat,
  { sinceStart }: Condition,
  before?: readonly boolean[],
): boolean {
  const { voltages } = solution;
  let closed = false;
  boat.relays.forEach((relay, i) => {
    if (relay.state !== 'good' || sinceStart < relay.closeDelay) return;
    const [a, b] = wiring.relayNodes[i]!;
    const back = voltages[batteries[0]?.minus ?? 0] ?? 0;
    const high = Math.max(voltages[a]!, voltages[b]!) - back;
    if (!(before?.[i] ?? high >= relay.closeVoltage)) return;
    wiring.relays[i]!.resistance = relay.contact;
    closed = true;
  });
  return closed;
}

/** Closes those relays that a run left closed. */
export function holdRelays({ wiring }: Plant, boat: Boat, closed: readonly boolean[]): void {
  closed.forEach((isClosed, i) => {
    if (isClosed) wiring.relays[i]!.resistance = boat.relays[i]!.contact;
  });
}

/** Which relays are closed now. */
export function closedRelays({ wiring }: Plant, boat: Boat): boolean[] {
  return boat.relays.map(({ contact }, i) => wiring.relays[i]!.resistance === contact);
}
