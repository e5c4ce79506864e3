/** The operating point as plain data, from a solved plant. */
import type { Boat } from '../boat/index.ts';
import type { StrayLosses } from '../physics/index.ts';
import { fieldCurrentAt } from './machine.ts';
import type { Plant } from './plant.ts';
import type { OperatingPoint } from './point.ts';
import { dutyAt } from './regulator-element.ts';
import { airHeat, beltHeat, lossesOf, outputOf } from './shaft.ts';
import { isLinked } from './waking.ts';

const currents = new Float64Array(2);

export function pointOf(
  plant: Plant,
  boat: Boat,
  stray: readonly StrayLosses[],
  how: Pick<OperatingPoint, 'condition' | 'converged' | 'solves'> & {
    readonly slips: readonly number[];
    /** Temperatures of the engine spaces [K]. */
    readonly spaces: readonly number[];
    readonly engineDrops?: readonly number[] | undefined;
  },
): OperatingPoint {
  const { condition, converged, solves, slips, spaces, engineDrops } = how;
  const { voltages, residual } = plant.solution;
  const between = (plus: number, minus: number): number => voltages[plus]! - voltages[minus]!;
  return {
    condition,
    converged,
    residual,
    engineSpeed: condition.engineSpeed * (boat.engines[0]?.speedError ?? 1) * (1 - (engineDrops?.[0] ?? 0)),
    voltages: voltages.slice(),
    alternators: plant.alternators.map((unit) => {
      const losses = lossesOf(unit, boat, stray[unit.index]!, voltages);
      const { torque, heat, bridge } = losses;
      const slip = slips[unit.index] ?? 0;
      return {
        id: boat.alternators[unit.index]!.id,
        speed: unit.machine.speed,
        slip,
        beltHeat: beltHeat(unit, losses, slip),
        excited: unit.fieldDiodes ? isLinked(unit) : unit.regulator.cap > 0,
        duty: dutyAt(unit.regulator, between(unit.sense, unit.regulatorGround)),
        fieldCurrent: fieldCurrentAt(unit.machine, between(unit.fieldHigh, unit.fieldLow)),
        output: outputOf(unit, voltages),
        voltage: between(unit.stud, unit.frame),
        temperature: unit.machine.temperature,
        space: spaces[unit.engineIndex] ?? boat.ambient,
        torque,
        shaftPower: torque * unit.machine.speed,
        heat,
        bridgeHeat: bridge,
        airHeat: airHeat(unit, losses, voltages),
      };
    }),
    batteries: boat.batteries.map((battery, i) => {
      const unit = plant.batteries[i]!;
      unit.gassing.writeCurrents(voltages, currents, 0);
      return {
        id: battery.id,
        voltage: between(unit.plus, unit.minus),
        current: unit.main.current + currents[0]!,
      };
    }),
    lamps: boat.lamps.map((lamp, i) => {
      const { a, b } = plant.wiring.lamps[i]!;
      const share = lamp.state === 'good' ? between(a, b) / boat.nominalVoltage : 0;
      return { id: lamp.id, glow: Math.abs(share) };
    }),
    relaysClosed: plant.wiring.relays.map((relay) => relay.resistance < 1),
    solves,
  };
}
