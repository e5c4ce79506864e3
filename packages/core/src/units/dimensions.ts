/** The units people use, and what each is in SI. The only table of conversion factors in the project.
 *    SI value = value · factor + offset      (AWG alone is not linear; see gauge.ts)
 *  Source: SI definitions (BIPM SI Brochure, 9th ed.); inch, pound, pound-force, gallon: [SI811, app. B] (exact
 *  definitions); horsepower 550 ft·lbf/s; AWG [ASTMB258]; circular mil π/4 · (0.001 in)² */
import { areaOfGauge, gaugeOfArea } from './gauge.ts';

export type Dimension =
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'charge'
  | 'energy'
  | 'power'
  | 'length'
  | 'area'
  | 'volume'
  | 'temperature'
  | 'temperatureDifference'
  | 'speed'
  | 'frequency'
  | 'angle'
  | 'time'
  | 'ratio'
  | 'force'
  | 'torque'
  | 'mass'
  | 'inductance'
  | 'volumeFlow'
  | 'voltagePerKelvin'
  | 'thermalResistance';

/** Decimals shown: a fixed number, or enough for so many significant digits (trailing zeros dropped). */
export type DisplayDigits = { readonly decimals: number } | { readonly significant: number };

export interface UnitDefinition {
  /** Stable id, used in job files. */
  readonly unit: string;
  /** What the screen prints. */
  readonly symbol: string;
  readonly aliases: readonly string[];
  readonly toSI: (value: number) => number;
  readonly fromSI: (value: number) => number;
  readonly digits: DisplayDigits;
}

export interface DimensionDefinition {
  readonly siUnit: string;
  readonly units: readonly UnitDefinition[];
  /** SI value must be at least this (above it when `openLowest`). */
  readonly lowest?: number;
  readonly openLowest?: boolean;
}

const INCH = 0.0254;
const FOOT = 0.3048;
const POUND = 0.45359237;
const POUND_FORCE = POUND * 9.80665;
const HORSEPOWER = 550 * FOOT * POUND_FORCE;
const US_GALLON = 231 * INCH ** 3;
const CIRCULAR_MIL = (Math.PI / 4) * (INCH / 1000) ** 2;
const ZERO_CELSIUS = 273.15;
const FAHRENHEIT = 5 / 9;

const three = { significant: 3 } as const;
const four = { significant: 4 } as const;
const decimals = (count: number): DisplayDigits => ({ decimals: count });

function linear(
  unit: string,
  symbol: string,
  factor: number,
  digits: DisplayDigits,
  aliases: readonly string[] = [],
  offset = 0,
): UnitDefinition {
  return {
    unit,
    symbol,
    aliases,
    digits,
    toSI: (value) => value * factor + offset,
    fromSI: (value) => (value - offset) / factor,
  };
}

/** A unit whose SI value is value / divisor: keeps 0.001 exact where a factor of 1e-3 would round. */
function divided(
  unit: string,
  symbol: string,
  divisor: number,
  digits: DisplayDigits,
  aliases: readonly string[] = [],
): UnitDefinition {
  return {
    unit,
    symbol,
    aliases,
    digits,
    toSI: (value) => value / divisor,
    fromSI: (value) => value * divisor,
  };
}

