/** What an alternator gives and what its shaft asks for at a solved point. */
import type { Boat } from '../boat/index.ts';
import {
  slipHeat,
  alternatorFaultHeat,
  alternatorLosses,
  emptyLosses,
  type AlternatorLosses,
  type StrayLosses,
} from '../physics/index.ts';
import { windingFaultOf } from './machine-setting.ts';
import { fieldCurrentAt } from './machine.ts';
import type { Heats } from './engine-heat.ts';
import type { AlternatorUnit, Plant } from './plant.ts';

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

/** Heats of the machines at a solved point, with the speeds of their shafts [rad/s]. */
export interface MachineHeats extends Heats {
  readonly speeds: readonly number[];
}

export function machineHeats(
  { alternators, solution: { voltages } }: Plant,
  boat: Boat,
  stray: readonly StrayLosses[],
  slips: readonly number[],
): MachineHeats {
  const heats = {
    windings: [] as number[],
    bridges: [] as number[],
    air: [] as number[],
    speeds: [] as number[],
  };
  for (const unit of alternators) {
    const lost = lossesOf(unit, boat, stray[unit.index]!, voltages);
    heats.windings.push(lost.heat - lost.bridge);
    heats.bridges.push(lost.bridge);
    heats.air.push(airHeat(unit, lost, voltages) + beltHeat(unit, lost, slips[unit.index] ?? 0));
    heats.speeds.push(unit.machine.speed);
  }
  return heats;
}

/** What the fan leaves in the air [W]. */
export function airHeat(
  unit: AlternatorUnit,
  lost: Readonly<AlternatorLosses>,
  voltages: Float64Array,
): number {
  const given =
    Math.max(0, voltages[unit.stud]! - voltages[unit.frame]!) * Math.max(0, outputOf(unit, voltages));
  return Math.max(0, lost.shaftPower + lost.field - given - lost.heat);
}

/** What slip makes in the belt [W]. */
export const beltHeat = (
  unit: AlternatorUnit,
  { torque }: Readonly<AlternatorLosses>,
  slip: number,
): number => (slip < 1 ? slipHeat(torque, unit.machine.speed / (1 - slip), slip) : 0);
