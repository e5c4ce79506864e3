/** One step of a run: predicted, solved, and taken or refused.
 *
 *  A step of h from point k: the charge at its end is predicted from the currents so far; the circuit is solved with
 *  the banks' memories h seconds on, which takes up their polarisation implicitly; charge and memories then advance by
 *  the mean current. The step is right when predicted and found current differ by less than the tolerance:
 *    error = |I_found − I_predicted| · h / (2 C)
 *  Otherwise, and where a stage or a switch changes inside it, it is refused and made shorter.
 *  Stiff ends (LiFePO4 near full): the rest voltage follows the found current within the solve (`followCurrent`).
 */
import type { Boat } from '../boat/index.ts';
import type { BatteryState } from '../physics/battery.ts';
import type { Condition } from './condition.ts';
import type { HeldState } from './held-state.ts';
import { heatsOf, leadingHeats, type EngineHeat, type Heats } from './engine-heat.ts';
import type { Warmth } from './machine-setting.ts';
import { stepError, type Moment, type Moments } from './run-moment.ts';
import { setpointShift, stepToChange, type StageKeeper } from './run-stage.ts';
import type { BankHeat } from './run-bank-heat.ts';
import type { RunSwitches } from './run-switches.ts';
import { settleHeat } from './settle-heat.ts';

const LEAST_STEP = 0.5; // s
/** How far the lead of the heat may be wrong within a step, and how well heat and winding must agree [K]. */
const TEMPERATURE_TOLERANCE = 4;
const TEMPERATURE_AGREES = 1;

export type Heated = ReturnType<EngineHeat['after']>;

/** What a step is made from: what moves in a run, and what holds it. */
export interface StepParts {
  readonly boat: Boat;
  readonly moments: Moments;
  readonly heat: EngineHeat;
  readonly bankHeat: BankHeat;
  readonly heatHeld: boolean;
  readonly keepers: readonly StageKeeper[];
  readonly switches: RunSwitches;
  readonly tolerance: number;
}

/** Where a step starts. */
export interface StepStart {
  readonly moment: Moment;
  readonly before: { readonly moment: Moment; readonly step: number } | undefined;
  readonly states: readonly BatteryState[];
  readonly running: boolean;
}

export type Stepped =
  | { readonly kind: 'refused'; readonly step: number }
  | {
      readonly kind: 'fits';
      readonly moment: Moment;
      readonly heated: Heated;
      readonly next: number;
      readonly converged: boolean;
    };

export class Stepper {
  constructor(private readonly parts: StepParts) {}

  /** A moment with stages and switches as they are. */
  solve(
    condition: Condition,
    elapsed: number,
    batteries: readonly BatteryState[],
    { windings, spaces }: Warmth,
    more: Pick<HeldState, 'awake' | 'predicted' | 'engineDrops'> = {},
  ): Moment {
    const { moments, keepers, switches, bankHeat } = this.parts;
    return moments.at(condition, {
      batteries,
      elapsed,
      batteryTemperatures: elapsed > 0 ? bankHeat.leading(elapsed) : bankHeat.temperatures,
      windings,
      spaces,
      setpointShifts: keepers.map(setpointShift),
      ...switches.held(),
      ...more,
    });
  }

  /** Tries a step; `condition` is that of its end. */
  attempt(condition: Condition, start: StepStart, step: number): Stepped {
    const { boat, tolerance } = this.parts;
    const { moment: from, before } = start;
    // Straight continuation of the last step's currents.
    const predicted = from.main.map((current, i) => {
      const earlier = before?.moment.main[i];
      return earlier === undefined || before === undefined
        ? current
        : current + ((current - earlier) * step) / before.step;
    });
    const states = start.states.map((state, i) => {
      const mean = ((from.main[i] ?? 0) + (predicted[i] ?? 0)) / 2;
      const share = state.stateOfCharge + (mean * step) / capacityOf(boat, i);
      return { ...state, stateOfCharge: Math.min(1, Math.max(0, share)) };
    });
    const least = step <= LEAST_STEP * 1.001;
    const { moment, heated, off } = this.withHeat(condition, start, states, step, predicted);
    const { converged } = moment.point;
    if (!converged && !least) return { kind: 'refused', step: Math.max(LEAST_STEP, step / 4) };
    const error = Math.max(
      off / TEMPERATURE_TOLERANCE,
      stepError(boat, { before, from, to: moment, predicted, step }, tolerance),
    );
    if (!(error <= 1) && !least) {
      return {
        kind: 'refused',
        step: Math.max(LEAST_STEP, step * Math.max(0.2, 0.8 / Math.sqrt(Math.max(error, 1) || Infinity))),
      };
    }
    const change = this.stepToChange(start, moment, step);
    if (change !== undefined && !least) return { kind: 'refused', step: Math.max(LEAST_STEP, change) };
    const grow = error <= 1 ? Math.min(3, 0.85 / Math.sqrt(Math.max(error, 1e-3))) : 1;
    return { kind: 'fits', moment, heated, next: Math.max(LEAST_STEP, step * grow), converged };
  }

