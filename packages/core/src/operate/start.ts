/** Where a solve starts: what the median boat did under the same condition. Starting there, and never from whatever was
 *  solved last, makes an operating point a function of boat and condition alone, and finds the live one of two solutions.
 */
import { Branch, Junction } from '../circuit/index.ts';
import type { AlternatorUnit, Plant } from './plant.ts';
import { dutyAt } from './regulator-element.ts';

const KNEE_STEPS = 6;

/** A solution as it is kept: node voltages, currents of the batteries' main branches, duties of the regulators. */
export interface Start {
  readonly voltages: Float64Array;
  readonly currents: Float64Array;
  readonly duties: Float64Array;
}

/** The present solution, to start from later. */
export function startOf({ solution, batteries, alternators }: Plant): Start {
  const { voltages } = solution;
  return {
    voltages: voltages.slice(),
    currents: Float64Array.from(batteries, ({ main }) => main.current),
    duties: Float64Array.from(alternators, ({ regulator, sense, regulatorGround }) =>
      dutyAt(regulator, voltages[sense]! - voltages[regulatorGround]!),
    ),
  };
}

/** Puts the plant to a start. Hot. */
export function startFrom(plant: Plant, start: Start): void {
  const { solution, batteries, alternators } = plant;
  solution.voltages.set(start.voltages);
  followVoltages(plant);
  for (let i = 0; i < batteries.length; i++) batteries[i]!.main.current = start.currents[i]!;
  for (let i = 0; i < alternators.length; i++) {
    alternators[i]!.regulatorElement.begin(solution.voltages, start.duties[i]!);
  }
}

/** A driven machine that feeds its own field has two solutions, dead and alive; it is alive, so start from there.
 *  False, and nothing done, where it is driven not, not allowed its field, or not dead. */
export function startHigh(plant: Plant, unit: AlternatorUnit, nominalVoltage: number): boolean {
  const { voltages } = plant.solution;
  if (unit.machine.speed <= 0 || (unit.regulator.cap <= 0 && unit.regulator.connected > 0)) return false;
  if (voltages[unit.stud]! - voltages[unit.frame]! > 0.7 * nominalVoltage) return false;
  for (const node of [unit.stud, unit.supply, unit.sense, unit.fieldHigh, ...plant.isolatorInputs]) {
    if (node !== 0 && node !== unit.frame) voltages[node] = unit.regulator.setpoint;
  }
  followVoltages(plant);
  return true;
}

/** Own unknowns of the elements go where the voltages are; those of the batteries stay. */
function followVoltages({ circuit, solution }: Plant): void {
  const { stateful } = circuit.work;
  for (let i = 0; i < stateful.length; i++) {
    const element = stateful[i]!;
    if (element instanceof Branch) continue;
    element.reset?.(solution.voltages);
    if (!(element instanceof Junction)) continue;
    // A junction starts at its knee and is led from there by the logarithm.
    for (let step = 0; step < KNEE_STEPS; step++) {
      element.prepare();
      element.advance(solution.voltages);
    }
  }
}
