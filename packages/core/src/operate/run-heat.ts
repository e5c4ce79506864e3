/** Heat of a run: windings and bridge of each alternator, in an engine space that engine and machines warm and that air
 *  and walls cool.
 *    winding  C_w dT/dt = P_w − (T − T_s) / R_w(n, dust)        bridge alike, with its own loss
 *    space    C_s dT/dt = P_engine + Σ given off by windings and bridges + P_air − G (T_s − T_outside)
 *  P_air [W]: fan, bearings and the belt's slip, straight into the air.   physics/heat.ts
 *  A step is exact for heats that run straight through it; what a node gives off is what it was given less what it kept, so
 *  no heat is lost between nodes. The space takes it evenly over the step.
 *  The stated temperature of an engine space holds with its alternators at half their rated heat (estimate).
 */
import type { Boat } from '../boat/index.ts';
import {
  alternatorLosses,
  bridgeNode,
  coolingShare,
  emptyLosses,
  engineSpace,
  fitAlternator,
  ratingVoltage,
  RATED_SPEED,
  strayLosses,
  temperatureAfter,
  temperatureAfterStraight,
  windingNode,
  type EngineSpace,
  type ThermalNode,
} from '../physics/index.ts';
import type { OperatingPoint } from './point.ts';

/** Ratio of air's natural convection around a stopped machine: speed that stands for it [rad/s]. */
const STILL = 1;
const USUAL_SHARE = 0.5;
const SPACE_AGREES = 0.01; // K
const ROUNDS = 8;

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

/** What happened to the heat of a step or a run [J]. */
export interface HeatBooks {
  made: number;
  kept: number;
  given: number;
}

export class RunHeat {
  readonly nodes: readonly MachineNodes[];
  readonly spaces: readonly EngineSpace[];
  readonly books: HeatBooks = { made: 0, kept: 0, given: 0 };
  state: HeatState;

  constructor(private readonly boat: Boat) {
    const rated = boat.alternators.map((alternator) => ratedLosses(boat, alternator));
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
    this.state = {
      windings: this.nodes.map(() => boat.ambient),
      bridges: this.nodes.map(() => boat.ambient),
      spaces: this.spaces.map(() => boat.ambient),
    };
  }

  /** The state after a step whose heats run straight from `start` to `end`, and where the heat went. */
  after(
    speeds: readonly number[],
    start: Heats,
    end: Heats,
    running: boolean,
    step: number,
  ): { readonly state: HeatState; readonly books: HeatBooks } {
    const { boat, nodes, state } = this;
    const windings = [...state.windings];
    const bridges = [...state.bridges];
    const spaces = [...state.spaces];
    const books: HeatBooks = { made: 0, kept: 0, given: 0 };
    const cooling = nodes.map(({ dust }, i) => coolingShare(Math.max(speeds[i] ?? 0, STILL), dust));
    const ends = (of: keyof Heats, i: number): Ends => ({ start: start[of][i] ?? 0, end: end[of][i] ?? 0 });
    this.spaces.forEach((space, e) => {
      const machines = nodes.flatMap(({ winding, bridge, engine }, i) =>
        engine === e
          ? [
              { of: winding, in: windings, i, heat: ends('windings', i), from: windings[i]! },
              { of: bridge, in: bridges, i, heat: ends('bridges', i), from: bridges[i]! },
            ]
          : [],
      );
      const made = machines.reduce(
        (sum, { heat }) => sum + mean(heat) * step,
        nodes.reduce(
          (sum, { engine }, i) => (engine === e ? sum + mean(ends('air', i)) * step : sum),
          running ? space.engineHeat * step : 0,
        ),
      );
      const air = { start: state.spaces[e]!, end: state.spaces[e]! };
      let inflow = 0;
      let kept = 0;
      for (let round = 0; round < ROUNDS; round++) {
        kept = 0;
        for (const { of, in: temperatures, i, heat, from } of machines) {
          temperatures[i] = nodeAfter(of, cooling[i]!, from, air, heat, step);
          kept += of.capacity * (temperatures[i] - from);
        }
        inflow = (made - kept) / step;
        const settled = boat.ambient + inflow / space.conductance;
        const later = air.end;
        air.end = temperatureAfter(air.start, settled, space.capacity / space.conductance, step);
        if (Math.abs(air.end - later) < SPACE_AGREES) break;
      }
      spaces[e] = air.end;
      const warmed = space.capacity * (air.end - air.start);
      books.made += made;
      books.kept += kept + warmed;
      books.given += inflow * step - warmed;
    });
    return { state: { windings, bridges, spaces }, books };
  }

  accept({ state, books }: ReturnType<RunHeat['after']>): void {
    this.state = state;
    this.books.made += books.made;
    this.books.kept += books.kept;
    this.books.given += books.given;
  }
}

interface Ends {
  readonly start: number;
  readonly end: number;
}

const mean = ({ start, end }: Ends): number => (start + end) / 2;

/** A node of a machine after a step through which the air around it and its own heat run straight [K]. */
function nodeAfter(
  { resistance, capacity }: ThermalNode,
  cooling: number,
  from: number,
  air: Ends,
  heat: Ends,
  step: number,
): number {
  const cooled = resistance * cooling;
  const settles = { start: air.start + heat.start * cooled, end: air.end + heat.end * cooled };
  return temperatureAfterStraight(from, settles, cooled * capacity, step);
}

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

/** Largest difference [K]. */
export function farthest(a: readonly number[], b: readonly number[]): number {
  return a.reduce((most, value, i) => Math.max(most, Math.abs(value - (b[i] ?? value))), 0);
}

/** Where guess and found would meet, from this pair and the one before [K]. */
export function secant(
  guess: number,
  found: number,
  guess0: number | undefined,
  found0: number | undefined,
): number {
  if (guess0 === undefined || found0 === undefined || Math.abs(guess - guess0) < 1e-9) {
    // Half way is safe while the slope is unknown: heat limits fight back.
    return (guess + found) / 2;
  }
  const slope = (found - found0) / (guess - guess0);
  const met = guess + (found - guess) / (1 - slope);
  return slope < 0.9 && Number.isFinite(met) ? met : (guess + found) / 2;
}

function ratedLosses(
  boat: Boat,
  alternator: Boat['alternators'][number],
): { readonly winding: number; readonly bridge: number } {
  const { nominalVoltage } = boat;
  const current = alternator.ratedCurrent * alternator.health;
  const fit = fitAlternator({
    nominalVoltage,
    ratedCurrent: current,
    cutInSpeed: alternator.cutInSpeed,
    fieldResistance: alternator.fieldResistance,
  });
  const voltage = ratingVoltage(nominalVoltage);
  // A nameplate that does not fit still makes heat: as much as it gives, the usual efficiency of about a half.
  if (fit.kind !== 'fitted') return { winding: 0.85 * voltage * current, bridge: 1.7 * current };
  const out = emptyLosses();
  alternatorLosses(
    fit.machine,
    strayLosses(fit.machine, nominalVoltage, current),
    {
      speed: RATED_SPEED,
      outputVoltage: voltage,
      outputCurrent: current,
      fieldCurrent: voltage / (2 * fit.machine.fieldResistance20),
      fieldVoltage: voltage,
      statorTemperature: 373.15,
      faultHeat: 0,
    },
    out,
  );
  return { winding: out.heat - out.bridge, bridge: out.bridge };
}
