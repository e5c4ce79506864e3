/** `run`: a boat through time, from seconds to days. An operating point at the end of each step, the banks' charge by
 *  the trapezoidal rule between, windings and stages carried along.
 *
 *  A step of h from point k: the charge at its end is predicted from the currents so far; the circuit is solved with
 *  the banks' memories h seconds on, which takes up their polarisation implicitly; charge and memories then advance by
 *  the mean current. The step is right when predicted and found current differ by less than the tolerance:
 *    error = |I_found − I_predicted| · h / (2 C)
 *  Otherwise, and where a stage changes inside it, it is refused and made shorter.
 *  Stiff ends (LiFePO4 near full): the rest voltage follows the found current within the solve (`followCurrent`).
 *  Leaves out: battery temperature moving, protection switches opening, engine load on its speed.
 */
import { cloneBoat, type Boat } from '../boat/index.ts';
import type { BatteryState } from '../physics/battery.ts';
import { asFound, type Condition } from './condition.ts';
import { Operator, type HeldState, type Models } from './operator.ts';
import { RunBooks } from './run-books.ts';
import { farthest, heatsOf, leadingHeats, RunHeat, secant, type Heats } from './run-heat.ts';
import { requirePlan, type ChargeRun, type Phase, type RunEvent, type RunOptions } from './run-plan.ts';
import { Moments, shaftOf, stepError, type Moment } from './run-moment.ts';
import { advanceRelays, relayKeepers, stepToCrossing, untilRelay, type RelayKeeper } from './run-relay.ts';
import {
  setpointShift,
  stageAfter,
  stageKeepers,
  stepToChange,
  untilSwitched,
  type StageKeeper,
} from './run-stage.ts';

const FIRST_STEP = 2; // s
const LEAST_STEP = 0.5;
/** How far the lead of the heat may be wrong within a step, and how well heat and winding must agree [K]. */
const TEMPERATURE_TOLERANCE = 4;
const TEMPERATURE_AGREES = 1;

