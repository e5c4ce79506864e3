/** Heat of the engines: windings and bridge of each alternator, in an engine space that engine and machines warm and that
 *  air and walls cool.
 *    winding  C_w dT/dt = P_w − (T − T_s) / R_w(n, dust)        bridge alike, with its own loss
 *    space    C_s dT/dt = P_engine + Σ given off by windings and bridges + P_air − G (T_s − T_outside)
 *  P_air [W]: fan, bearings and the belt's slip, straight into the air.   physics/heat.ts
 *  A step is exact for heats that run straight through it; what a node gives off is what it was given less what it kept, so
 *  no heat is lost between nodes. The space takes it evenly over the step.
 *  The stated temperature of an engine space holds with its alternators at half their rated heat (estimate).
 */
import type { Boat } from '../boat/index.ts';
import {
  bridgeNode,
  coolingShare,
  engineSpace,
  straightShares,
  windingNode,
  type EngineSpace,
  type StraightShares,
  type ThermalNode,
} from '../physics/index.ts';
import type { OperatingPoint } from './point.ts';

/** Ratio of air's natural convection around a stopped machine: speed that stands for it [rad/s]. */
const STILL = 1;
const USUAL_SHARE = 0.5;

export interface MachineNodes {
  readonly winding: ThermalNode;
  readonly bridge: ThermalNode;
  readonly dust: number;
  readonly engine: number;
}

/** Temperatures [K]: by alternator, and by engine. */
export interface HeatState {
  readonly windings: readonly number[];
  readonly bridges: readonly number[];
  readonly spaces: readonly number[];
}

/** Heats of the machines at one time [W], in the order of the alternators. */
export interface Heats {
  readonly windings: readonly number[];
  readonly bridges: readonly number[];
  readonly air: readonly number[];
}

/** What a machine loses at its rated point [W]. */
export interface RatedHeat {
  readonly winding: number;
  readonly bridge: number;
}

/** What happened to the heat of a step or a run [J]. */
export interface HeatBooks {
  made: number;
  kept: number;
  given: number;
}

/** A winding or a bridge in its space. */
interface Place {
  readonly of: 'windings' | 'bridges';
  readonly i: number;
  readonly node: ThermalNode;
  /** How far it follows the air within the step that was made last [1]. */
  follows: number;
}

/** Cold to begin with: all as warm as the air outside. */
export class EngineHeat {
  readonly nodes: readonly MachineNodes[];
  readonly spaces: readonly EngineSpace[];
  /** By engine. */
  private readonly places: readonly (readonly Place[])[];
  readonly books: HeatBooks = { made: 0, kept: 0, given: 0 };
  state: HeatState;

  /** `rated`: in the order of the alternators. */
  constructor(
    private readonly boat: Boat,
    rated: readonly RatedHeat[],
  ) {
    this.nodes = boat.alternators.map((alternator, i) => ({
      winding: windingNode(rated[i]!.winding),
      bridge: bridgeNode(rated[i]!.bridge),
      dust: Math.max(0, alternator.heatFactor - 1),
      engine: Math.max(
        0,
        boat.engines.findIndex(({ id }) => id === alternator.engine),
      ),
    }));
    this.spaces = boat.engines.map(({ spaceTemperature, ratedPower, ventilation }, e) =>
      engineSpace({
        usualRise: spaceTemperature - boat.ambient,
        usualHeat: this.nodes.reduce(
          (sum, { engine }, i) =>
            engine === e ? sum + USUAL_SHARE * (rated[i]!.winding + rated[i]!.bridge) : sum,
          0,
        ),
        ratedPower,
        ...(ventilation === undefined ? {} : { flow: ventilation }),
      }),
    );
    this.places = boat.engines.map((_, e) =>
      this.nodes.flatMap(({ winding, bridge, engine }, i) =>
        engine === e
          ? [
              { of: 'windings' as const, i, node: winding, follows: 0 },
              { of: 'bridges' as const, i, node: bridge, follows: 0 },
            ]
          : [],
      ),
    );
    this.state = {
      windings: this.nodes.map(() => boat.ambient),
      bridges: this.nodes.map(() => boat.ambient),
      spaces: this.spaces.map(() => boat.ambient),
    };
  }

