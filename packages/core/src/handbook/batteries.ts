/** Published battery tables and rules, as functions of numbers.
 *  Rest voltage and specific gravity against state of charge, set-points, Peukert, charge efficiencies,
 *  load-test minimum. Tables are data in data/batteries/*.json with their source and confidence.
 *  A rest voltage tells the state of charge of lead-acid to about ±10 %, of LiFePO4 hardly at all. */

import agm from '../../data/batteries/agm.json' with { type: 'json' };
import flooded from '../../data/batteries/flooded.json' with { type: 'json' };
import gel from '../../data/batteries/gel.json' with { type: 'json' };
import lifepo4 from '../../data/batteries/lifepo4.json' with { type: 'json' };

const TABLES = { flooded, agm, gel, lifepo4 } as const;

export type BatteryTableName = keyof typeof TABLES;

export interface ChargingSetPoints {
  /** Absorption voltage, low and high [V], for the nominal 12 V battery at 25 °C. */
  readonly absorption: readonly [number, number];
  readonly float: readonly [number, number];
  /** Undefined where the chemistry must not be equalised. */
  readonly equalise: readonly [number, number] | undefined;
  /** Change of set-point per cell [V/K], zero or negative. */
  readonly compensationPerCell: number;
  /** Usual charging current over C20, low and high [A per A·h of C20]. */
  readonly chargeCurrentRatio: readonly [number, number];
  readonly source: string;
}

/** Rest voltage per cell [V], linear between table points; state of charge 0..1.
 *  Source: [BCI] flooded, from memory AGM and gel, [SUNIL2025] LiFePO4.  Valid: about 25 °C, rested for hours. */
export function openCircuitVoltagePerCell(chemistry: BatteryTableName, stateOfCharge: number): number {
  const table = TABLES[chemistry].openCircuit;
  return interpolate(table.stateOfCharge, table.voltage_V, stateOfCharge) / table.cellsInTable;
}

/** Slope of the rest voltage of a cell over state of charge [V per 1], of the table's segment. */
export function openCircuitSlopePerCell(chemistry: BatteryTableName, stateOfCharge: number): number {
  const { stateOfCharge: xs, voltage_V: ys, cellsInTable } = TABLES[chemistry].openCircuit;
  let k = 1;
  while (k < xs.length - 1 && stateOfCharge > (xs[k] ?? NaN)) k++;
  const rise = (ys[k] ?? NaN) - (ys[k - 1] ?? NaN);
  return rise / ((xs[k] ?? NaN) - (xs[k - 1] ?? NaN)) / cellsInTable;
}

/** State of charge 0..1 from the rest voltage of one cell [V]; held at 0 and 1 outside the table. */
export function stateOfChargeFromRestVoltage(chemistry: BatteryTableName, cellVoltage: number): number {
  const table = TABLES[chemistry].openCircuit;
  return interpolate(table.voltage_V, table.stateOfCharge, cellVoltage * table.cellsInTable);
}

/** Specific gravity at 26.7 °C of a flooded cell. Source: [BCI] */
export function specificGravityAt(stateOfCharge: number): number {
  const table = flooded.specificGravity;
  return interpolate(table.stateOfCharge, table.specificGravity, stateOfCharge);
}

/** State of charge 0..1 of a flooded cell from its corrected specific gravity. Source: [BCI] */
export function stateOfChargeFromSpecificGravity(specificGravity: number): number {
  const table = flooded.specificGravity;
  return interpolate(table.specificGravity, table.stateOfCharge, specificGravity);
}

/** Hydrometer reading corrected to 26.7 °C (80 °F): + 0.004 per 10 °F, i.e. 0.00072 per K.
 *  temperature [K]. Source: [TM] family. */
export function correctedSpecificGravity(reading: number, temperature: number): number {
  return reading + (0.004 / (10 / 1.8)) * (temperature - 299.8167);
}

/** Largest spread of specific gravity between the cells of a charged battery. Source: [TM 9-6140-200-14] */
export const SPECIFIC_GRAVITY_SPREAD_LIMIT = 0.025;

/** Rest voltage of a cell by the linear rule V ≈ specific gravity + 0.845. Source: textbook, from memory. */
export function cellVoltageFromSpecificGravity(specificGravity: number): number {
  return specificGravity + 0.845;
}

