/** `operate`: a boat under a condition. Sets the plant to one possible world, decides what is discrete (is the machine
 *  excited, is the regulator enabled, has the relay closed, does the belt slip), and solves.
 *
 *  Before the engine ran, the loads had run for hours: that state is solved first and kept, since the battery
 *  remembers it for minutes (battery-polarisation.ts).
 */
import type { Boat } from '../boat/index.ts';
import type { AlternatorLosses, StrayLosses } from '../physics/index.ts';
import {
  followCurrent,
  prepareBattery,
  restedState,
  settledState,
  type BatteryLaw,
  type BatteryState,
} from '../physics/battery.ts';
import { builds, buildsAlone } from './build-up.ts';
import { asFound, conditionKey, type Condition } from './condition.ts';
import { slipAt } from './drive.ts';
import { FULL } from './filled.ts';
import { setGates, turnGates, type Gates } from './gates.ts';
import { applyMachine, fitMachine, isBroken, turnMachine } from './machine-setting.ts';
import { buildPlant, type Plant } from './plant.ts';
import { pointOf } from './point-of.ts';
import type { OperatingPoint } from './point.ts';
import { lossesOf } from './shaft.ts';
import { solvePlant } from './solve.ts';
import { startFrom, startHigh, startOf, type Start } from './start.ts';
import { applyCondition, setWiring } from './wiring-setting.ts';

/** Link that the field diodes make from the stud to D+ [Ω]: their leads and joints. Their drop is no part of it: they sit on
 *  the same stator as the main diodes, whose drop rises as fast with output as theirs with field current, so D+ stays level
 *  with the stud. A larger link would feed back: regulator at D+ with gain 5/V and 4.5 A of field give a loop gain of
 *  22 /Ω · link, 0.1 with 5 mΩ, 0.45 with 20 mΩ and twice that at twice the gain, where a real set is steady. */
const FIELD_DIODE_LINK = 0.005;
/** Slip below which speed counts as not lost: creep is part of the pulley ratio. */
const CREEP = 0.03;
const SLIP_TOLERANCE = 1e-7;
const SLIP_STEPS = 60;

/** Which descriptions of battery and alternator to compute with; `rival` ones are independent, for checks. */
export interface Models {
  readonly battery?: 'main' | 'rival';
  readonly alternator?: 'main' | 'rival';
}

/** What a run in time knows of a moment, in place of what a single operating point assumes. */
export interface HeldState {
  /** In the order of the boat's batteries; the circuit is solved `elapsed` seconds after they stood so. */
  readonly batteries: readonly BatteryState[];
  readonly elapsed: number;
  /** Currents that the batteries' charge supposes at that time [A]. */
  readonly predicted?: readonly number[];
  /** Winding temperatures [K], in the order of the alternators. */
  readonly windings: readonly number[];
  /** What the stage adds to each regulator's set-point [V], in the order of the regulators. */
  readonly setpointShifts: readonly number[];
  /** Which relays are closed, in the order of the relays. */
  readonly relays: readonly boolean[];
  /** What protection switches stop, in the order of the batteries; nothing when absent. */
  readonly gates?: Gates;
  /** Which machines are awake, in the order of the alternators; found anew when absent. */
  readonly awake?: readonly boolean[];
}

/** The circuit solutions that a point may take, in order: each starts from the median boat's. */
type Stage = 'before' | 'asleep' | 'awake' | 'joined';
type Starts = { [S in Stage]?: Start };

export class Operator {
  readonly plant: Plant;
  /** Circuit solutions since construction. */
  solves = 0;
  private boat: Boat;
  /** The boat that starts are taken from. */
  private readonly median: Boat;
  private readonly stray: StrayLosses[] = [];
  private readonly laws: BatteryLaw[] = [];
  private readonly before: BatteryState[] = [];
  private readonly asleep: boolean[] = [];
  private beforeKnown = false;
  private readonly models: Models;
  private readonly startsOf = new WeakMap<Condition, Starts>();
  private readonly startsByKey = new Map<string, Starts>();
  private starts: Starts = {};
  private collecting = false;

