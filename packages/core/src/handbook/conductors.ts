/** Copper: resistance against size and temperature, and the published tables it is checked against.
 *    R(T) = ρ20 · (1 + α20 · (T − 293.15)) · length / area
 *  R [Ω]  ρ20 [Ω·m]  α20 [1/K]  T [K]  length [m]  area [m²]
 *  Source: [IEC60028] (from memory)   Valid: solid annealed copper, about 200 K to 500 K   Leaves out: strand lay
 *  (stranded wire has about 2 % more), tinning, skin effect
 *  Tables: data/handbook/conductors.json. Traps kept as printed: IEC60228 50 mm² class 5 lies below class 2; the SAE
 *  area of size 6 is out of line; two worked examples of [AC43] are misprints (3.60 V for 3.555 V, 0.366 V for 0.491 V). */
import tables from '../../data/handbook/conductors.json' with { type: 'json' };
import { areaOfGauge, circularMils, feet, squareMillimetres } from '../units/index.ts';
import { citationOf, requireNumber, type Citation } from './citation.ts';

/** ρ20 [Ω·m], 100 % IACS. [IEC60028], from memory */
export const copperResistivity20 = 1.7241e-8;
/** α20 [1/K]. [IEC60028], from memory */
export const copperTemperatureCoefficient20 = 0.00393;

/** A looked-up figure in SI with its source. */
export interface TableFigure {
  readonly value: number;
  readonly citation: Citation;
}

/** Resistance ratio R(temperature) / R(293.15 K) by the coefficient.   1 + α20 · (T − 293.15)   [IEC60028] */
export function copperResistanceRatio(temperature: number): number {
  return 1 + copperTemperatureCoefficient20 * (temperature - 293.15);
}

/** The same ratio by the inferred zero-resistance temperature.   (234.5 + t2) / (234.5 + t1), t in °C   [AC43]
 *  Agrees with the coefficient within 0.02 % from 0 to 110 °C. */
export function copperResistanceRatioInferredZero(temperature: number, reference = 293.15): number {
  return (234.5 + temperature - 273.15) / (234.5 + reference - 273.15);
}

/** The rounded form of [IEC60228].   R(t) / R(20 °C) = (230 + t) / 250, t in °C.  0.3 % above the 234.5 form at 50 °C:
 *  only for bringing a measured cable to the 20 °C of the IEC table. */
export function copperResistanceRatioIEC60228(temperature: number): number {
  return (230 + temperature - 273.15) / 250;
}

/** Resistance [Ω] of a solid copper conductor; formula at the top of this file.
 *  Errors: RangeError for area ≤ 0, length < 0, temperature ≤ 0 */
export function conductorResistance(conductor: {
  area: number;
  length: number;
  temperature?: number;
}): number {
  const { area, length, temperature = 293.15 } = conductor;
  requireNumber('conductorResistance', 'area', area, 'm²', 'positive');
  requireNumber('conductorResistance', 'length', length, 'm', 'not negative');
  requireNumber('conductorResistance', 'temperature', temperature, 'K', 'positive');
  return (copperResistivity20 * copperResistanceRatio(temperature) * length) / area;
}

/** Largest resistance per metre [Ω/m] at 20 °C of a listed cable; undefined for a size not in the table. [IEC60228] */
export function iec60228MaximumResistance(cable: {
  area: number;
  conductorClass: 2 | 5;
  tinned: boolean;
}): TableFigure | undefined {
  const table = tables.iec60228;
  const row = table.rows.find((entry) => sameArea(squareMillimetres(entry.area_mm2), cable.area));
  if (!row) return undefined;
  const perKilometre =
    cable.conductorClass === 2
      ? cable.tinned
        ? row.class2_tinned_ohm_per_km
        : row.class2_plain_ohm_per_km
      : cable.tinned
        ? row.class5_tinned_ohm_per_km
        : row.class5_plain_ohm_per_km;
  return { value: perKilometre / 1000, citation: citationOf(table) };
}