type Heated = ReturnType<RunHeat['after']>;

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
  private readonly moments: Moments;
  private readonly usualLoads: readonly number[];
  private readonly states: BatteryState[];
  private readonly keepers: StageKeeper[];
  private readonly relays: RelayKeeper[];
  private readonly heat: RunHeat;
  private readonly tolerance: number;
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
    this.tolerance = options.tolerance ?? 3e-4;
    this.operator = new Operator(this.boat, options.models ?? {});
    this.usualLoads = this.boat.loads.map(({ current }) => current);
    this.states = this.operator.statesBefore();
    this.keepers = stageKeepers(
      this.boat,
      this.operator.plant.alternators.map(({ mindedBank }) => mindedBank),
    );
    this.moments = new Moments(this.operator, this.boat, this.keepers);
    this.relays = relayKeepers(this.boat);
    this.heat = new RunHeat(this.boat);
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
      engine: phase.engine,
      engineSpeed: this.running ? (phase.engineSpeed ?? boat.engines[0]?.cruiseSpeed ?? 0) : 0,
      sinceStart: this.running ? this.sinceStart : 0,
      otherSources: phase.otherSources ?? 'off',
    });
    const end = this.time + phase.duration;
    let moment = this.solve(condition(), 0, this.states, this.heat.state.windings);
    this.previous = undefined;
    this.record(moment);
    let step = FIRST_STEP;
    while (this.time < end - 1e-9) {
      const size = Math.min(step, end - this.time, this.untilSwitched(moment), this.untilEmpty(moment));
      const tried = this.attempt(condition(), moment, size);
      if (tried.kind === 'refused') {
        this.refused++;
        step = tried.step;
        continue;
      }
      if (!tried.moment.main.every(Number.isFinite)) return 'did-not-converge';
      this.accept(moment, tried.moment, tried.heated, size);
      const joined = this.changeRelays(moment, tried.moment, size);
      moment = tried.moment;
      if (this.changeStages(moment) || joined) {
        this.record(moment);
        moment = this.solve(condition(), 0, this.states, this.heat.state.windings);
        this.previous = undefined;
        step = FIRST_STEP;
      } else step = Math.min(tried.next, this.options.longestStep ?? 3600);
      this.record(moment);
      if (this.options.onStep?.(Math.min(1, this.time / whole)) === false) return 'cancelled';
      if (this.states.some(({ stateOfCharge }, i) => stateOfCharge <= 1e-7 && (moment.main[i] ?? 0) < 0))
        return 'bank-empty';
    }
    return undefined;
  }

  private turn(running: boolean): void {
    if (running === this.running) return;
    this.running = running;
    this.sinceStart = 0;
    for (const keeper of this.keepers) [keeper.stage, keeper.inStage] = ['bulk', 0];
    for (const { id } of this.boat.engines)
      this.events.push({ time: this.time, part: id, kind: running ? 'engine-started' : 'engine-stopped' });
  }

  private solve(
    condition: Condition,
    elapsed: number,
    batteries: readonly BatteryState[],
    windings: readonly number[],
    more: Pick<HeldState, 'awake' | 'predicted'> = {},
  ): Moment {
    return this.moments.at(condition, {
      batteries,
      elapsed,
      windings,
      setpointShifts: this.keepers.map(setpointShift),
      relays: this.relays.map(({ state }) => state.closed),
      ...more,
    });
  }

  private attempt(
    condition: Condition,
    from: Moment,
    step: number,
  ): { kind: 'refused'; step: number } | { kind: 'fits'; moment: Moment; heated: Heated; next: number } {
    const later = { ...condition, sinceStart: this.running ? this.sinceStart + step : 0 };
    const before = this.previous;
    // Straight continuation of the last step's currents.
    const predicted = from.main.map((current, i) => {
      const earlier = before?.moment.main[i];
      return earlier === undefined || before === undefined
        ? current
        : current + ((current - earlier) * step) / before.step;
    });
    const states = this.states.map((state, i) => {
      const mean = ((from.main[i] ?? 0) + (predicted[i] ?? 0)) / 2;
      const share = state.stateOfCharge + (mean * step) / this.capacity(i);
      return { ...state, stateOfCharge: Math.min(1, Math.max(0, share)) };
    });
    const least = step <= LEAST_STEP * 1.001;
    const { moment, heated, off } = this.withHeat(later, from, states, step, predicted);
    if (!moment.point.converged) {
      if (!least) return { kind: 'refused', step: Math.max(LEAST_STEP, step / 4) };
      this.notConverged++;
    }
    const error = Math.max(
      off / TEMPERATURE_TOLERANCE,
      stepError(this.boat, { before: this.previous, from, to: moment, predicted, step }, this.tolerance),
    );
    if (!(error <= 1) && !least) {
      return {
        kind: 'refused',
        step: Math.max(LEAST_STEP, step * Math.max(0.2, 0.8 / Math.sqrt(Math.max(error, 1) || Infinity))),
      };
    }
    const change = this.stepToChange(from, moment, step);
    if (change !== undefined && !least) return { kind: 'refused', step: Math.max(LEAST_STEP, change) };
    const grow = error <= 1 ? Math.min(3, 0.85 / Math.sqrt(Math.max(error, 1e-3))) : 1;
    return { kind: 'fits', moment, heated, next: Math.max(LEAST_STEP, step * grow) };
  }

  /** The step's end with windings that agree with the heat made there: secant on the temperature, from where the
   *  heat of the last steps leads. `off`: how far that lead was wrong [K]. */
  private withHeat(
    condition: Condition,
    from: Moment,
    states: readonly BatteryState[],
    step: number,
    predicted: readonly number[],
  ): { moment: Moment; heated: Heated; off: number } {
    const more = this.asleepSome(from) ? { predicted } : { predicted, awake: from.awake };
    let guess = [...this.heated(from, this.leadingHeats(from, step), step).state.windings];
    let moment = this.solve(condition, step, states, guess, more);
    let heated = this.heated(from, heatsOf(moment.point), step);
    let off = farthest(guess, heated.state.windings);
    let before: { guess: readonly number[]; found: readonly number[] } | undefined;
    const first = off;
    for (let round = 0; round < 4 && off > TEMPERATURE_AGREES; round++) {
      const last = { guess, found: heated.state.windings };
      guess = guess.map((value, i) =>
        secant(value, last.found[i] ?? value, before?.guess[i], before?.found[i]),
      );
      before = last;
      moment = this.solve(condition, step, states, guess, more);
      heated = this.heated(from, heatsOf(moment.point), step);
      off = farthest(guess, heated.state.windings);
    }
    return { moment, heated, off: off > TEMPERATURE_AGREES ? Infinity : first };
  }

  /** Heats at the end of a step, straight on from the last one. */
  private leadingHeats({ point }: Moment, step: number): Heats {
    const now = heatsOf(point);
    const before = this.previous;
    return before === undefined ? now : leadingHeats(heatsOf(before.moment.point), now, step / before.step);
  }

  /** A driven machine that is not awake may wake at any time. */
  private asleepSome({ awake }: Moment): boolean {
    return this.running && awake.includes(false);
  }

  private heated({ point }: Moment, atEnd: Heats, step: number): Heated {
    if (this.options.heat === 'held')
      return { state: this.heat.state, books: { made: 0, kept: 0, given: 0 } };
    const speeds = point.alternators.map(({ speed }) => speed);
    return this.heat.after(speeds, heatsOf(point), atEnd, this.running, step);
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

  /** A shorter step that ends where a stage or a relay changes. */
  private stepToChange(from: Moment, to: Moment, step: number): number | undefined {
    const stage = this.running ? stepToChange(this.keepers, from.sensed, to.sensed, step) : undefined;
    const relay = stepToCrossing(this.relays, from.relays, to.relays, step);
    return stage === undefined || relay === undefined ? (stage ?? relay) : Math.min(stage, relay);
  }

  private changeRelays(from: Moment, to: Moment, step: number): boolean {
    const changed = advanceRelays(this.relays, from.relays, to.relays, step);
    for (const { index, state } of changed)
      this.events.push({
        time: this.time,
        part: this.boat.relays[index]?.id ?? '',
        kind: state.closed ? 'relay-closed' : 'relay-opened',
      });
    return changed.length > 0;
  }

  private accept(from: Moment, to: Moment, heated: Heated, step: number): void {
    this.states.forEach((state, i) => {
      const ends = {
        main: [from.main[i] ?? 0, to.main[i] ?? 0],
        gas: [from.gas[i] ?? 0, to.gas[i] ?? 0],
      } as const;
      this.books.fill(i, this.operator.lawOf(i), state, ends, step);
    });
    this.books.spend(from.powers, to.powers, (shaftOf(from) + shaftOf(to)) / 2, step);
    this.heat.accept(heated);
    this.time += step;
    if (this.running) {
      this.sinceStart += step;
      this.engineSeconds += step;
      this.engineAngle += step * to.point.condition.engineSpeed;
    }
    for (const keeper of this.keepers) keeper.inStage += step;
    this.previous = { moment: from, step };
    this.steps++;
  }

  private untilSwitched({ relays }: Moment): number {
    const relay = untilRelay(this.relays, relays);
    return this.running ? Math.min(relay, untilSwitched(this.boat, this.keepers, this.sinceStart)) : relay;
  }

  private untilEmpty({ main }: Moment): number {
    return Math.min(
      ...this.states.map(({ stateOfCharge }, i) => {
        const current = main[i] ?? 0;
        return current < -1e-6 ? Math.max((stateOfCharge * this.capacity(i)) / -current, 1e-2) : Infinity;
      }),
    );
  }

  private capacity(index: number): number {
    const battery = this.boat.batteries[index];
    return battery === undefined ? 1 : battery.capacity * battery.health;
  }

  private record({ point }: Moment): void {
    this.books.record(this.time, this.running, point, this.states, this.heat.state, (alternator) => {
      const regulator = this.boat.regulators.findIndex((one) => one.alternator === alternator);
      return this.keepers[regulator]?.stage ?? 'bulk';
    });
  }
}
