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
  return unit.unit === 'AWG' && Number.isFinite(value) ? formatGauge(value, unit) : inUnit(value, unit);
}

/** Numbers that stand side by side: all in the unit of the largest, and to its last digit. Wire gauges, which are no scale, each as
 *  `formatQuantity` has it.
 *  Errors: as `formatQuantity` */
export function formatSideBySide(
  values: readonly number[],
  dimension: Dimension,
  preference: UnitPreference = metricPreference,
): readonly string[] {
  const known = values.filter(Number.isFinite);
  const unit = preferredUnit(Math.max(0, ...known.map(Math.abs)), dimension, preference);
  const own = { ...preference, [dimension]: unit.unit };
  if (unit.unit === 'AWG') return values.map((value) => formatQuantity(value, dimension, own));
  const numbers = known.map(unit.fromSI);
  const digits =
    'decimals' in unit.digits ? unit.digits : { decimals: sharedPlaces(numbers, unit.digits.significant) };
  return values.map((value) => inUnit(value, { ...unit, digits }));
}

/** "13.60 to 14.50 V": the ends of a range as `formatSideBySide` has them, their unit said once. */
export function formatRange(
  low: number,
  high: number,
  dimension: Dimension,
  preference: UnitPreference = metricPreference,
): string {
  const [from = '', to = ''] = formatSideBySide([low, high], dimension, preference);
  const unit = to.slice(to.lastIndexOf(' '));
  return to.includes(' ') && from.endsWith(unit)
    ? `${from.slice(0, -unit.length)} to ${to}`
    : `${from} to ${to}`;
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

function inUnit(value: number, unit: UnitDefinition): string {
  const { symbol } = unit;
  const number = Number.isFinite(value) ? formatNumber(unit.fromSI(value), unit.digits) : '–';
  const close = symbol === '' || (symbol === '°' && number !== '–');
  return close ? `${number}${symbol}` : `${number} ${symbol}`;
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

/** Decimal places that leave the largest so many significant digits; fewer where they would all be zeros. */
function sharedPlaces(values: readonly number[], significant: number): number {
  const places = significantPlaces(Math.max(0, ...values.map(Math.abs)), significant);
  const needed = values.map((value) => String(Number(value.toFixed(places))).split('.')[1]?.length ?? 0);
  return Math.max(0, ...needed);
}

/** Decimal places that leave so many significant digits. */
const significantPlaces = (value: number, significant: number): number =>
  value === 0 ? 0 : Math.max(0, Math.min(12, significant - 1 - Math.floor(Math.log10(Math.abs(value)))));

function significantText(value: number, significant: number): string {
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(significant));
  const text = rounded.toFixed(significantPlaces(rounded, significant));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
