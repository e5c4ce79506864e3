/** Winding temperatures of a run: one lumped node for each alternator in an engine space that warms and cools.
 *    winding  T(t + Δt) = T_∞ + (T − T_∞) e^(−Δt/τ), T_∞ = T_space + P·R_th(n, dust)   physics/heat.ts
 *    space    toward the boat's warm engine space while running, toward ambient when off, τ = 1800 s (estimate)
 */
import type { Boat } from '../boat/index.ts';
import {
  alternatorLosses,
  coolingResistance,
  emptyLosses,
  fitAlternator,
  ratingVoltage,
  RATED_SPEED,
  steadyTemperature,
  strayLosses,
  temperatureAfter,
  windingNode,
  type ThermalNode,
} from '../physics/index.ts';

const SPACE_TIME = 1800;
/** Ratio of air's natural convection around a stopped machine: speed that stands for it [rad/s]. */
const STILL = 1;

export interface WindingNode {
  readonly node: ThermalNode;
  readonly dust: number;
  readonly engine: number;
}

export function windingNodes(boat: Boat): WindingNode[] {
  return boat.alternators.map((alternator) => ({
    node: windingNode(ratedHeat(boat, alternator)),
    dust: Math.max(0, alternator.heatFactor - 1),
    engine: Math.max(
      0,
      boat.engines.findIndex(({ id }) => id === alternator.engine),
    ),
  }));
}

/** Engine space after a step [K]. */
export function spaceAfter(
  boat: Boat,
  engine: number,
  temperature: number,
  running: boolean,
  step: number,
): number {
  const target = running ? (boat.engines[engine]?.spaceTemperature ?? boat.ambient) : boat.ambient;
  return temperatureAfter(temperature, target, SPACE_TIME, step);
}

/** Winding after a step through which heat and surroundings run straight from start to end [K].
 *    T(h) = T_0 e^(−x) + T_∞0 w_0 + T_∞1 w_1,   x = h/τ,  w_1 = 1 − (1 − e^(−x))/x,  w_0 = 1 − e^(−x) − w_1
 *  T_∞ [K] where it would settle at the start and the end; exact for the straight line. */
export function windingAfter(
  { node, dust }: WindingNode,
  temperature: number,
  at: {
    readonly speed: number;
    readonly space: readonly [number, number];
    readonly heat: readonly [number, number];
  },
  step: number,
): number {
  const resistance = coolingResistance(node, Math.max(at.speed, STILL), dust);
  const x = step / (resistance * node.capacity);
  const decay = Math.exp(-x);
  const last = x > 1e-4 ? 1 - (1 - decay) / x : x / 2;
  const first = 1 - decay - last;
  const [space0, space1] = at.space;
  const [heat0, heat1] = at.heat;
  return (
    temperature * decay +
    steadyTemperature(space0, heat0, resistance) * first +
    steadyTemperature(space1, heat1, resistance) * last
  );
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

function ratedHeat(boat: Boat, alternator: Boat['alternators'][number]): number {
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
  if (fit.kind !== 'fitted') return voltage * current;
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
  return out.heat;
}
