/** Heat: alternator and engine space as lumped nodes.
 *    rise        ΔT = P · R_th                    R_th(n, dust) = R_60 · (1 + dust) · (n_ref / n)^0.6
 *    step        T(t + Δt) = T_∞ + (T − T_∞) · e^(−Δt / τ)        τ = R_th · C_th
 *    space       ΔT = P / (ρ · c_p · Q + G)       G conductance of the walls [W/K]
 *  P heat [W]  R_th [K/W]  C_th [J/K]  n shaft speed [rad/s], n_ref = 6000 min⁻¹  Q air flow [m³/s]  T [K]
 *  dust: added thermal resistance, 0 clean to about 1 caked (a choice).
 *  Source: heat balance; ρ·c_p of air 1.2 kg/m³ · 1005 J/(kg·K) at 293 K.
 *  Ventilation for a wanted rise, life of insulation and derating of wire are in the handbook.
 *  R_60 so that a machine at rated heat rises 90 K, τ about 5 min: common practice, low confidence. Exponent 0.6: forced
 *  convection, textbook, Re^0.5 to Re^0.8.
 *  Leaves out: radiation, gradients inside the winding, recirculation of hot air within the engine space. */
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
/** Below this share of the reference speed the fan no longer matters and natural convection takes over. */
const LEAST_RELATIVE_SPEED = 0.05;

/** Winding node of an alternator from its heat at the rated point [W]. */
export function windingNode(ratedHeat: number): ThermalNode {
  requirePositive('windingNode', 'ratedHeat', ratedHeat, 'W');
  const resistance = RISE_AT_RATING / ratedHeat;
  return { resistance, capacity: TIME_CONSTANT / resistance };
}

/** R_th at a shaft speed, with dust [K/W]. */
export function coolingResistance(node: ThermalNode, speed: number, dust: number): number {
  requireWithin('coolingResistance', 'dust', dust, '', 0, 10);
  const relative = Math.max(speed / RATED_SPEED, LEAST_RELATIVE_SPEED);
  return node.resistance * (1 + dust) * relative ** -COOLING_EXPONENT;
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

/** Rise of an engine space over the outside air [K], with air flow [m³/s] and conduction through its walls [W/K]. */
export function engineSpaceRise(heat: number, flow: number, wallConductance: number): number {
  const conductance = AIR_HEAT_CAPACITY * flow + wallConductance;
  requirePositive('engineSpaceRise', 'conductance', conductance, 'W/K');
  return heat / conductance;
}
