/** Conductors and joints: resistance against temperature.
 *    R(T) = k · ρ20 · (1 + α20 · (T − 293.15)) · length / area
 *  R [Ω]  ρ20 [Ω·m]  α20 [1/K]  T [K]  length [m]  area [m²]  k stranding factor
 *  Source: [IEC60028], constants and solid conductor from the handbook   Leaves out: skin effect
 *  Valid: 200 K to 500 K (the linear law)   Errors: RangeError for length < 0, area ≤ 0, T outside Valid */
import { conductorResistance, copperTemperatureCoefficient20 } from '../handbook/conductors.ts';
import { requirePositive, requireWithin } from './guard.ts';

/** Resistance of copper at `temperature` [K] over its resistance at 293.15 K. HOT: no allocation. */
export function copperRatio(temperature: number): number {
  return 1 + copperTemperatureCoefficient20 * (temperature - 293.15);
}

export interface CopperRun {
  /** Length of conductor, one way [m]. */
  readonly length: number;
  /** Copper cross-section [m²]. */
  readonly area: number;
  /** Strand lay and tinning: resistance over that of a solid plain conductor. Default 1.02. */
  readonly strandingFactor?: number;
}

/** Resistance of one stranded copper conductor [Ω]. */
export function copperRunResistance(run: CopperRun, temperature: number): number {
  requireWithin('copperRunResistance', 'temperature', temperature, 'K', 200, 500);
  const { length, area, strandingFactor = 1.02 } = run;
  return strandingFactor * conductorResistance({ length, area, temperature });
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
 *  Source: the square-root derating law of [CFR425] note 1, read backwards; the handbook has the
 *  safer square root of [AC43] for choosing wire. Leaves out: hotter copper, bundling. */
export function loadedConductorTemperature(
  current: number,
  ampacity: { readonly current: number; readonly ambient: number; readonly rating: number },
  ambient: number,
): number {
  requirePositive('loadedConductorTemperature', 'ampacity.current', ampacity.current, 'A');
  const load = current / ampacity.current;
  return ambient + (ampacity.rating - ampacity.ambient) * load * load;
}
