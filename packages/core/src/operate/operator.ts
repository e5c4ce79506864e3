/** `operate`: a boat under a condition. Sets the plant to one possible world, settles what is discrete (which machines are
 *  awake, which relays have closed, which gates, which belts slip), and solves.
 *
 *  Before the engine ran, the loads had run for hours: that state is solved first and kept, since the battery
 *  remembers it for minutes (battery-polarisation.ts).
 */
import type { Boat } from '../boat/index.ts';
import type { AlternatorLosses, StrayLosses } from '../physics/index.ts';
import { settledState, type BatteryLaw, type BatteryState } from '../physics/battery.ts';
import { batteryLaw, isRested, prepareBatteries } from './bank-setting.ts';
import { settleSlips } from './belt-slip.ts';
import { asFound, conditionKey, type Condition } from './condition.ts';
import { EngineHeat, type RatedHeat } from './engine-heat.ts';
import { setGates, settleGates } from './gates.ts';
import type { HeldState } from './held-state.ts';
import {
  applyMachine,
  concerns,
  fitMachine,
  isBroken,
  turnMachine,
  warmMachine,
  type Warmth,
} from './machine-setting.ts';
import { buildPlant, type Plant } from './plant.ts';
import { pointOf } from './point-of.ts';
import type { OperatingPoint } from './point.ts';
import { closedRelays, closeRelays, holdRelays } from './relay-closing.ts';
import { settleHeat } from './settle-heat.ts';
import { lossesOf, machineHeats, type MachineHeats } from './shaft.ts';
import { solvePlant } from './solve.ts';
import { startFrom, startHigh, startOf, type Start } from './start.ts';
import { awakeMachines, holdMachines, isLinked, wakeMachines } from './waking.ts';
import { applyCondition, setWiring } from './wiring-setting.ts';

/** Which descriptions of battery and alternator to compute with; `rival` ones are independent, for checks. */
export interface Models {
  readonly battery?: 'main' | 'rival';
  readonly alternator?: 'main' | 'rival';
}

/** The circuit solutions that a point may take, in order: each starts from the median boat's. */
type Stage = 'before' | 'asleep' | 'awake' | 'joined';
type Starts = { [S in Stage]?: Start } & {
  /** Tells about how warm other boats get. */
  heats?: MachineHeats;
};

/** How well a point's windings agree with the heat made in them [K]; a machine loses one or two thousandths of its output in 1 K. */
const TEMPERATURE_AGREES = 2;
const HEAT_ROUNDS = 8;

export class Operator {
  readonly plant: Plant;
  /** Circuit solutions since construction. */
  solves = 0;
  private boat: Boat;
  /** The boat that starts are taken from. */
  private readonly median: Boat;
  /** Heat of each alternator at its rated point. */
  readonly ratedHeats: RatedHeat[] = [];
  private readonly stray: StrayLosses[] = [];
  /** Of this world, cold; made when first asked for. */
  private coldHeat: EngineHeat | undefined;
  private readonly laws: BatteryLaw[] = [];
  private readonly before: BatteryState[] = [];
  private readonly asleep: boolean[] = [];
  /** Of the present solution, by alternator. */
  private readonly slips: number[] = [];
  private beforeKnown = false;
  private readonly models: Models;
  private readonly startsOf = new WeakMap<Condition, Starts>();
  private readonly startsByKey = new Map<string, Starts>();
  private starts: Starts = {};
  private collecting = false;
  /** From where the plant stands; made once, for those who settle something. */
  private readonly solveAgain = (): boolean => this.solve();

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
    this.coldHeat = undefined;
    setWiring(this.plant, boat);
    boat.batteries.forEach((battery, i) => (this.laws[i] = batteryLaw(battery, this.models.battery)));
    for (const unit of this.plant.alternators) {
      const { stray, rated } = fitMachine(unit, boat, this.models.alternator);
      this.stray[unit.index] = stray;
      this.ratedHeats[unit.index] = rated;
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

  /** Which driven machines are awake at the present solution. */
  awake(): boolean[] {
    return awakeMachines(this.plant, this.asleep);
  }

  private operate(condition: Condition, held?: HeldState): OperatingPoint {
    // The median boat is settled under every condition: what is collected must not depend on what was solved before.
    if (held === undefined && (this.collecting || !isRested(condition))) this.settleBefore();
    const spent = this.solves;
    const { boat, plant } = this;
    const closedBefore = held === undefined ? this.relaysBeforeTest(condition) : undefined;
    applyCondition(plant, boat, condition);
    prepareBatteries(plant, boat, this.laws, this.before, condition, held);
    const warmth = held ?? this.expectedWarmth(condition);
    for (const unit of plant.alternators) applyMachine(unit, boat, condition, warmth, held);
    if (held !== undefined) this.hold(held);
    let converged = this.solve('asleep');
    if (!converged && held?.awake !== undefined) return this.operate(condition, without(held));
    if (held?.awake === undefined)
      converged = this.settleSwitches(condition, converged, held === undefined, closedBefore);
    const full = plant.alternators.map(({ machine }) => machine.speed);
    converged = this.settle(converged, held?.gates);
    let { spaces } = warmth;
    if (held === undefined && warms(condition)) {
      let set = warmth;
      const { guess, off } = settleHeat(
        temperaturesOf(warmth),
        (guess, round) => {
          if (round > 0) {
            const next = warmthOf(guess, boat);
            for (const unit of plant.alternators) {
              warmMachine(unit, boat, set, next);
              turnMachine(unit, boat.alternators[unit.index]!, full[unit.index]!);
            }
            set = next;
            converged = this.settle(this.solve());
          }
          return temperaturesOf(this.warmth(condition, machineHeats(plant, boat, this.stray, this.slips)));
        },
        { agrees: TEMPERATURE_AGREES, rounds: HEAT_ROUNDS },
      );
      ({ spaces } = warmthOf(guess, boat));
      converged &&= off <= TEMPERATURE_AGREES;
      if (this.collecting) this.starts.heats = machineHeats(plant, boat, this.stray, this.slips);
    }
    return pointOf(plant, boat, this.stray, {
      condition,
      slips: this.slips,
      spaces,
      converged,
      solves: this.solves - spent,
      engineDrops: held?.engineDrops,
    });
  }

  /** Turns the gates and lets the belts slip as the present solution has them; whether the last solution converged. */
  private settle(solved: boolean, gates?: HeldState['gates']): boolean {
    const { boat, plant, slips } = this;
    let converged = solved;
    if (gates) converged = settleGates(plant, gates, this.solveAgain) ?? converged;
    for (const { index, beltIndex } of plant.alternators)
      slips[index] = isBroken(boat.belts[beltIndex]) ? 1 : 0;
    converged = settleSlips(plant, boat, this.stray, slips, this.solveAgain) ?? converged;
    if (gates) converged = settleGates(plant, gates, this.solveAgain) ?? converged;
    return converged;
  }

  /** As the heat of the median boat would leave this one; cold where nothing is known of that, and where no engine runs. */
  private expectedWarmth(condition: Condition): Warmth {
    const { heats } = this.starts;
    return heats !== undefined && warms(condition) ? this.warmth(condition, heats) : this.cold().state;
  }

  /** How warm the machines are if they made this heat since the start. */
  private warmth(condition: Condition, heats: MachineHeats): Warmth {
    const runs = this.boat.engines.map(({ id }) => concerns(condition, id));
    return this.cold().after(heats.speeds, heats, heats, runs, condition.sinceStart).state;
  }

  private cold(): EngineHeat {
    return (this.coldHeat ??= new EngineHeat(this.boat, this.ratedHeats));
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
    // Once more from where that left it warm.
    if (this.starts.heats !== undefined) this.operate(condition);
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
      const fed = !unit.fieldDiodes || isLinked(unit);
      if (fed && startHigh(this.plant, unit, this.boat.nominalVoltage)) any = true;
    }
    return any;
  }