/** Resistance per metre [Ω/m] at 75 °C of stranded uncoated copper. [NECT8], from memory */
export function necStrandedResistance(gauge: number): TableFigure | undefined {
  const table = tables.nec_table_8;
  const row = table.rows.find((entry) => entry.gauge === gauge);
  return row && { value: row.resistance_ohm_per_kft / feet(1000), citation: citationOf(table) };
}

/** Largest resistance per metre [Ω/m] at 20 °C and nominal area [m²] of aircraft wire. [AC43, table 11-9] */
export function aircraftWire(gauge: number): { resistance: TableFigure; area: TableFigure } | undefined {
  const table = tables.ac43_table_11_9;
  const row = table.rows.find((entry) => entry.gauge === gauge);
  const citation = citationOf(table);
  return (
    row && {
      resistance: { value: row.resistance_ohm_per_kft / feet(1000), citation },
      area: { value: circularMils(row.area_cmil), citation },
    }
  );
}

/** Length that keeps a drop when the copper is hot.   L2 = 254.5 · L1 / (234.5 + t2), t2 in °C   [AC43]
 *  L1 [m] the length allowed at 20 °C, temperature [K] of the conductor */
export function lengthAllowedWhenHot(lengthAt20: number, temperature: number): number {
  return (254.5 * lengthAt20) / (234.5 + temperature - 273.15);
}

/** Conductor temperature under load, on the safe side.   T2 = T1 + (TR − T1) · √(I / Imax)
 *  T1 ambient [K], TR insulation rating [K], I [A], Imax ampacity there [A]
 *  Source: variables [AC43], formula from memory   Valid: 0 ≤ I ≤ Imax
 *  Errors: RangeError for current < 0 or ampacity ≤ 0; above Imax the formula is continued */
export function conductorTemperature(load: {
  ambient: number;
  insulationRating: number;
  current: number;
  ampacity: number;
}): number {
  requireNumber('conductorTemperature', 'current', load.current, 'A', 'not negative');
  requireNumber('conductorTemperature', 'ampacity', load.ampacity, 'A', 'positive');
  return load.ambient + (load.insulationRating - load.ambient) * Math.sqrt(load.current / load.ampacity);
}

/** Least conductor area [m²] that SAE wire of a gauge holds: about 10 % under AWG for sizes 16 to 8. [SAEJ1127]
 *  From memory; size 6 carries confidence `low`. */
export function saeMinimumArea(gauge: number): TableFigure | undefined {
  const table = tables.sae_minimum_area;
  const row = table.rows.find((entry) => entry.gauge === gauge);
  return (
    row && {
      value: circularMils(row.area_cmil),
      citation: citationOf({ ...table, confidence: row.confidence }),
    }
  );
}

/** Gauge numbers of the trade, thinnest first (those of [CFR425] table 5; 3 AWG is listed but rarely stocked). */
export const gaugesInUse: readonly number[] = tables.nec_table_8.rows.map((row) => row.gauge);

/** Metric cable sizes [m²], thinnest first. [IEC60228] */
export const metricSizesInUse: readonly number[] = tables.iec60228.rows.map((row) =>
  squareMillimetres(row.area_mm2),
);

/** Thinnest gauge with at least the area [m²]; undefined when 4/0 is not enough (use conductors in parallel).
 *  Within 0.01 % counts as enough: the rules print areas to four digits. */
export function nextGaugeUp(area: number): number | undefined {
  return gaugesInUse.find((gauge) => areaOfGauge(gauge) >= area * (1 - 1e-4));
}

/** Thinnest metric size [m²] with at least the area; undefined when 150 mm² is not enough. */
export function nextMetricSizeUp(area: number): number | undefined {
  return metricSizesInUse.find((size) => size >= area * (1 - 1e-4));
}

/** Whether two areas are the same size but for rounding. */
export function sameArea(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-3 * b;
}
