/** A boat's banks under a condition: the law of each, and what state it is solved from. */
import type { Battery, Boat } from '../boat/index.ts';
import {
  batteryTemperatureRange,
  followCurrent,
  prepareBattery,
  restedState,
  type BatteryLaw,
  type BatteryState,
} from '../physics/battery.ts';
import type { Condition } from './condition.ts';
import { FULL } from './filled.ts';
import type { HeldState } from './held-state.ts';
import type { Plant } from './plant.ts';

/** The law of a bank of this world. */
export function batteryLaw(battery: Battery, description: 'main' | 'rival' = 'main'): BatteryLaw {
  return {
    chemistry: battery.chemistry,
    ...(description === 'rival' ? { family: 'rival' as const } : {}),
    cells: battery.cells,
    capacity: battery.capacity * battery.health,
    resistanceFactor: battery.resistanceFactor,
    acceptance: battery.acceptance,
    sulphation: battery.sulphation,
    shortedCells: battery.shortedCells,
    temperature: battery.temperature,
  };
}

/** The same bank at another temperature [K]; its laws are not known beyond the ends of their range, and hold from there on. */
export function lawAt(law: BatteryLaw, temperature: number): BatteryLaw {
  const [coldest, hottest] = batteryTemperatureRange;
  return { ...law, temperature: Math.min(hottest, Math.max(coldest, temperature)) };
}

/** Prepares the banks for a solve: rested where they carry what they carried for hours, else from `before`, their states
 *  under hours of usual loads; from its own state when a run holds one. Hot. */
export function prepareBatteries(
  plant: Plant,
  boat: Boat,
  laws: readonly BatteryLaw[],
  before: readonly BatteryState[],
  condition: Condition,
  held?: HeldState,
): void {
  const rested = isRested(condition);
  const elapsed = rested ? Infinity : secondsUnderLoad(condition);
  boat.batteries.forEach((battery, i) => {
    const { prepared } = plant.batteries[i]!;
    if (held !== undefined) {
      const state = held.batteries[i]!;
      const temperature = held.batteryTemperatures?.[i];
      const law = temperature === undefined ? laws[i]! : lawAt(laws[i]!, temperature);
      prepareBattery(law, state, held.elapsed, prepared);
      if (held.predicted !== undefined && state.stateOfCharge < 1)
        followCurrent(prepared, laws[i]!.capacity, held.elapsed, held.predicted[i]!);
      return;
    }
    const state = condition.filled
      ? restedState(FULL)
      : rested
        ? restedState(battery.stateOfCharge)
        : before[i]!;
    prepareBattery(laws[i]!, state, elapsed, prepared);
    prepared.emf += battery.surfaceVoltage;
  });
}

/** Whether the banks carry what they have carried for hours. */
export const isRested = ({ engine, loads }: Condition): boolean =>
  engine !== 'running' && engine !== 'cranking' && loads === 'usual';

/** How long the banks have carried what they carry now [s]. */
function secondsUnderLoad(condition: Condition): number {
  if (condition.engine === 'running') return condition.sinceStart;
  if (condition.engine === 'cranking') return 2;
  return condition.loads === 'test' ? 15 : condition.rested;
}
