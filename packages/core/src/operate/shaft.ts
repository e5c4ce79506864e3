/** What an alternator gives and what its shaft asks for at a solved point. */
import type { Boat } from '../boat/index.ts';
import {
  alternatorFaultHeat,
  alternatorLosses,
  emptyLosses,
  type AlternatorLosses,
  type StrayLosses,
} from '../physics/index.ts';
import { windingFaultOf } from './machine-setting.ts';
import { fieldCurrentAt } from './machine.ts';
import type { AlternatorUnit } from './plant.ts';

const currents = new Float64Array(8);
const losses = emptyLosses();
const atRest = emptyLosses();

/** Current out of the stud [A]. */
export function outputOf(unit: AlternatorUnit, voltages: Float64Array): number {
  unit.element.writeCurrents(voltages, currents, 0);
  return -currents[0]!;
}

/** Torque [N·m], losses and heat of a machine. Hot: the object returned is used again by the next call. */
export function lossesOf(
  unit: AlternatorUnit,
  boat: Boat,
  stray: StrayLosses,
  voltages: Float64Array,
): Readonly<AlternatorLosses> {
  const { machine, speed, temperature, share } = unit.machine;
  if (speed <= 1) return atRest;
  const fieldVoltage = voltages[unit.fieldHigh]! - voltages[unit.fieldLow]!;
  const fieldCurrent = fieldCurrentAt(unit.machine, fieldVoltage);
  const fault = windingFaultOf(boat.alternators[unit.index]!);
  alternatorLosses(
    machine,
    stray,
    {
      speed,
      outputVoltage: Math.max(0, voltages[unit.stud]! - voltages[unit.frame]!),
      outputCurrent: Math.max(0, outputOf(unit, voltages)),
      fieldCurrent,
      fieldVoltage,
      statorTemperature: temperature,
      faultHeat: share < 1 ? alternatorFaultHeat(machine, fault, speed, fieldCurrent, temperature) : 0,
    },
    losses,
  );
  return losses;
}
