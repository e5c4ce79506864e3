/** Whether a machine comes alive: with the field current that it has now, would it itself put more on its field supply than
 *  stands there (physics/excitation.ts)?
 */
import { openExcitationVoltage } from '../physics/index.ts';
import { revvedSpeed, type Condition } from './condition.ts';
import { fieldCurrentAt } from './machine.ts';
import type { AlternatorUnit } from './plant.ts';

/** A machine with field diodes, with the current that the lamp gives. */
export function builds(unit: AlternatorUnit, condition: Condition, voltages: Float64Array): boolean {
  const { machine } = unit;
  const current = fieldCurrentAt(machine, voltages[unit.fieldHigh]! - voltages[unit.fieldLow]!);
  const standing = Math.max(voltages[unit.supply]! - voltages[unit.frame]!, 0);
  return openExcitationVoltage(machine.machine, highestSpeed(unit, condition), current) > standing;
}

/** A machine that nothing enables, on its residual magnetism alone. */
export function buildsAlone(unit: AlternatorUnit, condition: Condition): boolean {
  const { machine } = unit.machine;
  return openExcitationVoltage(machine, highestSpeed(unit, condition), 0) > machine.brushDrop;
}

/** Speed of the shaft, or that of the rev that went before [rad/s]. */
function highestSpeed({ machine }: AlternatorUnit, condition: Condition): number {
  return condition.revved
    ? Math.max(machine.speed, (machine.speed / Math.max(condition.engineSpeed, 1)) * revvedSpeed)
    : machine.speed;
}
