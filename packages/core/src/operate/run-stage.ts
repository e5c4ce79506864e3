/** Charge stages of the regulators of a run. One inside the alternator holds one voltage; one outside has stages:
 *  float at the middle of the usual band of the chemistry, tail current and longest absorption of physics/regulator.ts.
 */
import type { Battery, Boat } from '../boat/index.ts';
import { chargingSetPoints } from '../handbook/index.ts';
import {
  nextStage,
  regulatorSetpoint,
  TYPICAL_STAGE_RULES,
  type ChargeStage,
  type RegulatorSettings,
  type StageRules,
} from '../physics/index.ts';

/** A change of stage is located within this [s]. */
const LOCATED_WITHIN = 2;

export interface StageKeeper {
  /** Index of the regulator, and of the bank that it charges. */
  readonly regulator: number;
  readonly battery: number;
  readonly staged: boolean;
  readonly settings: RegulatorSettings;
  readonly rules: StageRules;
  readonly capacity: number;
  stage: ChargeStage;
  inStage: number; // s
}

/** A reading of the regulator: sensed volts, amps into its bank, and the bank's temperature [K]. */
export interface Sensed {
  readonly voltage: number;
  readonly current: number;
  readonly temperature: number;
}

/** `minded`: bank of each alternator's regulator, in the order of the alternators (boat/charging.ts). */
export function stageKeepers(boat: Boat, minded: readonly number[]): StageKeeper[] {
  return boat.regulators.map((regulator, index) => {
    const at = minded[boat.alternators.findIndex(({ id }) => id === regulator.alternator)] ?? 0;
    const battery = boat.batteries[at];
    const times = boat.nominalVoltage / 12;
    const [low, high] = chargingSetPoints(battery?.chemistry ?? 'flooded').float;
    const float = Math.min(regulator.setpoint, ((low + high) / 2) * times);
    return {
      regulator: index,
      battery: at,
      staged: regulator.place === 'outside',
      settings: settingsOf(regulator, float),
      rules: {
        ...TYPICAL_STAGE_RULES,
        absorptionMargin: TYPICAL_STAGE_RULES.absorptionMargin * times,
        rebulkMargin: TYPICAL_STAGE_RULES.rebulkMargin * times,
      },
      capacity: capacityOf(battery),
      stage: 'bulk',
      inStage: 0,
    };
  });
}

/** What the stage adds to the boat's own set-point [V]. */
export function setpointShift({ stage, staged, settings }: StageKeeper): number {
  return staged && stage === 'float' ? settings.floatVoltage - settings.absorptionVoltage : 0;
}

/** The stage that this reading brings. */
export function stageAfter(keeper: StageKeeper, sensed: Sensed, inStage: number): ChargeStage {
  if (!keeper.staged) return keeper.stage;
  return nextStage(
    keeper.settings,
    keeper.rules,
    keeper.stage,
    {
      sensedVoltage: sensed.voltage,
      chargeCurrent: sensed.current,
      capacity: keeper.capacity,
      secondsInStage: inStage,
    },
    sensed.temperature,
  );
}

/** How far a reading is from the change of stage: positive before, negative beyond. */
function distanceToChange(keeper: StageKeeper, sensed: Sensed): number {
  const { settings, rules } = keeper;
  const { temperature } = sensed;
  if (keeper.stage === 'bulk') {
    const at = regulatorSetpoint(settings, 'absorption', temperature) - rules.absorptionMargin;
    return at - sensed.voltage;
  }
  if (keeper.stage === 'absorption') {
    const tail = (rules.tailCurrentShare * keeper.capacity) / 3600;
    return sensed.current / tail - 1;
  }
  return sensed.voltage - (regulatorSetpoint(settings, 'float', temperature) - rules.rebulkMargin);
}

/** A shorter step that ends just after a stage changes; undefined when none does within it, or the change is located. */
export function stepToChange(
  keepers: readonly StageKeeper[],
  from: readonly Sensed[],
  to: readonly Sensed[],
  step: number,
): number | undefined {
  if (step <= LOCATED_WITHIN) return undefined;
  let shorter: number | undefined;
  keepers.forEach((keeper, i) => {
    const start = from[i];
    const end = to[i];
    if (start === undefined || end === undefined || stageAfter(keeper, end, 0) === keeper.stage) return;
    const near = distanceToChange(keeper, start);
    const far = distanceToChange(keeper, end);
    const reached = near > 0 ? step * (near / (near - far)) : step / 4;
    if (near > 0 && step - reached <= LOCATED_WITHIN) return;
    const wanted = Math.max(reached + LOCATED_WITHIN / 4, step / 10);
    shorter = Math.min(shorter ?? Infinity, 0.9 * step, wanted);
  });
  return shorter;
}

/** Time to the next moment at which something is switched by the clock: delays, ramps, longest absorption [s]. */
export function untilSwitched(boat: Boat, keepers: readonly StageKeeper[], sinceStart: number): number {
  let until = Infinity;
  const at = (since: number): void => {
    if (since - sinceStart > 1e-6) until = Math.min(until, since - sinceStart);
  };
  for (const { startDelay, ramp } of boat.regulators) {
    at(startDelay);
    at(startDelay + ramp / 2);
    at(startDelay + ramp);
  }
  for (const { staged, stage, inStage, rules } of keepers) {
    if (staged && stage === 'absorption')
      until = Math.min(until, Math.max(rules.longestAbsorption - inStage, 1e-3));
  }
  return until;
}

const capacityOf = (battery: Battery | undefined): number =>
  battery === undefined ? 1 : battery.capacity * battery.health;

function settingsOf(regulator: Boat['regulators'][number], floatVoltage: number): RegulatorSettings {
  return {
    gain: regulator.gain,
    absorptionVoltage: regulator.setpoint,
    floatVoltage,
    temperatureCompensation: regulator.compensation,
    compensationRange: [233.15, 343.15],
    fieldCap: regulator.fieldCap,
    startDelay: regulator.startDelay,
    rampTime: regulator.ramp,
  };
}
