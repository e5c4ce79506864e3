/** A bank by itself: filled by a charger, rested, and then drawn from.
 *    SoC = max(EMPTY, FULL − I·t / C)      V = E(SoC) + overpotential(−I, t)
 *  I drawn [A]  t for how long [s]  C what the bank holds now [C]
 *  Below ten minutes the overpotential is that of t seconds after rest, above it the settled one.
 *  A discharge of hours ends at 1.75 V per cell, where a bank that is worn gets early.
 *  Leaves out: a charger that cannot fill a sulphated bank; the fall of capacity with current beyond what the law's voltage tells.
 */
import { prepareBattery, restedState, terminalVoltageAt, type BatteryLaw } from '../physics/battery.ts';

/** State of charge at which a charger ends [1]; common practice: its amps have fallen to a hundredth of the capacity. */
export const FULL = 0.98;
const EMPTY = 0.01;
const SETTLED = 600;
/** Volts of a cell at which a discharge is ended, lead and lithium [V]. Common practice for slow discharges. */
const END = { lead: 1.75, lithium: 2.5 };

const AT = { current: 0, voltage: 0, dByCurrent: 0 };

/** Volts at the posts [V].   `offset`: what this bank's rest voltage differs by from the law's [V] */
export function filledVolts(
  law: BatteryLaw,
  offset: number,
  drawn: { readonly amps: number; readonly seconds: number },
): number {
  const charge = Math.max(EMPTY, FULL - (drawn.amps * drawn.seconds) / law.capacity);
  const elapsed = drawn.seconds > SETTLED ? Infinity : drawn.seconds;
  AT.current = -drawn.amps;
  terminalVoltageAt(prepareBattery(law, restedState(charge), elapsed), AT);
  const volts = AT.voltage + offset;
  if (drawn.seconds <= SETTLED) return volts;
  return Math.max(volts, law.cells * (law.chemistry === 'lifepo4' ? END.lithium : END.lead));
}