/** EMF of a lead-acid cell [V] against acid molality [mol/kg], 1..6.  x = log10(m)
 *    U₊ = 1.628 + 0.074x + 0.033x² + 0.043x³ + 0.022x⁴
 *    U₋ = −0.294 − 0.074x − 0.030x² − 0.031x³ − 0.012x⁴      Source: [BODE] */
export function cellVoltageFromMolality(molality: number): number {
  const x = Math.log10(molality);
  const positive = 1.628 + x * (0.074 + x * (0.033 + x * (0.043 + x * 0.022)));
  const negative = -0.294 - x * (0.074 + x * (0.03 + x * (0.031 + x * 0.012)));
  return positive - negative;
}

/** Set-points for a nominal 12 V battery (6 lead-acid or 4 LiFePO4 cells); twice that for 24 V.
 *  Source: common practice. The battery maker's figures rule. */
export function chargingSetPoints(chemistry: BatteryTableName): ChargingSetPoints {
  const data = TABLES[chemistry].setPoints;
  return {
    absorption: pair(data.absorption_V),
    float: pair(data.float_V),
    equalise: data.equalise_V === null ? undefined : pair(data.equalise_V),
    compensationPerCell: data.compensationPerCell_V_per_K,
    chargeCurrentRatio: pair(data.chargeCurrent_ratioOfC20),
    source: data.source,
  };
}

/** Set-point at a battery temperature: V25 + slope·cells·(T − 298.15 K) [V]. */
export function compensatedSetPoint(
  setPointAt25: number,
  compensationPerCell: number,
  cells: number,
  temperature: number,
): number {
  return setPointAt25 + compensationPerCell * cells * (temperature - 298.15);
}

/** Discharge time by Peukert: t = H·(C/(I·H))^k [s]; C [C] rated at H [s], I [A] > 0.
 *  Not the original form t = C_p/I^k, whose C_p is another number. Errors: RangeError for I, C or H ≤ 0. */
export function dischargeTimePeukert(
  capacity: number,
  ratedDuration: number,
  current: number,
  exponent: number,
): number {
  if (!(capacity > 0 && ratedDuration > 0 && current > 0)) {
    throw new RangeError(
      `dischargeTimePeukert: capacity ${capacity} C, ratedDuration ${ratedDuration} s, current ${current} A must be > 0`,
    );
  }
  return ratedDuration * (capacity / (current * ratedDuration)) ** exponent;
}

/** Usual and extreme Peukert exponents. Source: common practice, from memory. */
export function peukertExponent(chemistry: BatteryTableName): { low: number; high: number; typical: number } {
  const { low, high, typical } = TABLES[chemistry].peukertExponent;
  return { low, high, typical };
}

/** Charge out over charge in for a whole cycle, low and high. Source: handbook-type figures, from memory. */
export function coulombicEfficiency(chemistry: BatteryTableName): { low: number; high: number } {
  const { low, high } = TABLES[chemistry].coulombicEfficiency;
  return { low, high };
}

/** Least voltage of a 12 V battery at the end of a load test [V]; temperature [K], held outside the table.
 *  Source: [TM 5-4210-230-14&P-1, Table 5] */
export function loadTestMinimumVoltage(temperature: number): number {
  return interpolate(LOAD_TEST_CELSIUS, LOAD_TEST_VOLTS, temperature - 273.15);
}

/** Below this a 12 V lead-acid battery is harmed [V]. Source: [TM 9-6140-200-14] */
export const HARMFUL_LOW_VOLTAGE = 10.5;

const LOAD_TEST_CELSIUS = [-18, -12, -7, -1, 4, 10, 16, 21];
const LOAD_TEST_VOLTS = [8.5, 8.7, 8.9, 9.1, 9.3, 9.4, 9.5, 9.6];

function pair(values: readonly number[]): readonly [number, number] {
  return [values[0] ?? NaN, values[1] ?? NaN];
}

function interpolate(xs: readonly number[], ys: readonly number[], x: number): number {
  const last = xs.length - 1;
  if (x <= (xs[0] ?? NaN)) return ys[0] ?? NaN;
  for (let k = 1; k <= last; k++) {
    const right = xs[k] ?? NaN;
    if (x <= right) {
      const left = xs[k - 1] ?? NaN;
      const low = ys[k - 1] ?? NaN;
      return low + (((ys[k] ?? NaN) - low) * (x - left)) / (right - left);
    }
  }
  return ys[last] ?? NaN;
}
