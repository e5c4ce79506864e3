/** Heat: windings, bridge and engine space as lumped nodes.
 *    rise        ΔT = P · R_th                    R_th(n, dust) = R_60 · (1 + dust) · (n_ref / n)^0.6
 *    step        T(t + Δt) = T_∞ + (T − T_∞) · e^(−Δt / τ)        τ = R_th · C_th
 *    straight    T(h) = T_0 e^(−x) + T_∞0 w_0 + T_∞1 w_1          x = h/τ,  w_1 = 1 − (1 − e^(−x))/x,  w_0 = 1 − e^(−x) − w_1
 *    space       C_s dT/dt = P_engine + P_given off − G · (T − T_outside)        G = ρ · c_p · Q + G_walls
 *  P heat [W]  R_th [K/W]  C_th [J/K]  n shaft speed [rad/s], n_ref = 6000 min⁻¹  Q air flow [m³/s]  T [K]
 *  T_∞0, T_∞1 [K]: where a node would settle at the start and the end of a step; exact for a straight line between.
 *  dust: added thermal resistance, 0 clean to about 1 caked (a choice).
 *  Source: heat balance; ρ·c_p of air 1.2 kg/m³ · 1005 J/(kg·K) at 293 K.
 *  Ventilation for a wanted rise, life of insulation and derating of wire are in the handbook.
 *  R_60 so that a machine at rated heat rises 90 K, τ about 5 min: common practice, low confidence. Exponent 0.6: forced
 *  convection, textbook, Re^0.5 to Re^0.8. Bridge: 70 K at its rated loss, so that junctions of a 105 °C inlet stay under
 *  their 175 to 200 °C (textbook, from memory); τ 2 min, plate of some 0.3 kg (estimate).
 *  Space: 5 % of an engine's rated power leaves through its surfaces, walls pass 12 W/K, and the air with what it wets
 *  takes half an hour to follow (estimates).
 *  Leaves out: radiation, gradients inside the winding, recirculation of hot air within the engine space, the heat that an
 *  engine gives off after it is stopped. */
import { RATED_SPEED } from './alternator-fit.ts';
import { requirePositive, requireWithin } from './guard.ts';

export interface ThermalNode {
  /** At 6000 min⁻¹ and clean [K/W]. */
  readonly resistance: number;
  /** [J/K]. */
  readonly capacity: number;
}

const AIR_HEAT_CAPACITY = 1.2 * 1005;
const COOLING_EXPONENT = 0.6;
const RISE_AT_RATING = 90;
const TIME_CONSTANT = 300;
const BRIDGE_RISE = 70;
const BRIDGE_TIME = 120;
const SPACE_TIME = 1800;
const SURFACE_SHARE = 0.05;
const WALLS = 12;
/** A stated engine space is at least this much above the outside air [K]; a smaller rise cannot be told from none. */
const LEAST_RISE = 2;
/** Below this share of the reference speed the fan no longer matters and natural convection takes over. */
const LEAST_RELATIVE_SPEED = 0.05;

/** Winding node of an alternator from its heat at the rated point [W]. */
export function windingNode(ratedHeat: number): ThermalNode {
  requirePositive('windingNode', 'ratedHeat', ratedHeat, 'W');
  const resistance = RISE_AT_RATING / ratedHeat;
  return { resistance, capacity: TIME_CONSTANT / resistance };
}

/** Bridge node of an alternator from its loss at the rated point [W]. */
export function bridgeNode(ratedLoss: number): ThermalNode {
  requirePositive('bridgeNode', 'ratedLoss', ratedLoss, 'W');
  const resistance = BRIDGE_RISE / ratedLoss;
  return { resistance, capacity: BRIDGE_TIME / resistance };
}

export interface EngineSpace {
  /** Air flow and walls together [W/K]. */
  readonly conductance: number;
  /** [J/K]. */
  readonly capacity: number;
  /** Of the engine itself while it runs [W]. */
  readonly engineHeat: number;
}

/** Engine space whose usual temperature is known, its air flow perhaps too.
 *    flow known:   G = ρ · c_p · Q + G_walls, and the engine's heat is what makes the usual rise
 *    unknown:      the engine's heat is a share of its rated power, and G is what makes the usual rise
 *  `usualRise` [K] over the outside air with `usualHeat` [W] from the alternators; `ratedPower` of the engine [W]. */
export function engineSpace(known: {
  readonly usualRise: number;
  readonly usualHeat: number;
  readonly ratedPower: number;
  readonly flow?: number;
}): EngineSpace {
  requirePositive('engineSpace', 'ratedPower', known.ratedPower, 'W');
  requireWithin('engineSpace', 'usualHeat', known.usualHeat, 'W', 0, 1e6);
  const rise = Math.max(known.usualRise, LEAST_RISE);
  const { flow } = known;
  if (flow === undefined) {
    const engineHeat = SURFACE_SHARE * known.ratedPower;
    const conductance = (engineHeat + known.usualHeat) / rise;
    return { conductance, capacity: SPACE_TIME * conductance, engineHeat };
  }
  requireWithin('engineSpace', 'flow', flow, 'm³/s', 0, 10);
  const conductance = AIR_HEAT_CAPACITY * flow + WALLS;
  const engineHeat = Math.max(0, conductance * rise - known.usualHeat);
  return { conductance, capacity: SPACE_TIME * conductance, engineHeat };
}

/** R_th at a shaft speed, with dust [K/W]. */
export function coolingResistance(node: ThermalNode, speed: number, dust: number): number {
  return node.resistance * coolingShare(speed, dust);
}

/** R_th / R_60 at a shaft speed, with dust [1]. */
export function coolingShare(speed: number, dust: number): number {
  requireWithin('coolingShare', 'dust', dust, '', 0, 10);
  const relative = Math.max(speed / RATED_SPEED, LEAST_RELATIVE_SPEED);
  return (1 + dust) * relative ** -COOLING_EXPONENT;
}

/** Steady temperature of a node [K]. */
export function steadyTemperature(surroundings: number, heat: number, resistance: number): number {
  return surroundings + heat * resistance;
}

/** Temperature after `seconds` with heat and surroundings held; exact for any step [K]. */
export function temperatureAfter(
  temperature: number,
  steady: number,
  timeConstant: number,
  seconds: number,
): number {
  requirePositive('temperatureAfter', 'timeConstant', timeConstant, 's');
  return steady + (temperature - steady) * Math.exp(-seconds / timeConstant);
}

/** Shares of a node's end temperature: of its own at the start, of where it would settle at the start and at the end. */
export interface StraightShares {
  own: number;
  first: number;
  last: number;
}

/** e^(−x), w_0, w_1 after `seconds` of a time constant [s], written to `out`. Hot. */
export function straightShares(timeConstant: number, seconds: number, out: StraightShares): void {
  requirePositive('straightShares', 'timeConstant', timeConstant, 's');
  const x = seconds / timeConstant;
  out.own = Math.exp(-x);
  out.last = x > 1e-4 ? 1 - (1 - out.own) / x : x / 2;
  out.first = 1 - out.own - out.last;
}

/** Rise of an engine space over the outside air [K], with air flow [m³/s] and conduction through its walls [W/K]. */
export function engineSpaceRise(heat: number, flow: number, wallConductance: number): number {
  const conductance = AIR_HEAT_CAPACITY * flow + wallConductance;
  requirePositive('engineSpaceRise', 'conductance', conductance, 'W/K');
  return heat / conductance;
}
