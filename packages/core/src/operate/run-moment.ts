/** The state of a run at one time, solved, and how far a step was off its prediction. */
import type { Boat } from '../boat/index.ts';
import type { BatteryState } from '../physics/battery.ts';
import { engineDroops } from './engine-load.ts';
import type { Condition } from './condition.ts';
import type { HeldState } from './held-state.ts';
import type { Operator } from './operator.ts';
import type { OperatingPoint } from './point.ts';
import { fuseCurrents } from './run-fuses.ts';
import { noPowers, Powers, type PowerShares } from './run-power.ts';
import type { ExtremeCells } from './run-cells.ts';
import type { Cells } from './run-protection.ts';
import type { Sensed, StageKeeper } from './run-stage.ts';

/** Change of a bank's voltage against its straight continuation that one step may bring, at 12 V [V]. */
const VOLTAGE_TOLERANCE = 0.03;

/** How far the speed that a moment is solved at may be from what its load leaves, as a share: under 1 rpm. */
const SPEED_AGREES = 4e-4;
const ROUNDS = 6;
/** An engine that stands has lost all its speed. */
const STALLED = { drop: 1, share: 0 };

/** The state of a run at one time, solved. */
export interface Moment {
  readonly point: OperatingPoint;
  readonly main: readonly number[];
  readonly gas: readonly number[];
  readonly sensed: readonly Sensed[];
  readonly powers: PowerShares;
  readonly awake: readonly boolean[];
  /** Higher side of each relay [V]. */
  readonly relays: readonly number[];
  readonly cells: Cells;
  /** Current of each fuse [A]. */
  readonly fuses: readonly number[];
  /** Share of its speed that each engine loses to the load that was found; solved at within SPEED_AGREES of it. */
  readonly engineDrops: readonly number[];
  /** Share of what each engine can give that its alternators ask; above 1 it stalls. */
  readonly engineShares: readonly number[];
}

/** Solves moments of a run. An engine's speed and its load are settled by fixed point, from the speed that is expected (the
 *  last moment's when nothing is):
 *    drop ← δ · P(drop) / P_available        it contracts by about δ · P / P_available, a hundredth a round */
export class Moments {
  private readonly powers: Powers;
  private drops: readonly number[];
  private shares: readonly number[];

  constructor(
    private readonly operator: Operator,
    private readonly boat: Boat,
    private readonly keepers: readonly StageKeeper[],
    private readonly extremes: ExtremeCells,
  ) {
    this.drops = boat.engines.map(() => 0);
    this.shares = this.drops;
    this.powers = new Powers(
      operator.plant,
      boat.sources.map(({ id }) => id),
    );
  }

  at(condition: Condition, held: HeldState): Moment {
    const { operator } = this;
    const point = this.droop(condition, held);
    const { plant } = operator;
    const { voltages } = point;
    const main = plant.batteries.map((unit) => unit.main.current);
    const temperatures =
      held.batteryTemperatures ?? this.boat.batteries.map(({ temperature }) => temperature);
    const powers = noPowers();
    this.powers.read(powers);
    return {
      point,
      main,
      gas: point.batteries.map(({ current }, i) => current - (main[i] ?? 0)),
      sensed: this.keepers.map((keeper): Sensed => {
        const unit = plant.alternators.find(({ regulatorIndex }) => regulatorIndex === keeper.regulator);
        return {
          voltage: unit ? (voltages[unit.sense] ?? 0) - (voltages[unit.regulatorGround] ?? 0) : 0,
          current: point.batteries[keeper.battery]?.current ?? 0,
          temperature: temperatures[keeper.battery] ?? this.boat.ambient,
        };
      }),
      powers,
      awake: operator.awake(),
      relays: this.relayVoltages(voltages),
      cells: this.cells(voltages, held.batteries, main, temperatures),
      fuses: fuseCurrents(plant),
      engineDrops: this.drops,
      engineShares: this.shares,
    };
  }

