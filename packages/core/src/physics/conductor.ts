/** Conductors and joints: resistance against temperature.
 *    R(T) = ρ20 · (1 + α20 · (T − 293.15)) · length / area
 *  R [Ω]  ρ20 [Ω·m]  α20 [1/K]  T [K]  length [m]  area [m²]
 *  Source: [IEC60028] annealed copper, ρ20 = 1/58 · 10⁻⁶ Ω·m, α20 = 0.00393 /K
 *  Valid: 200 K to 500 K (the linear law)     Leaves out: skin effect, strand lay (adds about 2 %), tinning
 *  Errors: RangeError for length < 0, area ≤ 0, T outside Valid */
import { requirePositive, requireWithin } from './guard.ts';

/** Resistivity of annealed copper at 293.15 K [Ω·m]. [IEC60028] */
export const COPPER_RESISTIVITY = 1 / 58e6;
/** Temperature coefficient of annealed copper at 293.15 K [1/K]. [IEC60028] */
export const COPPER_COEFFICIENT = 0.00393;
/** The reference temperature of both [K]. */
export const REFERENCE_TEMPERATURE = 293.15;

/** Resistance of copper at `temperature` [K] over its resistance at 293.15 K. HOT: no allocation. */
export function copperRatio(temperature: number): number {
  return 1 + COPPER_COEFFICIENT * (temperature - REFERENCE_TEMPERATURE);
}

export interface CopperRun {
  /** Length of conductor, one way [m]. */
  readonly length: number;
  /** Copper cross-section [m²]. */
  readonly area: number;
  /** Strand lay and tinning: resistance over that of a solid plain conductor. Default 1.02. */
  readonly strandingFactor?: number;
}

/** Resistance of one copper conductor [Ω]. */
export function conductorResistance(run: CopperRun, temperature: number): number {
  requireWithin('conductorResistance', 'length', run.length, 'm', 0, 1e4);
  requirePositive('conductorResistance', 'area', run.area, 'm²');
  requireWithin('conductorResistance', 'temperature', temperature, 'K', 200, 500);
  const stranding = run.strandingFactor ?? 1.02;
  return (COPPER_RESISTIVITY * stranding * copperRatio(temperature) * run.length) / run.area;
}

/** Resistance [Ω] of a sound crimped or bolted joint: 0.1 mΩ for a 50 mm² lug, growing as the area shrinks.
 *    R = 0.1 mΩ · sqrt(50 mm² / area)
 *  area [m²]. Source: common practice (0.05–0.3 mΩ measured on sound terminals); the exponent is a choice.
 *  Leaves out: growth by corrosion and loosening, which faults add. */
export function soundJointResistance(area: number): number {
  requirePositive('soundJointResistance', 'area', area, 'm²');
  return 1e-4 * Math.sqrt(50e-6 / area);
}

/** Steady temperature of an insulated conductor carrying `current` [K].
 *    T = T_ambient + (T_rated − T_ambient0) · (I / I_rated)²
 *  I_rated [A] is the ampacity at T_ambient0 [K] that brings the conductor to T_rated [K].
 *  Source: the square-root derating law of [CFR425] note 1, read backwards. Leaves out: hotter copper, bundling. */
export function conductorTemperature(
  current: number,
  ampacity: { readonly current: number; readonly ambient: number; readonly rating: number },
  ambient: number,
): number {
  requirePositive('conductorTemperature', 'ampacity.current', ampacity.current, 'A');
  const load = current / ampacity.current;
  return ambient + (ampacity.rating - ampacity.ambient) * load * load;
}
