/** What a charge run comes to in a few numbers, for tables that stand side by side. SI.
 *    amps while charging    Σ charge kept by the bank while the engine runs / that time, up to 80 % of charge
 *    engine time a day      24 h · I_loads / (I_charging + I_loads), what keeps the bank level with usual loads all day
 *    fuel                   ∫ P_shaft dt · b + no-load fuel of the engine turning (handbook/fuel.ts)
 *  Leaves out: propeller load; charge lost by a bank at rest. `holdingUse` works out the engine time by running days.
 */
import type { Boat } from '../boat/index.ts';
import {
  beltElectricalPowerLimit,
  fuelForLoad,
  fuelWithoutLoad,
  type BeltSectionName,
} from '../handbook/index.ts';
import { timeToCharge, type ChargeRun } from '../operate/index.ts';

export interface BankFigures {
  readonly battery: string;
  /** State of charge at the start and the end. */
  readonly from: number;
  readonly to: number;
  /** s from the start; undefined when the run never reaches it. */
  readonly timeTo80: number | undefined;
  readonly timeTo95: number | undefined;
  /** A kept, while the engine runs and the bank is below 80 %, loads taken off; undefined when it never is. */
  readonly charging: number | undefined;
}

export interface RunFigures {
  readonly banks: readonly BankFigures[];
  /** The bank that the loads live on: index in `banks`. */
  readonly main: number;
  readonly duration: number; // s
  readonly engineTime: number; // s
  /** Engine time in a day that makes up for a day of usual loads [s]; undefined when the charging cannot. */
  readonly engineTimePerDay: number | undefined;
  /** Fuel while the engine runs without propeller [m³/s], and of that what charging costs. */
  readonly fuelRate: number;
  readonly fuelRateOfCharging: number;
  /** Fuel of `engineTimePerDay` [m³]. */
  readonly fuelPerDay: number | undefined;
  readonly peakTemperature: number; // K, hottest winding
  readonly peakEngineShare: number;
  /** Largest electrical output over what the belt's section carries. */
  readonly peakBeltShare: number;
  /** Voltage lost between stud and bank and back at the largest output [V]. */
  readonly pathLoss: number;
}

const DAY = 86_400;
const KNEE = 0.8;

/** Figures of a run of this boat. `serves`: index of each alternator's bank, in the order of the alternators. */
export function runFigures(boat: Boat, run: ChargeRun, serves: readonly (number | undefined)[]): RunFigures {
  const main = mainBank(boat);
  const banks = run.batteries.map(({ id, stateOfCharge }, index) => ({
    battery: id,
    from: stateOfCharge[0] ?? NaN,
    to: stateOfCharge.at(-1) ?? NaN,
    timeTo80: timeToCharge(run, id, 0.8),
    timeTo95: timeToCharge(run, id, 0.95),
    charging: meanCharging(boat, run, index),
  }));
  const loads = boat.loads.reduce((sum, { current }) => sum + current, 0);
  const charging = banks[main]?.charging;
  const engineTimePerDay =
    charging !== undefined && charging > 0 ? (DAY * loads) / (charging + loads) : undefined;
  const ofCharging = (run.energy.shaft * fuelForLoad.value) / Math.max(run.engineSeconds, 1);
  const engine = boat.engines[0];
  const turning =
    engine === undefined || run.engineSeconds <= 0
      ? 0
      : fuelWithoutLoad(engine, run.engineAngle / run.engineSeconds).value;
  const fuelRate = ofCharging + turning;
  return {
    banks,
    main,
    duration: run.times.at(-1) ?? 0,
    engineTime: run.engineSeconds,
    engineTimePerDay,
    fuelRate,
    fuelRateOfCharging: ofCharging,
    fuelPerDay: engineTimePerDay === undefined ? undefined : engineTimePerDay * fuelRate,
    peakTemperature: largest(run.alternators.flatMap(({ temperature }) => temperature)),
    peakEngineShare: largest(boat.engines.map(({ id }) => shareOfEngine(boat, run, id))),
    peakBeltShare: largest(run.alternators.map((series) => beltShare(boat, series))),
    pathLoss: largest(run.alternators.map((series, index) => pathLoss(run, series, serves[index]))),
  };
}

/** The bank that the loads live on: the largest that is not there for starting alone. */
function mainBank({ batteries }: Boat): number {
  const rank = batteries.map(
    ({ duty, capacity, health }) => capacity * health * (duty === 'start' ? 1e-3 : 1),
  );
  return Math.max(0, rank.indexOf(Math.max(...rank)));
}

function meanCharging(boat: Boat, run: ChargeRun, index: number): number | undefined {
  const { capacity = 0, health = 1 } = boat.batteries[index] ?? {};
  const charge = run.batteries[index]?.stateOfCharge ?? [];
  let time = 0;
  let gained = 0;
  for (let k = 1; k < run.times.length; k++) {
    const [before = 0, after = 0] = [charge[k - 1], charge[k]];
    if (run.running[k] !== true || before >= KNEE) continue;
    time += (run.times[k] ?? 0) - (run.times[k - 1] ?? 0);
    gained += after - before;
  }
  return time > 0 ? (gained * capacity * health) / time : undefined;
}

const largest = (values: readonly number[]): number =>
  values.reduce((most, value) => (value > most ? value : most), 0);

/** Largest share of an engine that its alternators take together. */
function shareOfEngine(boat: Boat, { times, alternators }: ChargeRun, engine: string): number {
  const first = boat.engines[0]?.id;
  const own = alternators.filter((_, i) => (boat.alternators[i]?.engine || first) === engine);
  return largest(times.map((_, k) => own.reduce((sum, { engineShare }) => sum + (engineShare[k] ?? 0), 0)));
}

function beltShare(boat: Boat, { id, output, voltage }: ChargeRun['alternators'][number]): number {
  const belt = boat.belts.find(({ alternator }) => alternator === id);
  if (belt === undefined) return 0;
  const power = largest(output.map((amps, k) => amps * (voltage[k] ?? 0)));
  return power / beltElectricalPowerLimit(belt.section satisfies BeltSectionName).value;
}

function pathLoss(
  run: ChargeRun,
  { output, voltage }: ChargeRun['alternators'][number],
  bank: number | undefined,
): number {
  const at = output.indexOf(largest(output));
  const posts = bank === undefined ? undefined : run.batteries[bank]?.voltage[at];
  return at < 0 || posts === undefined || (output[at] ?? 0) <= 0 ? 0 : (voltage[at] ?? 0) - posts;
}