  /** `boat` is best the median one: every solve starts from what it did. */
  constructor(boat: Boat, models: Models = {}) {
    this.boat = boat;
    this.median = boat;
    this.models = models;
    this.plant = buildPlant(boat);
    this.set(boat);
  }

  /** Sets the plant to a world of the same wiring. */
  set(boat: Boat): void {
    this.boat = boat;
    this.beforeKnown = false;
    setWiring(this.plant, boat);
    boat.batteries.forEach((_, i) => (this.laws[i] = this.batteryLaw(i)));
    for (const unit of this.plant.alternators) {
      this.stray[unit.index] = fitMachine(unit, boat, this.models.alternator);
    }
  }

  /** The operating point under a condition; of a run in time when its state is given, from the moment before. */
  at(condition: Condition, held?: HeldState): OperatingPoint {
    if (held === undefined) this.collectStarts(condition);
    else this.starts = {};
    return this.operate(condition, held);
  }

  /** The banks as hours of usual loads leave them, before the engine is started. */
  statesBefore(): BatteryState[] {
    this.settleBefore();
    return this.before.map((state) => ({ ...state }));
  }

  /** The law of a bank of this world. */
  lawOf(index: number): BatteryLaw {
    return this.laws[index]!;
  }

  /** Losses of an alternator by part, shaft power and torque, at the point that was solved last. */
  lossesOf(index: number): AlternatorLosses {
    const unit = this.plant.alternators[index]!;
    return { ...lossesOf(unit, this.boat, this.stray[index]!, this.plant.solution.voltages) };
  }

  private operate(condition: Condition, held?: HeldState): OperatingPoint {
    // The median boat is settled under every condition: what is collected must not depend on what was solved before.
    if (held === undefined && (this.collecting || !isRested(condition))) this.settleBefore();
    const spent = this.solves;
    const { boat, plant } = this;
    const closedBefore = held === undefined ? this.relaysBeforeTest(condition) : undefined;
    applyCondition(plant, boat, condition);
    this.prepareBatteries(condition, held);
    for (const unit of plant.alternators) applyMachine(unit, boat, condition, held);
    if (held !== undefined) this.hold(held);
    let converged = this.solve('asleep');
    if (!converged && held?.awake !== undefined) return this.operate(condition, without(held));
    if (held?.awake === undefined)
      converged = this.settleSwitches(condition, converged, held === undefined, closedBefore);
    converged = this.settleGates(held, converged);
    const slips = plant.alternators.map(({ beltIndex }) => (isBroken(boat.belts[beltIndex]) ? 1 : 0));
    converged = this.settleSlip(slips, converged);
    converged = this.settleGates(held, converged);
    return pointOf(plant, boat, this.stray, { condition, slips, converged, solves: this.solves - spent });
  }

  /** Operates the median boat once under every condition that is asked for. */
  private collectStarts(condition: Condition): void {
    const known = this.startsOf.get(condition) ?? this.startsByKey.get(conditionKey(condition));
    this.starts = known ?? {};
    this.startsOf.set(condition, this.starts);
    if (known !== undefined) return;
    const { boat } = this;
    this.startsByKey.set(conditionKey(condition), this.starts);
    this.collecting = true;
    this.set(this.median);
    this.operate(condition);
    this.collecting = false;
    this.set(boat);
  }

  private solve(stage?: Stage): boolean {
    this.solves++;
    const start = stage && !this.collecting ? this.starts[stage] : undefined;
    if (start) startFrom(this.plant, start);
    else this.wakes();
    let converged = solvePlant(this.plant);
    if (this.wakes()) {
      this.solves++;
      converged = solvePlant(this.plant);
    }
    if (stage && this.collecting && converged) this.starts[stage] = startOf(this.plant);
    return converged;
  }

  /** Whether a driven machine that feeds its own field was found dead; it then stands at a live start. */
  private wakes(): boolean {
    let any = false;
    for (const unit of this.plant.alternators) {
      const fed = !unit.fieldDiodes || unit.fieldDiodes.resistance < 0.1;
      if (fed && startHigh(this.plant, unit, this.boat.nominalVoltage)) any = true;
    }
    return any;
  }