  /** The step's end with windings that agree with the heat made there, from where the heat of the last steps leads.
   *  `off`: how far that lead was wrong [K]. */
  private withHeat(
    condition: Condition,
    start: StepStart,
    states: readonly BatteryState[],
    step: number,
    predicted: readonly number[],
  ): { moment: Moment; heated: Heated; off: number } {
    const { moment: from } = start;
    // A driven machine that is not awake may wake at any time.
    const asleepSome = start.running && from.awake.includes(false);
    const more = asleepSome ? { predicted } : { predicted, awake: from.awake };
    const heatedBy = (atEnd: Heats): Heated => this.heated(start, atEnd, step);
    const { windings, spaces } = heatedBy(leadingFrom(start, step)).state;
    const engineDrops = leadingDrops(start, step);
    let moment!: Moment;
    let heated!: Heated;
    const { off, firstOff } = settleHeat(
      windings,
      (tried, round) => {
        const warmth = { windings: tried, spaces };
        moment = this.solve(condition, step, states, warmth, round === 0 ? { ...more, engineDrops } : more);
        heated = heatedBy(heatsOf(moment.point));
        return heated.state.windings;
      },
      { agrees: TEMPERATURE_AGREES, rounds: 4 },
    );
    return { moment, heated, off: off > TEMPERATURE_AGREES ? Infinity : firstOff };
  }

  private heated({ moment: { point }, running }: StepStart, atEnd: Heats, step: number): Heated {
    const { boat, heat, heatHeld, switches } = this.parts;
    if (heatHeld) return { state: heat.state, books: { made: 0, kept: 0, given: 0 } };
    const speeds = point.alternators.map(({ speed }) => speed);
    const stalled = switches.stalled();
    const runs = boat.engines.map((_, e) => running && stalled[e] !== true);
    return heat.after(speeds, heatsOf(point), atEnd, runs, step);
  }

  /** A shorter step that ends where a stage or a switch changes. */
  private stepToChange({ moment: from, running }: StepStart, to: Moment, step: number): number | undefined {
    const { keepers, switches } = this.parts;
    const stage = running ? stepToChange(keepers, from.sensed, to.sensed, step) : undefined;
    const change = switches.stepToChange(from, to, step);
    return stage === undefined || change === undefined ? (stage ?? change) : Math.min(stage, change);
  }
}

/** Heats at the end of a step, straight on from the last one. */
function leadingFrom({ moment, before }: StepStart, step: number): Heats {
  const now = heatsOf(moment.point);
  return before === undefined ? now : leadingHeats(heatsOf(before.moment.point), now, step / before.step);
}

/** What the engines lose to their load at the end of a step, straight on from the last one. */
function leadingDrops({ moment, before }: StepStart, step: number): readonly number[] {
  if (before === undefined) return moment.engineDrops;
  const ahead = step / before.step;
  return moment.engineDrops.map((drop, e) =>
    Math.max(0, drop + (drop - (before.moment.engineDrops[e] ?? drop)) * ahead),
  );
}

/** What a bank holds when full [C]. */
export function capacityOf({ batteries }: Boat, index: number): number {
  const battery = batteries[index];
  return battery === undefined ? 1 : battery.capacity * battery.health;
}
