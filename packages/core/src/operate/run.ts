/** `run`: a boat through time, from seconds to days. An operating point at the end of each step (run-step.ts), the banks'
 *  charge by the trapezoidal rule between, temperatures, stages and switches carried along.
 *  Leaves out: propeller load on the engine's speed.
 */
import { cloneBoat, type Boat } from '../boat/index.ts';
import type { BatteryState } from '../physics/battery.ts';
import { asFound, type Condition } from './condition.ts';
import { Operator, type Models } from './operator.ts';
import { lawAt } from './bank-setting.ts';
import { EngineHeat } from './engine-heat.ts';
import { BankHeat } from './run-bank-heat.ts';
import { RunBooks } from './run-books.ts';
import { requirePlan, type ChargeRun, type Phase, type RunEvent, type RunOptions } from './run-plan.ts';
import { Moments, shaftOf, type Moment } from './run-moment.ts';
import { setpointShift, stageAfter, stageKeepers, untilSwitched, type StageKeeper } from './run-stage.ts';
import { capacityOf, Stepper, type Heated } from './run-step.ts';
import { ExtremeCells } from './run-cells.ts';
import { RunSwitches } from './run-switches.ts';

const FIRST_STEP = 2; // s

/** A boat that may be any world, run through a plan. */
export function chargeRun(
  boat: Boat,
  plan: readonly Phase[],
  options: RunOptions & { readonly models?: Models } = {},
): ChargeRun {
  requirePlan(plan);
  return new Run(boat, options).go(plan);
}

class Run {
  private readonly boat: Boat;
  private readonly operator: Operator;
  private readonly stepper: Stepper;
  private readonly usualLoads: readonly number[];
  private readonly states: BatteryState[];
  private readonly keepers: StageKeeper[];
  private readonly switches: RunSwitches;
  private readonly heat: EngineHeat;
  private readonly bankHeat: BankHeat;
  private readonly extremes: ExtremeCells;
  private time = 0;
  private sinceStart = 0;
  private engineSeconds = 0;
  private engineAngle = 0;
  private running = false;
  private steps = 0;
  private refused = 0;
  private notConverged = 0;
  private readonly books: RunBooks;
  private readonly events: RunEvent[] = [];
  private previous: { moment: Moment; step: number } | undefined;

  constructor(
    boat: Boat,
    private readonly options: RunOptions & { readonly models?: Models },
  ) {
    this.boat = cloneBoat(boat);
    for (const battery of this.boat.batteries) {
      const given = options.stateOfCharge?.[battery.id];
      if (given !== undefined && !(given >= 0 && given <= 1))
        throw new RangeError(`chargeRun: stateOfCharge ${given} of ${battery.id} must lie in 0..1`);
      battery.stateOfCharge = given ?? battery.stateOfCharge;
      battery.surfaceVoltage = 0;
    }
    this.operator = new Operator(this.boat, options.models ?? {});
    this.usualLoads = this.boat.loads.map(({ current }) => current);
    this.states = this.operator.statesBefore();
    this.keepers = stageKeepers(
      this.boat,
      this.operator.plant.alternators.map(({ mindedBank }) => mindedBank),
    );
    this.switches = new RunSwitches(this.boat, this.operator.plant);
    this.heat = new EngineHeat(this.boat, this.operator.ratedHeats);
    this.bankHeat = new BankHeat(this.boat, options.heat === 'held');
    this.extremes = new ExtremeCells(this.boat);
    this.stepper = new Stepper({
      boat: this.boat,
      moments: new Moments(this.operator, this.boat, this.keepers, this.extremes),
      heat: this.heat,
      bankHeat: this.bankHeat,
      heatHeld: options.heat === 'held',
      keepers: this.keepers,
      switches: this.switches,
      tolerance: options.tolerance ?? 3e-4,
    });
    this.books = new RunBooks(this.boat);
  }

  go(plan: readonly Phase[]): ChargeRun {
    const whole = plan.reduce((sum, { duration }) => sum + duration, 0);
    let ended: ChargeRun['ended'] = 'plan-done';
    for (const phase of plan) {
      const found = this.phase(phase, whole);
      if (found !== undefined) {
        ended = found;
        break;
      }
    }
    return {
      ended,
      ...this.books.result(),
      heat: this.heat.books,
      bankHeat: this.bankHeat.books,
      events: this.events,
      engineSeconds: this.engineSeconds,
      engineAngle: this.engineAngle,
      steps: this.steps,
      refused: this.refused,
      solves: this.operator.solves,
      notConverged: this.notConverged,
    };
  }