  /** The state that hours of usual loads leave the banks in, the engine and all chargers off. */
  private settleBefore(): void {
    if (this.beforeKnown) return;
    const { boat, plant } = this;
    applyCondition(plant, boat, asFound);
    prepareBatteries(plant, boat, this.laws, this.before, asFound);
    const cold = this.expectedWarmth(asFound);
    for (const unit of plant.alternators) applyMachine(unit, boat, asFound, cold);
    this.solve('before');
    boat.batteries.forEach((battery, i) => {
      const { current } = plant.batteries[i]!.main;
      this.before[i] = settledState(this.laws[i]!, battery.stateOfCharge, current);
    });
    this.beforeKnown = true;
  }

  /** Gates, relays and machines as a run left them. */
  private hold({ relays, gates, awake }: HeldState): void {
    if (gates !== undefined) setGates(this.plant, gates);
    holdRelays(this.plant, this.boat, relays);
    if (awake !== undefined) holdMachines(this.plant, awake);
  }

  /** Machines, then relays: each decided on the solution so far, then solved again if anything changed. */
  private settleSwitches(
    condition: Condition,
    first: boolean,
    relays: boolean,
    closedBefore?: readonly boolean[],
  ): boolean {
    const { boat, plant } = this;
    let converged = first;
    if (wakeMachines(plant, boat, condition, this.asleep)) converged = this.solve('awake');
    return relays && condition.engine === 'running' && closeRelays(plant, boat, condition, closedBefore)
      ? this.solve('joined')
      : converged;
  }

  /** A relay that the usual loads let close stays so for the seconds of a test load, which is shorter than it waits to open. */
  private relaysBeforeTest(condition: Condition): readonly boolean[] | undefined {
    const { boat, plant } = this;
    if (condition.loads !== 'test' || condition.engine !== 'running' || boat.relays.length === 0)
      return undefined;
    this.operate({ ...condition, loads: 'usual' });
    return closedRelays(plant, boat);
  }
}

/** Whether an engine has run for long enough to warm anything. */
const warms = ({ engine, sinceStart }: Condition): boolean => engine === 'running' && sinceStart > 0;

/** Windings, then spaces, as a list of temperatures; and back. */
const temperaturesOf = ({ windings, spaces }: Warmth): number[] => [...windings, ...spaces];
const warmthOf = (temperatures: readonly number[], { alternators }: Boat): Warmth => ({
  windings: temperatures.slice(0, alternators.length),
  spaces: temperatures.slice(alternators.length),
});

/** From nothing: which machines are awake is found anew. */
const without = ({ awake: _, ...rest }: HeldState): HeldState => rest;