  private batteryLaw(index: number): BatteryLaw {
    const battery = this.boat.batteries[index]!;
    return {
      chemistry: battery.chemistry,
      ...(this.models.battery === 'rival' ? { family: 'rival' as const } : {}),
      cells: battery.cells,
      capacity: battery.capacity * battery.health,
      resistanceFactor: battery.resistanceFactor,
      acceptance: battery.acceptance,
      sulphation: battery.sulphation,
      shortedCells: battery.shortedCells,
      temperature: battery.temperature,
    };
  }

  private prepareBatteries(condition: Condition, held?: HeldState): void {
    const rested = isRested(condition);
    const elapsed = rested ? Infinity : secondsUnderLoad(condition);
    this.boat.batteries.forEach((battery, i) => {
      const { prepared } = this.plant.batteries[i]!;
      if (held !== undefined) {
        const state = held.batteries[i]!;
        prepareBattery(this.laws[i]!, state, held.elapsed, prepared);
        if (held.predicted !== undefined && state.stateOfCharge < 1)
          followCurrent(prepared, this.laws[i]!.capacity, held.elapsed, held.predicted[i]!);
        return;
      }
      const state = condition.filled
        ? restedState(FULL)
        : rested
          ? restedState(battery.stateOfCharge)
          : this.before[i]!;
      prepareBattery(this.laws[i]!, state, elapsed, prepared);
      prepared.emf += battery.surfaceVoltage;
    });
  }

  /** The state that hours of usual loads leave the banks in, the engine and all chargers off. */
  private settleBefore(): void {
    if (this.beforeKnown) return;
    const { boat, plant } = this;
    applyCondition(plant, boat, asFound);
    this.prepareBatteries(asFound);
    for (const unit of plant.alternators) applyMachine(unit, boat, asFound);
    this.solve('before');
    boat.batteries.forEach((battery, i) => {
      const { current } = plant.batteries[i]!.main;
      this.before[i] = settledState(this.laws[i]!, battery.stateOfCharge, current);
    });
    this.beforeKnown = true;
  }

  /** Which driven machines are awake at the present solution. */
  awake(): boolean[] {
    return this.plant.alternators.map(
      ({ machine, fieldDiodes, index }) =>
        machine.speed > 0 && (fieldDiodes ? fieldDiodes.resistance < 0.1 : this.asleep[index] !== true),
    );
  }

  /** Relays and machines as a run left them. */
  private hold({ relays, gates, awake }: HeldState): void {
    const { plant, boat } = this;
    if (gates !== undefined) setGates(plant, gates);
    relays.forEach((closed, i) => {
      if (closed) plant.wiring.relays[i]!.resistance = boat.relays[i]!.contact;
    });
    if (awake === undefined) return;
    for (const { index, fieldDiodes, regulator, machine } of plant.alternators) {
      if (fieldDiodes) {
        if (awake[index] === true) fieldDiodes.resistance = FIELD_DIODE_LINK;
      } else if (machine.speed > 0 && awake[index] !== true && !regulator.stuckFull) regulator.cap = 0;
    }
  }

  /** Enable, excitation and relays: each decided on the solution so far, then solved again if anything changed. */
  private settleSwitches(
    condition: Condition,
    first: boolean,
    relays: boolean,
    closedBefore?: readonly boolean[],
  ): boolean {
    const { boat, plant } = this;
    const { voltages } = plant.solution;
    let converged = first;
    let changed = false;
    for (const unit of plant.alternators) {
      this.asleep[unit.index] = false;
      if (unit.machine.speed <= 0) continue;
      const alternator = boat.alternators[unit.index]!;
      const enabled =
        unit.enable < 0
          ? alternator.excitation === 'lamp'
          : voltages[unit.enable]! - voltages[unit.regulatorGround]! > 0.5 * boat.nominalVoltage;
      if (unit.fieldDiodes) {
        if (alternator.fieldDiodes === 'good' && builds(unit, condition, voltages)) {
          unit.fieldDiodes.resistance = FIELD_DIODE_LINK;
          changed = true;
        }
      } else if (!enabled && !buildsAlone(unit, condition, alternator.excitation === 'none')) {
        this.asleep[unit.index] = true;
        if (unit.regulator.cap > 0 && !unit.regulator.stuckFull) {
          unit.regulator.cap = 0;
          changed = true;
        }
      }
    }
    if (changed) converged = this.solve('awake');
    return relays && condition.engine === 'running' && this.closeRelays(condition, closedBefore)
      ? this.solve('joined')
      : converged;
  }

