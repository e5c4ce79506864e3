/** SI numbers as a technician reads them: "13.42 V", "70 mm²", "2/0 AWG", "1850 rpm", "35 °C". */
import { fromSI } from './convert.ts';
import {
  dimensions,
  findUnit,
  type Dimension,
  type DisplayDigits,
  type UnitDefinition,
} from './dimensions.ts';
import { gaugeLabel, largestGaugeNumber, smallestGaugeNumber } from './gauge.ts';

/** Unit wanted per dimension; several are steps of one scale (smallest first), and the size picks among them. */
export type UnitPreference = Readonly<Partial<Record<Dimension, string | readonly string[]>>>;

const common: UnitPreference = {
  voltage: ['mV', 'V'],
  current: ['mA', 'A'],
  resistance: ['mohm', 'ohm', 'kohm', 'Mohm'],
  charge: 'Ah',
  energy: ['Wh', 'kWh'],
  speed: 'rpm',
  frequency: ['Hz', 'kHz'],
  angle: 'deg',
  time: ['s', 'min', 'h', 'd'],
  ratio: '%',
  inductance: ['uH', 'mH', 'H'],
  voltagePerKelvin: 'mV/K',
  thermalResistance: 'K/W',
};

export const metricPreference: UnitPreference = {
  ...common,
  power: ['W', 'kW'],
  length: ['mm', 'm'],
  area: 'mm2',
  volume: 'L',
  temperature: 'degC',
  temperatureDifference: 'K',
  force: 'N',
  torque: 'N.m',
  mass: 'kg',
  volumeFlow: 'm3/h',
};

export const usPreference: UnitPreference = {
  ...common,
  power: ['W', 'hp'],
  length: ['in', 'ft'],
  area: 'AWG',
  volume: 'gal',
  temperature: 'degF',
  temperatureDifference: 'degF',
  force: 'lbf',
  torque: 'lbf.ft',
  mass: 'lb',
  volumeFlow: 'cfm',
};

/** SI magnitude from which a scale moves up to the unit; without an entry, 1 of that unit. */
const stepUpAt: Readonly<Record<string, number>> = {
  V: 0.1,
  ohm: 0.1,
  A: 0.1,
  m: 1,
  ft: 0.9144,
  min: 90,
  h: 5400,
  d: 172800,
  hp: 1000,
};

/** Text of an SI value in the preferred unit, with digits that a technician's instruments deserve.
 *  An AWG that is no standard size (more than a tenth of a step off) is marked "≈".
 *  Five digits and more are parted by a space in threes, four are not (SI brochure, 9th edition, 5.4.4); the decimal mark is a point, minus is "−"; all spaces are plain ones.
 *  Errors: RangeError for a preference naming a unit that the dimension does not have */
export function formatQuantity(
  value: number,
  dimension: Dimension,
  preference: UnitPreference = metricPreference,
): string {
  const unit = preferredUnit(value, dimension, preference);
  if (!Number.isFinite(value)) return unit.symbol === '' ? '–' : `– ${unit.symbol}`;
  if (unit.unit === 'AWG') return formatGauge(value, unit);
  const number = formatNumber(unit.fromSI(value), unit.digits);
  return unit.symbol === '' || unit.symbol === '°' ? `${number}${unit.symbol}` : `${number} ${unit.symbol}`;
}

/** The preference with this dimension held to the unit of the largest value: for numbers that stand side by side.
 *  Errors: as `formatQuantity` */
export function onOneScale(
  values: readonly number[],
  dimension: Dimension,
  preference: UnitPreference = metricPreference,
): UnitPreference {
  const largest = Math.max(...values.map(Math.abs));
  return { ...preference, [dimension]: preferredUnit(largest, dimension, preference).unit };
}

/** Seconds as people say them: "45 s", "12 min", "5 h 20 min", "3 d 4 h".  Rounded to the smaller part shown. */
export function formatDuration(seconds: number): string {
  if (!Number.isFinite(seconds)) return '–';
  const sign = seconds < 0 ? '−' : '';
  const magnitude = Math.abs(seconds);
  if (Math.round(magnitude) < 90) return `${sign}${Math.round(magnitude)} s`;
  const wholeMinutes = Math.round(magnitude / 60);
  if (wholeMinutes < 60) return `${sign}${wholeMinutes} min`;
  if (wholeMinutes < 48 * 60)
    return sign + pair(Math.floor(wholeMinutes / 60), 'h', wholeMinutes % 60, 'min');
  const wholeHours = Math.round(magnitude / 3600);
  return sign + pair(Math.floor(wholeHours / 24), 'd', wholeHours % 24, 'h');
}

/** A bare number with the given digits, five and more of them parted by a space in threes, minus as "−". */
export function formatNumber(value: number, digits: DisplayDigits): string {
  const text =
    'decimals' in digits ? value.toFixed(digits.decimals) : significantText(value, digits.significant);
  const negative = text.startsWith('-') && /[1-9]/.test(text);
  const [whole = '0', fraction] = text.replace('-', '').split('.');
  const grouped = whole.length < 5 ? whole : whole.replace(/\B(?=(\d{3})+$)/g, ' ');
  return `${negative ? '−' : ''}${grouped}${fraction === undefined ? '' : `.${fraction}`}`;
}

function pair(large: number, largeUnit: string, small: number, smallUnit: string): string {
  return small === 0 ? `${large} ${largeUnit}` : `${large} ${largeUnit} ${small} ${smallUnit}`;
}

function preferredUnit(value: number, dimension: Dimension, preference: UnitPreference): UnitDefinition {
  const wanted = preference[dimension] ?? dimensions[dimension].siUnit;
  const names = typeof wanted === 'string' ? [wanted] : wanted;
  const scale = names.map((name) => {
    const found = findUnit(name, dimension);
    if (!found) throw new RangeError(`formatQuantity: preference "${name}" is no unit of ${dimension}`);
    return found;
  });
  let chosen = scale[0]!;
  if (value === 0) return scale.find((unit) => unit.unit === dimensions[dimension].siUnit) ?? chosen;
  for (const unit of scale) if (Math.abs(value) >= (stepUpAt[unit.unit] ?? unit.toSI(1))) chosen = unit;
  return chosen;
}

function formatGauge(area: number, unit: UnitDefinition): string {
  const exact = fromSI(area, 'AWG', 'area').value;
  const nearest = Math.min(Math.max(Math.round(exact), smallestGaugeNumber), largestGaugeNumber);
  if (exact < smallestGaugeNumber - 0.5) {
    const kcmil = findUnit('kcmil', 'area')!;
    return `${formatNumber(kcmil.fromSI(area), kcmil.digits)} ${kcmil.symbol}`;
  }
  return `${Math.abs(exact - nearest) > 0.1 ? '≈ ' : ''}${gaugeLabel(nearest)} ${unit.symbol}`;
}

function significantText(value: number, significant: number): string {
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(significant));
  const places = Math.max(0, Math.min(12, significant - 1 - Math.floor(Math.log10(Math.abs(rounded)))));
  const text = rounded.toFixed(places);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
