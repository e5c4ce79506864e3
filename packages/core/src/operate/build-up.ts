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

/** Phase voltage at which the regulator of a machine without lamp or ignition wire wakes and feeds the field from the stud
 *  [V amplitude]; so set that with the usual residual magnetism it comes in near 1800 rpm of its shaft. Common practice:
 *  such machines come in at 1500 to 2500 rpm and stay in until they stop. */
const WAKING_VOLTAGE = 0.45;

/** A machine that nothing enables, on its residual magnetism alone. */
export function buildsAlone(unit: AlternatorUnit, condition: Condition, selfWaking: boolean): boolean {
  const { machine } = unit.machine;
  if (selfWaking)
    return machine.polePairs * highestSpeed(unit, condition) * machine.residualFlux > WAKING_VOLTAGE;
  return openExcitationVoltage(machine, highestSpeed(unit, condition), 0) > machine.brushDrop;
}

/** Speed of the shaft, or that of the rev that went before [rad/s]. */
function highestSpeed({ machine }: AlternatorUnit, condition: Condition): number {
  return condition.revved
    ? Math.max(machine.speed, (machine.speed / Math.max(condition.engineSpeed, 1)) * revvedSpeed)
    : machine.speed;
}