  /** Gates that stop one direction: turned until each fits the solution. */
  private settleGates(held: HeldState | undefined, first: boolean): boolean {
    const gates = held?.gates;
    if (gates === undefined) return first;
    let converged = first;
    for (let round = 0; round < 2 * gates.length; round++) {
      const turned = turnGates(this.plant, gates, () => this.solve());
      if (turned === undefined) break;
      converged = turned;
    }
    return converged;
  }

  /** A relay that the usual loads let close stays so for the seconds of a test load, which is shorter than it waits to open. */
  private relaysBeforeTest(condition: Condition): readonly boolean[] | undefined {
    const { boat, plant } = this;
    if (condition.loads !== 'test' || condition.engine !== 'running' || boat.relays.length === 0)
      return undefined;
    this.operate({ ...condition, loads: 'usual' });
    return boat.relays.map(({ contact }, i) => plant.wiring.relays[i]!.resistance === contact);
  }

  private closeRelays(condition: Condition, closedBefore?: readonly boolean[]): boolean {
    const { wiring, solution, batteries } = this.plant;
    const { voltages } = solution;
    let closed = false;
    this.boat.relays.forEach((relay, i) => {
      if (relay.state !== 'good' || condition.sinceStart < relay.closeDelay) return;
      const [a, b] = wiring.relayNodes[i]!;
      const back = voltages[batteries[0]?.minus ?? 0] ?? 0;
      const high = Math.max(voltages[a]!, voltages[b]!) - back;
      if (!(closedBefore?.[i] ?? high >= relay.closeVoltage)) return;
      wiring.relays[i]!.resistance = relay.contact;
      closed = true;
    });
    return closed;
  }

  /** Belt: the slip at which the machine's torque is what the belt passes on. Regula falsi (Illinois) with a bisection
   *  every third step, since the machine may drop out on the way. */
  private settleSlip(slips: number[], first: boolean): boolean {
    let converged = first;
    const { boat, plant } = this;
    for (const unit of plant.alternators) {
      const belt = boat.belts[unit.beltIndex];
      const alternator = boat.alternators[unit.index]!;
      const full = unit.machine.speed;
      if (belt === undefined || full <= 0) continue;
      const asked = (): number =>
        slipAt(belt, lossesOf(unit, boat, this.stray[unit.index]!, plant.solution.voltages).torque);
      let slip = asked();
      slips[unit.index] = slip;
      if (slip < CREEP) continue;
      let low = 0;
      let high = 1;
      let lowExcess = slip;
      let highExcess = -1;
      for (let step = 0; step < SLIP_STEPS && high - low > SLIP_TOLERANCE; step++) {
        slip =
          step % 3 === 2
            ? (low + high) / 2
            : (low * highExcess - high * lowExcess) / (highExcess - lowExcess);
        turnMachine(unit, alternator, full * (1 - slip));
        converged = this.solve();
        const excess = asked() - slip;
        if (Math.abs(excess) < SLIP_TOLERANCE) break;
        if (excess > 0) {
          low = slip;
          lowExcess = excess;
          highExcess /= 2;
        } else {
          high = slip;
          highExcess = excess;
          lowExcess /= 2;
        }
      }
      slips[unit.index] = slip;
    }
    return converged;
  }
}

/** From nothing: which machines are awake is found anew. */
const without = ({ awake: _, ...rest }: HeldState): HeldState => rest;

/** Whether the banks carry what they have carried for hours. */
const isRested = ({ engine, loads }: Condition): boolean =>
  engine !== 'running' && engine !== 'cranking' && loads === 'usual';

/** How long the banks have carried what they carry now [s]. */
function secondsUnderLoad(condition: Condition): number {
  if (condition.engine === 'running') return condition.sinceStart;
  if (condition.engine === 'cranking') return 2;
  return condition.loads === 'test' ? 15 : condition.rested;
}