export const dimensions: Readonly<Record<Dimension, DimensionDefinition>> = {
  voltage: {
    siUnit: 'V',
    units: [
      linear('V', 'V', 1, decimals(2), ['volt', 'volts', 'VDC', 'Vdc']),
      divided('mV', 'mV', 1000, three, ['millivolt', 'millivolts']),
    ],
  },
  current: {
    siUnit: 'A',
    units: [
      linear('A', 'A', 1, three, ['amp', 'amps', 'ampere', 'amperes']),
      divided('mA', 'mA', 1000, three, ['milliamp', 'milliamps']),
    ],
  },
  resistance: {
    siUnit: 'ohm',
    lowest: 0,
    units: [
      linear('ohm', 'Ω', 1, three, ['Ω', '\u2126', 'ohms', 'R']),
      divided('mohm', 'mΩ', 1000, three, ['mΩ', 'm\u2126', 'milliohm', 'milliohms']),
      linear('kohm', 'kΩ', 1e3, three, ['kΩ', 'k\u2126', 'k']),
      linear('Mohm', 'MΩ', 1e6, three, ['MΩ', 'M\u2126', 'megohm']),
    ],
  },
  charge: {
    siUnit: 'C',
    units: [
      linear('C', 'C', 1, three, ['coulomb', 'coulombs']),
      linear('Ah', 'Ah', 3600, three, ['A.h', 'A·h', 'amp hours', 'amp-hours', 'ampere hours']),
    ],
  },
  energy: {
    siUnit: 'J',
    units: [
      linear('J', 'J', 1, three, ['joule', 'joules']),
      linear('Wh', 'Wh', 3600, three, ['W.h']),
      linear('kWh', 'kWh', 3.6e6, three, []),
    ],
  },
  power: {
    siUnit: 'W',
    units: [
      linear('W', 'W', 1, three, ['watt', 'watts']),
      linear('kW', 'kW', 1e3, three, ['kilowatt', 'kilowatts']),
      linear('hp', 'hp', HORSEPOWER, three, ['horsepower', 'bhp']),
    ],
  },
  length: {
    siUnit: 'm',
    units: [
      linear('m', 'm', 1, three, ['metre', 'metres', 'meter', 'meters']),
      divided('cm', 'cm', 100, three, ['centimetre', 'centimetres', 'centimeter', 'centimeters']),
      divided('mm', 'mm', 1000, three, ['millimetre', 'millimetres', 'millimeter', 'millimeters']),
      linear('ft', 'ft', FOOT, three, ['foot', 'feet', "'", '′']),
      linear('in', 'in', INCH, three, ['inch', 'inches', '"', '″']),
    ],
  },
  area: {
    siUnit: 'm2',
    lowest: 0,
    openLowest: true,
    units: [
      linear('m2', 'm²', 1, three, ['m²', 'm^2']),
      divided('cm2', 'cm²', 1e4, three, ['cm²', 'cm^2']),
      divided('mm2', 'mm²', 1e6, three, ['mm²', 'mm^2', 'sqmm', 'sq mm', 'qmm']),
      {
        unit: 'AWG',
        symbol: 'AWG',
        aliases: ['ga', 'gauge', 'AWG #'],
        toSI: areaOfGauge,
        fromSI: gaugeOfArea,
        digits: decimals(0),
      },
      linear('kcmil', 'kcmil', 1000 * CIRCULAR_MIL, four, ['MCM']),
      linear('cmil', 'cmil', CIRCULAR_MIL, four, ['CM', 'circular mil', 'circular mils']),
    ],
  },
  volume: {
    siUnit: 'm3',
    units: [
      linear('m3', 'm³', 1, three, ['m³', 'm^3']),
      divided('L', 'L', 1000, three, ['litre', 'litres', 'liter', 'liters']),
      linear('gal', 'US gal', US_GALLON, three, ['US gal', 'gallon', 'gallons']),
    ],
  },
  temperature: {
    siUnit: 'K',
    lowest: 0,
    units: [
      linear('K', 'K', 1, decimals(0), ['kelvin']),
      linear('degC', '°C', 1, decimals(0), ['°C', 'C', 'deg C', 'celsius'], ZERO_CELSIUS),
      linear(
        'degF',
        '°F',
        FAHRENHEIT,
        decimals(0),
        ['°F', 'F', 'deg F', 'fahrenheit'],
        ZERO_CELSIUS - 32 * FAHRENHEIT,
      ),
    ],
  },
  temperatureDifference: {
    siUnit: 'K',
    units: [
      linear('K', 'K', 1, three, ['kelvin']),
      linear('degC', '°C', 1, three, ['°C', 'C', 'deg C']),
      linear('degF', '°F', FAHRENHEIT, three, ['°F', 'F', 'deg F']),
    ],
  },
  speed: {
    siUnit: 'rad/s',
    units: [
      linear('rad/s', 'rad/s', 1, three, []),
      linear('rpm', 'rpm', Math.PI / 30, decimals(0), ['r/min', '1/min', 'min-1', 'min⁻¹', 'revs']),
      linear('Hz', 'Hz', 2 * Math.PI, three, ['r/s', 'rps']),
    ],
  },
  frequency: {
    siUnit: 'Hz',
    lowest: 0,
    units: [linear('Hz', 'Hz', 1, three, ['hertz']), linear('kHz', 'kHz', 1e3, three, [])],
  },
  angle: {
    siUnit: 'rad',
    units: [linear('rad', 'rad', 1, three, []), linear('deg', '°', Math.PI / 180, three, ['°', 'degrees'])],
  },
  time: {
    siUnit: 's',
    units: [
      linear('s', 's', 1, three, ['sec', 'secs', 'second', 'seconds']),
      divided('ms', 'ms', 1000, three, ['millisecond', 'milliseconds']),
      linear('min', 'min', 60, three, ['mins', 'minute', 'minutes']),
      linear('h', 'h', 3600, three, ['hr', 'hrs', 'hour', 'hours']),
      linear('d', 'd', 86400, three, ['day', 'days']),
    ],
  },
  ratio: {
    siUnit: '1',
    units: [linear('1', '', 1, three, ['']), divided('%', '%', 100, three, ['percent', 'pct'])],
  },
  force: {
    siUnit: 'N',
    units: [
      linear('N', 'N', 1, three, ['newton', 'newtons']),
      linear('kgf', 'kgf', 9.80665, three, ['kp']),
      linear('lbf', 'lbf', POUND_FORCE, three, []),
    ],
  },
  torque: {
    siUnit: 'N.m',
    units: [
      linear('N.m', 'N·m', 1, three, ['N·m', 'Nm', 'N m']),
      linear('lbf.ft', 'lbf·ft', POUND_FORCE * FOOT, three, ['lbf·ft', 'lbf ft', 'ft-lb', 'ft.lbf', 'ft lb']),
      linear('lbf.in', 'lbf·in', POUND_FORCE * INCH, three, ['lbf·in', 'lbf in', 'in-lb', 'in.lbf', 'in lb']),
    ],
  },
  mass: {
    siUnit: 'kg',
    lowest: 0,
    units: [
      linear('kg', 'kg', 1, three, ['kilogram', 'kilograms']),
      divided('g', 'g', 1000, three, ['gram', 'grams']),
      linear('lb', 'lb', POUND, three, ['lbs', 'pound', 'pounds']),
    ],
  },
  inductance: {
    siUnit: 'H',
    lowest: 0,
    units: [
      linear('H', 'H', 1, three, ['henry']),
      divided('mH', 'mH', 1e3, three, []),
      divided('uH', 'µH', 1e6, three, ['µH', '\u03bcH']),
    ],
  },
  volumeFlow: {
    siUnit: 'm3/s',
    units: [
      linear('m3/s', 'm³/s', 1, three, ['m³/s']),
      divided('m3/min', 'm³/min', 60, three, ['m³/min']),
      divided('m3/h', 'm³/h', 3600, three, ['m³/h']),
      linear('cfm', 'cfm', FOOT ** 3 / 60, three, ['ft3/min', 'ft³/min', 'CFM']),
      divided('L/h', 'L/h', 3.6e6, three, ['l/h']),
      linear('gal/h', 'US gal/h', US_GALLON / 3600, three, ['gph']),
    ],
  },
  voltagePerKelvin: {
    siUnit: 'V/K',
    units: [
      linear('V/K', 'V/K', 1, three, ['V/degC', 'V/°C']),
      divided('mV/K', 'mV/K', 1000, three, ['mV/degC', 'mV/°C']),
    ],
  },
  thermalResistance: {
    siUnit: 'K/W',
    lowest: 0,
    units: [linear('K/W', 'K/W', 1, three, ['degC/W', '°C/W'])],
  },
};

/** The unit of that name, symbol or alias within a dimension; undefined when there is none.
 *  Exact spelling wins; otherwise case is ignored when that leaves one unit only (mΩ and MΩ stay apart). */
export function findUnit(name: string, dimension: Dimension): UnitDefinition | undefined {
  const units = dimensions[dimension].units;
  const exact = units.find((unit) => unitNames(unit).includes(name));
  if (exact) return exact;
  const lower = name.toLowerCase();
  const loose = units.filter((unit) =>
    unitNames(unit).some((candidate) => candidate.toLowerCase() === lower),
  );
  return loose.length === 1 ? loose[0] : undefined;
}

/** Every writing of a unit: id, symbol, aliases. */
export function unitNames(unit: UnitDefinition): string[] {
  return [unit.unit, unit.symbol, ...unit.aliases];
}
