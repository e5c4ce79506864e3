/** A boat's alternators and regulators under a condition: what machine and regulator elements are set to. */
import type { Alternator, Boat } from '../boat/index.ts';
import {
  alternatorLosses,
  alternatorOutputShare,
  ClosedFormMachine,
  emptyLosses,
  fitAlternator,
  heatLimitFactor,
  RATED_SPEED,
  ratingVoltage,
  startRamp,
  strayLosses,
  tableOf,
  TabulatedMachine,
  type AlternatorFault,
  type AlternatorMachine,
  type StrayLosses,
} from '../physics/index.ts';
import type { Condition } from './condition.ts';
import type { HeatState, RatedHeat } from './engine-heat.ts';
import { OPEN, type AlternatorUnit } from './plant.ts';

const RPM = (2 * Math.PI) / 60;
/** A regulator stands this much above its engine space while it works; estimate. */
const REGULATOR_RISE = 15; // K
/** An excitation diode at the current of a field, 0.8 V at 4 A (diode.ts), as a resistance [Ω]. */
const EXCITATION_DIODE_RESISTANCE = 0.2;

/** Whether a condition speaks of an engine; parts of no engine are spoken of always. */
export function concerns(condition: Condition, engine: string): boolean {
  return condition.engineId === undefined || engine === '' || engine === condition.engineId;
}

/** The winding or bridge fault of an alternator as physics names it. */
export function windingFaultOf(alternator: Alternator): AlternatorFault {
  return alternator.windingFault === 'turns-shorted'
    ? { kind: 'turns-shorted', fraction: alternator.windingSeverity }
    : { kind: alternator.windingFault };
}

/** What a fitted machine loses. */
export interface FittedLosses {
  readonly stray: StrayLosses;
  readonly rated: RatedHeat;
}

/** Fits the machine to the nameplate of a world; returns its losses. The `rival` gives its output from a table;
 *  windings, residual magnetism and losses are those of the closed form. */
export function fitMachine(
  unit: AlternatorUnit,
  boat: Boat,
  description: 'main' | 'rival' = 'main',
): FittedLosses {
  const alternator = boat.alternators[unit.index]!;
  const volts = boat.nominalVoltage;
  const current = alternator.ratedCurrent * alternator.health;
  const nameplate = {
    nominalVoltage: volts,
    ratedCurrent: current,
    cutInSpeed: alternator.cutInSpeed,
    fieldResistance: alternator.fieldResistance,
  };
  const points = alternator.curve.map(({ speed, share }) => ({ speed, current: current * share }));
  const told = points.length === 0 ? nameplate : { ...nameplate, points };
  // Two points say where output begins better than a guess does.
  const { cutInSpeed: _, ...withoutCutIn } = told;
  let fit = fitAlternator(points.length > 1 && !alternator.cutInTold ? withoutCutIn : told);
  if (fit.kind === 'did-not-fit' && fit.nearest !== undefined) fit = { kind: 'fitted', machine: fit.nearest };
  if (fit.kind !== 'fitted') fit = fitAlternator(nameplate);
  if (fit.kind !== 'fitted') fit = fitAlternator({ ...nameplate, cutInSpeed: 1150 * RPM });
  if (fit.kind !== 'fitted') throw new RangeError(`fitMachine: ${alternator.id}: ${fit.reason}`);
  const turns = 1 - alternator.rotorShortedShare;
  const { machine } = unit;
  machine.machine = {
    ...fit.machine,
    fluxPerAmp: fit.machine.fluxPerAmp * turns,
    saturationCurrent: fit.machine.saturationCurrent / Math.max(turns, 0.05),
    residualFlux: fit.machine.residualFlux * alternator.residual,
  };
  machine.fieldResistance = fit.machine.fieldResistance20 * turns;
  machine.brushResistance = alternator.brushResistance;
  machine.law =
    description === 'rival'
      ? new TabulatedMachine(tableOf(told, fit.machine), Math.max(turns, 0.05))
      : new ClosedFormMachine(machine.machine);
  const stray = strayLosses(fit.machine, volts, current);
  return { stray, rated: ratedHeat(fit.machine, stray, volts, current) };
}

/** Heat of a sound machine at its rated point, hot, half its field current of 20 °C through the regulator. */
function ratedHeat(
  machine: AlternatorMachine,
  stray: StrayLosses,
  nominalVoltage: 12 | 24,
  current: number,
): RatedHeat {
  const voltage = ratingVoltage(nominalVoltage);
  alternatorLosses(
    machine,
    stray,
    {
      speed: RATED_SPEED,
      outputVoltage: voltage,
      outputCurrent: current,
      fieldCurrent: voltage / (2 * machine.fieldResistance20),
      fieldVoltage: voltage,
      statorTemperature: 373.15,
      faultHeat: 0,
    },
    atRating,
  );
  return { winding: atRating.heat - atRating.bridge, bridge: atRating.bridge };
}

const atRating = emptyLosses();

/** How warm machines and their spaces are [K]: windings by alternator, spaces by engine. */
export type Warmth = Pick<HeatState, 'windings' | 'spaces'>;

