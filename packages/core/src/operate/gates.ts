/** Protection switches that stop one direction alone: charging passes or discharging does. As circuit elements they are
 *  closed or open; which of both fits the solution is found from the side that is at the higher voltage. The rest of the
 *  boat gives less current the higher its voltage, so at most one of both fits.
 *  Leaves out: the drop of the transistor that is off; it is turned on as soon as current flows its way (common practice).
 */
import type { ProtectionState } from '../physics/lithium.ts';
import { OPEN, type Plant } from './plant.ts';

/** What a protection stops. */
export type Gate = Pick<ProtectionState, 'chargeOpen' | 'dischargeOpen'>;

/** By bank; undefined for one that has no switch, or a stuck one. */
export type Gates = readonly (Gate | undefined)[];

/** A closed protection, with its leads [Ω]; common practice. */
export const GATE_RESISTANCE = 0.0005;
/** Below this the side at the higher voltage cannot be told [V]. */
const LEVEL = 1e-7;

/** On its way from closed to open, so that a machine that feeds its own field stays alive as it does when a bank is cut
 *  off: at once, the solver would find it dead as often [Ω]. */
const OPENING = [0.02, 0.2, 2, OPEN];

/** Positions to begin with: as they stood, where one direction is stopped. */
export function setGates({ batteries }: Plant, gates: Gates): void {
  gates.forEach((gate, i) => {
    const protection = batteries[i]?.protection;
    if (gate && protection && gate.chargeOpen === gate.dischargeOpen)
      protection.resistance = gate.chargeOpen ? OPEN : GATE_RESISTANCE;
  });
}

/** Turns gates until each fits the solution; whether the last solution converged, undefined when no gate was turned. */
export function settleGates(plant: Plant, gates: Gates, solve: () => boolean): boolean | undefined {
  let converged: boolean | undefined;
  for (let round = 0; round < 2 * gates.length; round++) {
    const turned = turnGates(plant, gates, solve);
    if (turned === undefined) break;
    converged = turned;
  }
  return converged;
}

/** Turns every gate that stands the wrong way, once, and solves with it; returns as `settleGates` does. */
function turnGates(
  { batteries, solution: { voltages } }: Plant,
  gates: Gates,
  solve: () => boolean,
): boolean | undefined {
  let converged: boolean | undefined;
  gates.forEach((gate, i) => {
    const unit = batteries[i];
    if (!gate || !unit?.protection || gate.chargeOpen === gate.dischargeOpen) return;
    const inward = (voltages[unit.plus] ?? 0) - (voltages[unit.pole] ?? 0);
    const stopped = gate.chargeOpen ? inward > LEVEL : inward < -LEVEL;
    const passed = gate.chargeOpen ? inward < -LEVEL : inward > LEVEL;
    const open = unit.protection.resistance === OPEN;
    if (open ? !passed : !stopped) return;
    for (const resistance of open ? [GATE_RESISTANCE] : OPENING) {
      unit.protection.resistance = resistance;
      converged = solve();
    }
  });
  return converged;
}
