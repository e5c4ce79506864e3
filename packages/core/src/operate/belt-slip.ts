/** The slip at which a machine asks of its belt the torque that the belt passes on at that slip.
 *    slipAt(T(s)) − s = 0      T [N·m] at the shaft speed (1 − s) · full   s [1], 0 to 1      slipAt: drive.ts
 *  Each try is a solution of the whole circuit. Regula falsi (Illinois) with a bisection every third step, since the
 *  machine may drop out on the way. Slip below the creep costs no speed.
 */
import type { Belt, Boat } from '../boat/index.ts';
import type { StrayLosses } from '../physics/index.ts';
import { slipAt } from './drive.ts';
import { turnMachine } from './machine-setting.ts';
import type { AlternatorUnit, Plant } from './plant.ts';
import { lossesOf } from './shaft.ts';

/** Slip below which speed counts as not lost: creep is part of the pulley ratio. */
const CREEP = 0.03;
const SLIP_TOLERANCE = 1e-7;
const SLIP_STEPS = 60;

/** Slows every machine whose belt slips, and writes the slips; whether the last solution converged, undefined when none
 *  was needed. Hot. */
export function settleSlips(
  plant: Plant,
  boat: Boat,
  stray: readonly StrayLosses[],
  slips: number[],
  solve: () => boolean,
): boolean | undefined {
  let converged: boolean | undefined;
  for (const unit of plant.alternators) {
    const belt = boat.belts[unit.beltIndex];
    const alternator = boat.alternators[unit.index]!;
    const full = unit.machine.speed;
    if (belt === undefined || full <= 0) continue;
    let slip = slipAsked(plant, unit, boat, belt, stray);
    slips[unit.index] = slip;
    if (slip < CREEP) continue;
    let low = 0;
    let high = 1;
    let lowExcess = slip;
    let highExcess = -1;
    for (let step = 0; step < SLIP_STEPS && high - low > SLIP_TOLERANCE; step++) {
      slip =
        step % 3 === 2 ? (low + high) / 2 : (low * highExcess - high * lowExcess) / (highExcess - lowExcess);
      turnMachine(unit, alternator, full * (1 - slip));
      converged = solve();
      const excess = slipAsked(plant, unit, boat, belt, stray) - slip;
      if (Math.abs(excess) < SLIP_TOLERANCE) break;
      if (excess > 0) {
        low = slip;
        lowExcess = excess;
        highExcess /= 2;
      } else {
        high = slip;
        highExcess = excess;
        lowExcess /= 2;
      }
    }
    slips[unit.index] = slip;
  }
  return converged;
}

/** The slip at which the belt passes on the torque of the present solution. */
function slipAsked(
  { solution }: Plant,
  unit: AlternatorUnit,
  boat: Boat,
  belt: Belt,
  stray: readonly StrayLosses[],
): number {
  return slipAt(belt, lossesOf(unit, boat, stray[unit.index]!, solution.voltages).torque);
}