/** What a run in time holds of machine and regulator. */
export interface HeldMachine {
  readonly setpointShifts: readonly number[];
  readonly engineDrops?: readonly number[];
  readonly batteryTemperatures?: readonly number[];
  readonly stalled?: readonly boolean[];
}

/** Settings of machine and regulator under a condition, not yet excited. */
export function applyMachine(
  unit: AlternatorUnit,
  boat: Boat,
  asked: Condition,
  warmth: Warmth,
  held?: HeldMachine,
): void {
  // Whoever hears his engine stall turns its key off.
  const condition: Condition =
    held?.stalled?.[unit.engineIndex] === true ? { ...asked, engine: 'off', engineSpeed: 0 } : asked;
  const alternator = boat.alternators[unit.index]!;
  const engine = boat.engines[unit.engineIndex];
  const belt = boat.belts[unit.beltIndex];
  const running = condition.engine === 'running' && concerns(condition, alternator.engine);
  const driven = running && engine !== undefined && !isBroken(belt);
  unit.machine.temperature = warmth.windings[unit.index] ?? boat.ambient;
  const loaded = 1 - (held?.engineDrops?.[unit.engineIndex] ?? 0);
  turnMachine(
    unit,
    alternator,
    driven ? condition.engineSpeed * engine.speedError * loaded * alternator.pulleyRatio : 0,
  );
  applyRegulator(unit, boat, condition, running, held?.batteryTemperatures?.[unit.mindedBank]);
  unit.regulator.cap *= heatShare(unit, boat, warmth);
  unit.regulator.setpoint += held?.setpointShifts[unit.regulatorIndex] ?? 0;
  const byHand = condition.field === 'full' && running;
  unit.regulator.connected = byHand ? 0 : 1;
  unit.fieldJumper.resistance = byHand ? 0.01 : OPEN;
  if (unit.excitationJumper) {
    unit.excitationJumper.resistance = condition.excitation === 'jumpered' && running ? 3 : OPEN;
  }
  if (unit.fieldDiodes) {
    unit.fieldDiodes.resistance = feedsBack(alternator) ? EXCITATION_DIODE_RESISTANCE : OPEN;
  }
}

/** Turns the machine at a shaft speed [rad/s]. */
export function turnMachine(unit: AlternatorUnit, alternator: Alternator, speed: number): void {
  unit.machine.speed = speed;
  unit.machine.share = alternatorOutputShare(unit.machine.machine, windingFaultOf(alternator), speed);
  unit.machine.law.turn(speed, unit.machine.temperature, unit.machine.share);
}

export const isBroken = (belt: { readonly grip: number } | undefined): boolean =>
  belt !== undefined && belt.grip <= 0;

function applyRegulator(
  unit: AlternatorUnit,
  boat: Boat,
  condition: Condition,
  running: boolean,
  minded = boat.batteries[unit.mindedBank]?.temperature ?? boat.ambient,
): void {
  const alternator = boat.alternators[unit.index]!;
  const regulator = boat.regulators[unit.regulatorIndex];
  const setting = unit.regulator;
  setting.gain = regulator?.gain ?? 5;
  setting.setpoint = (regulator?.setpoint ?? 14.2) + (regulator?.compensation ?? 0) * (minded - 298.15);
  setting.stuckFull = regulator?.state === 'stuck-full' && running;
  const ramp = regulator ? startRamp(regulator.startDelay, regulator.ramp, condition.sinceStart) : 1;
  const alive =
    condition.engine === 'running' ||
    (alternator.excitation === 'lamp' && (condition.engine === 'key-on' || feedsBack(alternator)));
  const asked = condition.engine === 'running' ? ramp : 1;
  setting.cap = alive && regulator?.state !== 'dead' ? (regulator?.fieldCap ?? 1) * asked : 0;
}

/** Through a shorted positive diode and the field diodes the battery stands on D+, key or no key: the regulator wakes and
 *  drives the field at rest (alternator-fault.ts, restDrainThroughShortedDiode). */
const feedsBack = (alternator: Alternator): boolean =>
  alternator.windingFault === 'diode-shorted' && alternator.fieldDiodes === 'good';

/** The same machine and regulator at another warmth, where `before` was set; speed as it is. */
export function warmMachine(unit: AlternatorUnit, boat: Boat, before: Warmth, warmth: Warmth): void {
  unit.machine.temperature = warmth.windings[unit.index] ?? boat.ambient;
  unit.regulator.cap *= heatShare(unit, boat, warmth) / heatShare(unit, boat, before);
}

/** Share of the field that the regulator leaves for its own heat and its alternator's. */
function heatShare(unit: AlternatorUnit, boat: Boat, { windings, spaces }: Warmth): number {
  const regulator = boat.regulators[unit.regulatorIndex];
  const winding = windings[unit.index] ?? boat.ambient;
  const space = spaces[unit.engineIndex] ?? boat.ambient;
  return (
    limitFactor(winding, regulator?.temperatureLimit) *
    limitFactor(space + REGULATOR_RISE, regulator?.ownTemperatureLimit)
  );
}

/** Share of the field that a temperature limit leaves; 0.3 well above it. Common practice: half and less. */
const limitFactor = (temperature: number, limit = Infinity): number =>
  Number.isFinite(limit) ? heatLimitFactor(temperature, limit, 10, 0.3) : 1;
