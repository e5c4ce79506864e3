/** Which driven machines are awake: one with field diodes once it feeds itself through them, any other while its regulator
 *  is enabled, or once it has built up alone (build-up.ts).
 */
import type { Boat } from '../boat/index.ts';
import { builds, buildsAlone } from './build-up.ts';
import type { Condition } from './condition.ts';
import type { AlternatorUnit, Plant } from './plant.ts';

/** Link that the field diodes make from the stud to D+ [Ω]: their leads and joints. Their drop is no part of it: they sit on
 *  the same stator as the main diodes, whose drop rises as fast with output as theirs with field current, so D+ stays level
 *  with the stud. A larger link would feed back: regulator at D+ with gain 5/V and 4.5 A of field give a loop gain of
 *  22 /Ω · link, 0.1 with 5 mΩ, 0.45 with 20 mΩ and twice that at twice the gain, where a real set is steady. */
const FIELD_DIODE_LINK = 0.005;
/** Below this the link counts as made [Ω]. */
const LINKED = 0.1;

/** Whether the field diodes of a machine feed it. */
export const isLinked = ({ fieldDiodes }: AlternatorUnit): boolean =>
  fieldDiodes !== undefined && fieldDiodes.resistance < LINKED;

/** Enables and excites on the present solution; writes which machines sleep. Whether anything changed. Hot. */
export function wakeMachines(plant: Plant, boat: Boat, condition: Condition, asleep: boolean[]): boolean {
  const { voltages } = plant.solution;
  let changed = false;
  for (const unit of plant.alternators) {
    asleep[unit.index] = false;
    if (unit.machine.speed <= 0) continue;
    const alternator = boat.alternators[unit.index]!;
    const enabled =
      unit.enable < 0
        ? alternator.excitation === 'lamp'
        : voltages[unit.enable]! - voltages[unit.regulatorGround]! > 0.5 * boat.nominalVoltage;
    if (unit.fieldDiodes) {
      if (alternator.fieldDiodes === 'good' && builds(unit, condition, voltages)) {
        unit.fieldDiodes.resistance = FIELD_DIODE_LINK;
        changed = true;
      }
    } else if (!enabled && !buildsAlone(unit, condition, alternator.excitation === 'none')) {
      asleep[unit.index] = true;
      if (unit.regulator.cap > 0 && !unit.regulator.stuckFull) {
        unit.regulator.cap = 0;
        changed = true;
      }
    }
  }
  return changed;
}

/** Machines as a run left them. */
export function holdMachines({ alternators }: Plant, awake: readonly boolean[]): void {
  for (const { index, fieldDiodes, regulator, machine } of alternators) {
    if (fieldDiodes) {
      if (awake[index] === true) fieldDiodes.resistance = FIELD_DIODE_LINK;
    } else if (machine.speed > 0 && awake[index] !== true && !regulator.stuckFull) regulator.cap = 0;
  }
}

/** Which driven machines are awake at the present solution; `asleep` as `wakeMachines` wrote it. */
export function awakeMachines({ alternators }: Plant, asleep: readonly boolean[]): boolean[] {
  return alternators.map(
    (unit) => unit.machine.speed > 0 && (unit.fieldDiodes ? isLinked(unit) : asleep[unit.index] !== true),
  );
}