  /** The state after a step whose heats run straight from `start` to `end`, and where the heat went.
   *  `runs`: which engines run. */
  after(
    speeds: readonly number[],
    start: Heats,
    end: Heats,
    runs: readonly boolean[],
    step: number,
  ): { readonly state: HeatState; readonly books: HeatBooks } {
    const { boat, nodes, state } = this;
    const next = { windings: [...state.windings], bridges: [...state.bridges], spaces: [...state.spaces] };
    const books: HeatBooks = { made: 0, kept: 0, given: 0 };
    const cooling = nodes.map(({ dust }, i) => coolingShare(Math.max(speeds[i] ?? 0, STILL), dust));
    for (let e = 0; e < this.spaces.length; e++) {
      const { conductance, capacity, engineHeat } = this.spaces[e]!;
      const places = this.places[e]!;
      const air = state.spaces[e]!;
      let made = runs[e] === true ? engineHeat * step : 0;
      // What the machines keep in air that stays as it is, and how much more for each kelvin that it is warmer at the end.
      let kept = 0;
      let follow = 0;
      for (const place of places) {
        const { of, i, node } = place;
        const cooled = node.resistance * cooling[i]!;
        straightShares(cooled * node.capacity, step, shares);
        const [first, last] = [start[of][i] ?? 0, end[of][i] ?? 0];
        const from = state[of][i]!;
        place.follows = shares.last;
        next[of][i] =
          shares.own * from + shares.first * (air + first * cooled) + shares.last * (air + last * cooled);
        made += ((first + last) / 2) * step;
        kept += node.capacity * (next[of][i] - from);
        follow += node.capacity * shares.last;
      }
      nodes.forEach(({ engine }, i) => {
        if (engine === e) made += (((start.air[i] ?? 0) + (end.air[i] ?? 0)) / 2) * step;
      });
      // The air takes evenly what the machines do not keep; both ends of that are straight in how much warmer it gets.
      const reached = 1 - Math.exp((-step * conductance) / capacity);
      const warmer =
        (reached * (boat.ambient - air + (made - kept) / (step * conductance))) /
        (1 + (reached * follow) / (step * conductance));
      for (const { of, i, follows } of places) next[of][i]! += follows * warmer;
      next.spaces[e] = air + warmer;
      kept += follow * warmer;
      books.made += made;
      books.kept += kept + capacity * warmer;
      books.given += made - kept - capacity * warmer;
    }
    return { state: next, books };
  }

  accept({ state, books }: ReturnType<EngineHeat['after']>): void {
    this.state = state;
    this.books.made += books.made;
    this.books.kept += books.kept;
    this.books.given += books.given;
  }
}

const shares: StraightShares = { own: 1, first: 0, last: 0 };

/** Heats of the machines at a solved point. */
export function heatsOf({ alternators }: OperatingPoint): Heats {
  return {
    windings: alternators.map(({ heat, bridgeHeat }) => heat - bridgeHeat),
    bridges: alternators.map(({ bridgeHeat }) => bridgeHeat),
    air: alternators.map(({ airHeat, beltHeat }) => airHeat + beltHeat),
  };
}

/** Straight on from two earlier times, `ahead` in units of the time between them; never below nothing [W]. */
export function leadingHeats(before: Heats, now: Heats, ahead: number): Heats {
  const lead = (from: readonly number[], to: readonly number[]): number[] =>
    to.map((value, i) => Math.max(0, value + (value - (from[i] ?? value)) * ahead));
  return {
    windings: lead(before.windings, now.windings),
    bridges: lead(before.bridges, now.bridges),
    air: lead(before.air, now.air),
  };
}