  /** One phase; how the run ended, or undefined when it goes on. */
  private phase(phase: Phase, whole: number): ChargeRun['ended'] | undefined {
    const { boat } = this;
    boat.loads.forEach((load, i) => (load.current = (this.usualLoads[i] ?? 0) * (phase.loads ?? 1)));
    this.turn(phase.engine === 'running');
    const condition = (): Condition => ({
      ...asFound,
      engine: this.running ? phase.engine : 'off',
      engineSpeed: this.running ? (phase.engineSpeed ?? boat.engines[0]?.cruiseSpeed ?? 0) : 0,
      sinceStart: this.running ? this.sinceStart : 0,
      otherSources: phase.otherSources ?? 'off',
    });
    const end = this.time + phase.duration;
    let moment = this.now(condition());
    this.switches.look();
    if (this.changeSwitches(moment, moment, 0)) moment = this.again(condition(), moment);
    this.record(moment);
    let step = FIRST_STEP;
    while (this.time < end - 1e-9) {
      const size = Math.min(step, end - this.time, this.untilSwitched(moment), this.untilEmpty(moment));
      const later = { ...condition(), sinceStart: this.running ? this.sinceStart + size : 0 };
      const { previous: before, states, running } = this;
      const tried = this.stepper.attempt(later, { moment, before, states, running }, size);
      if (tried.kind === 'refused') {
        this.refused++;
        step = tried.step;
        continue;
      }
      if (!tried.moment.main.every(Number.isFinite)) return 'did-not-converge';
      if (!tried.converged) this.notConverged++;
      this.accept(moment, tried.moment, tried.heated, size);
      const switched = this.changeSwitches(moment, tried.moment, size);
      moment = tried.moment;
      if (this.changeStages(moment) || switched) {
        this.record(moment);
        moment = switched ? this.again(condition(), moment) : this.now(condition());
        step = FIRST_STEP;
      } else step = Math.min(tried.next, this.options.longestStep ?? 3600);
      this.events.push(...this.switches.workingAlone(moment, this.time));
      this.record(moment);
      if (this.options.onStep?.(Math.min(1, this.time / whole)) === false) return 'cancelled';
      if (this.states.some(({ stateOfCharge }, i) => stateOfCharge <= 1e-7 && (moment.main[i] ?? 0) < 0))
        return 'bank-empty';
    }
    return undefined;
  }

  private turn(running: boolean): void {
    const stalled = this.switches.stalled();
    this.boat.engines.forEach(({ id }, e) => {
      const stood = !this.running || stalled[e] === true;
      if (stood === running)
        this.events.push({ time: this.time, part: id, kind: running ? 'engine-started' : 'engine-stopped' });
    });
    if (running) this.switches.restart();
    if (running === this.running) return;
    this.running = running;
    this.sinceStart = 0;
    for (const keeper of this.keepers) [keeper.stage, keeper.inStage] = ['bulk', 0];
  }

  /** This time solved anew. */
  private now(condition: Condition): Moment {
    this.previous = undefined;
    return this.stepper.solve(condition, 0, this.states, this.heat.state);
  }

  /** This time after a switch has changed; machines that lost their bank are told. */
  private again(condition: Condition, before: Moment): Moment {
    const moment = this.now(condition);
    this.events.push(...this.switches.loadDumps(before, this.time));
    return moment;
  }

  private changeSwitches(from: Moment, to: Moment, step: number): boolean {
    const events = this.switches.advance(from, to, step, this.time);
    this.events.push(...events);
    const stalled = events.some(({ kind }) => kind === 'engine-stalls');
    if (stalled && this.switches.stalled().every(Boolean)) this.turn(false);
    return events.length > 0;
  }

  private changeStages(moment: Moment): boolean {
    let shifted = false;
    this.keepers.forEach((keeper, i) => {
      const sensed = moment.sensed[i];
      if (sensed === undefined || !this.running || !keeper.staged) return;
      const next = stageAfter(keeper, sensed, keeper.inStage);
      if (next === keeper.stage) return;
      const before = setpointShift(keeper);
      [keeper.stage, keeper.inStage] = [next, 0];
      this.events.push({ time: this.time, part: this.boat.regulators[i]?.id ?? '', kind: next });
      if (setpointShift(keeper) !== before) shifted = true;
    });
    return shifted;
  }

  private accept(from: Moment, to: Moment, heated: Heated, step: number): void {
    const { bankHeat, operator } = this;
    const warmest = to.cells.temperatures;
    const heats = this.states.map((state, i) => {
      const ends = {
        main: [from.main[i] ?? 0, to.main[i] ?? 0],
        gas: [from.gas[i] ?? 0, to.gas[i] ?? 0],
      } as const;
      // In the middle of the step, as warm as its ends were solved.
      const middle = ((bankHeat.temperatures[i] ?? 0) + (warmest[i] ?? 0)) / 2;
      return this.books.fill(i, lawAt(operator.lawOf(i), middle), state, ends, step);
    });
    bankHeat.accept(heats, step);
    this.extremes.advance(this.states, to.main, step);
    this.books.spend(from.powers, to.powers, (shaftOf(from) + shaftOf(to)) / 2, step);
    this.heat.accept(heated);
    this.time += step;
    if (this.running) {
      this.sinceStart += step;
      this.engineSeconds += step;
      const speedOf = ({ point, engineDrops }: Moment): number =>
        point.condition.engineSpeed * (1 - (engineDrops[0] ?? 0));
      this.engineAngle += (step * (speedOf(from) + speedOf(to))) / 2;
    }
    for (const keeper of this.keepers) keeper.inStage += step;
    this.previous = { moment: from, step };
    this.steps++;
  }

  private untilSwitched(moment: Moment): number {
    const change = Math.min(this.switches.until(moment), this.extremes.until(this.states, moment.main));
    return this.running ? Math.min(change, untilSwitched(this.boat, this.keepers, this.sinceStart)) : change;
  }

  private untilEmpty({ main }: Moment): number {
    return Math.min(
      ...this.states.map(({ stateOfCharge }, i) => {
        const current = main[i] ?? 0;
        return current < -1e-6
          ? Math.max((stateOfCharge * capacityOf(this.boat, i)) / -current, 1e-2)
          : Infinity;
      }),
    );
  }

  private record(moment: Moment): void {
    const { temperatures } = this.bankHeat;
    this.books.record(
      this.time,
      this.running,
      moment,
      this.states,
      temperatures,
      this.heat.state,
      (alternator) => {
        const regulator = this.boat.regulators.findIndex((one) => one.alternator === alternator);
        return this.keepers[regulator]?.stage ?? 'bulk';
      },
    );
  }
}