  /** The point with its engines as fast as their load lets them. */
  private droop(condition: Condition, held: HeldState): OperatingPoint {
    const { operator, boat } = this;
    if (condition.engine !== 'running') this.drops = this.shares = boat.engines.map(() => 0);
    else if (held.engineDrops !== undefined) this.drops = held.engineDrops;
    for (let round = 0; ; round++) {
      const { drops } = this;
      const point = operator.at(condition, { ...held, engineDrops: drops });
      if (condition.engine !== 'running' || round === ROUNDS) return point;
      const found = engineDroops(boat, point).map((droop, e) =>
        held.stalled?.[e] === true ? STALLED : droop,
      );
      // Not finite where the circuit has no solution: the run says so itself.
      if (!found.every(({ drop }) => Number.isFinite(drop))) return point;
      this.drops = found.map(({ drop }) => drop);
      this.shares = found.map(({ share }) => share);
      if (found.every(({ drop }, i) => Math.abs(drop - (drops[i] ?? 0)) <= SPEED_AGREES)) return point;
    }
  }

  private cells(
    voltages: Float64Array,
    states: readonly BatteryState[],
    currents: readonly number[],
    temperatures: readonly number[],
  ): Cells {
    const { extremes } = this;
    const { batteries } = this.operator.plant;
    const between = (plus: number, minus: number): number => (voltages[plus] ?? 0) - (voltages[minus] ?? 0);
    const means = batteries.map(({ pole, minus }, i) => {
      const { cells = 1, shortedCells = 0 } = this.boat.batteries[i] ?? {};
      return between(pole, minus) / (cells - shortedCells);
    });
    const charge = (bank: number): number => states[bank]?.stateOfCharge ?? 0;
    return {
      lowest: means.map((mean, i) => mean + extremes.below(i, charge(i))),
      highest: means.map((mean, i) => mean + extremes.above(i, charge(i))),
      temperatures,
      currents,
      outside: batteries.map(({ plus, pole }) => between(plus, pole)),
    };
  }

  private relayVoltages(voltages: Float64Array): number[] {
    const { wiring, batteries } = this.operator.plant;
    const back = voltages[batteries[0]?.minus ?? 0] ?? 0;
    return wiring.relayNodes.map(([a, b]) => Math.max(voltages[a] ?? 0, voltages[b] ?? 0) - back);
  }
}

export interface Stepped {
  readonly before: { readonly moment: Moment; readonly step: number } | undefined;
  readonly from: Moment;
  readonly to: Moment;
  /** Main currents that the step's charge supposed [A]. */
  readonly predicted: readonly number[];
  readonly step: number;
}

/** Error of a step over what is allowed: 1 is just right. `tolerance`: share of a bank's charge. */
export function stepError(
  boat: Boat,
  { before, from, to, predicted, step }: Stepped,
  tolerance: number,
): number {
  let error = 0;
  const scale = boat.nominalVoltage / 12;
  boat.batteries.forEach(({ capacity, health }, i) => {
    const wrong = Math.abs((to.main[i] ?? 0) - (predicted[i] ?? 0));
    error = Math.max(error, (wrong * step) / (2 * capacity * health * tolerance));
    const voltage = from.point.batteries[i]?.voltage ?? 0;
    const earlier = before?.moment.point.batteries[i]?.voltage ?? voltage;
    const straight = before === undefined ? voltage : voltage + ((voltage - earlier) * step) / before.step;
    const off = Math.abs((to.point.batteries[i]?.voltage ?? 0) - straight);
    error = Math.max(error, off / (VOLTAGE_TOLERANCE * scale * (before === undefined ? 3 : 1)));
  });
  return error;
}

/** Power that all shafts take [W]. */
export const shaftOf = ({ point }: Moment): number =>
  point.alternators.reduce((sum, { shaftPower }) => sum + shaftPower, 0);
