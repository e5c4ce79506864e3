/** In which unit each quantity of a part is asked for, and how the options of its choices are said. */
import { findUnit, fromSI, toSI, type Dimension, type JobQuantity } from '../work/contract.ts';
import type { Preferences } from '../state/preferences.ts';

export interface AskedUnit {
  readonly unit: string;
  readonly symbol: string;
  /** How many of `unit` one of what is shown makes: years are kept as days. */
  readonly times: number;
}

export function askedUnit(
  key: string,
  kind: string,
  dimension: Dimension,
  preferences: Preferences,
): AskedUnit {
  if (key === 'age') return { unit: 'd', symbol: 'years', times: 365.25 };
  const unit = unitFor(key, kind, dimension, preferences);
  return { unit, symbol: findUnit(unit, dimension)?.symbol ?? unit, times: 1 };
}

function unitFor(
  key: string,
  kind: string,
  dimension: Dimension,
  { area, length, power, temperature }: Preferences,
): string {
  switch (dimension) {
    case 'area':
      return area;
    case 'length':
      return length;
    case 'power':
      return kind === 'lamp' ? 'W' : power;
    case 'temperature':
      return temperature;
    case 'charge':
      return 'Ah';
    case 'speed':
      return 'rpm';
    case 'time':
      return key === 'hours_per_day' ? 'h' : 's';
    case 'resistance':
      return kind === 'cable' ? 'mohm' : 'ohm';
    case 'ratio':
      return key === 'state_of_charge' ? '%' : '1';
    case 'angle':
      return 'deg';
    case 'volumeFlow':
      return 'm3/h';
    case 'voltagePerKelvin':
      return 'mV/K';
    case 'voltage':
      return 'V';
    case 'current':
      return 'A';
    default:
      return 'SI';
  }
}

/** A known quantity as text in the unit asked for; the number as written where the unit is the same. */
export function quantityText(
  quantity: JobQuantity | undefined,
  dimension: Dimension,
  asked: AskedUnit,
): string {
  if (quantity === undefined) return '';
  if (quantity.unit === asked.unit && asked.times === 1) return gaugeText(quantity.value, asked);
  const si = toSI(quantity, dimension);
  if (si.kind !== 'ok') return String(quantity.value);
  const value = fromSI(si.value, asked.unit, dimension).value / asked.times;
  return gaugeText(Number(value.toPrecision(4)), asked);
}

/** Sizes above AWG 1 are written 1/0, 2/0 and so on. */
function gaugeText(value: number, { unit }: AskedUnit): string {
  if (unit !== 'AWG') return String(value);
  const whole = Math.round(value);
  return whole <= 0 ? `${1 - whole}/0` : String(whole);
}

export const originWords = {
  measured: 'measured',
  nameplate: 'nameplate',
  told: 'told',
  assumed: 'assumed',
} as const;

const optionWords: Readonly<Record<string, string>> = {
  lamp: 'Charge lamp',
  ignition: 'Ignition wire',
  none: 'Nothing: one wire',
  positive: 'Positive side',
  negative: 'Negative side',
  reachable: 'Can be reached',
  hidden: 'Cannot be reached',
  inside: 'Inside the alternator',
  outside: 'Outside',
  'v-10': 'One V, 10 mm',
  'v-13': 'One V, 13 mm',
  'two-v-13': 'Two V, 13 mm',
  'ribbed-6': '6 ribs',
  'ribbed-8': '8 ribs',
  flooded: 'Flooded',
  agm: 'AGM',
  gel: 'Gel',
  lifepo4: 'LiFePO4',
  house: 'House',
  start: 'Start',
  both: 'Both',
  off: 'Off',
  one: '1',
  two: '2',
  diode: 'Diodes',
  fet: 'Low loss (FET)',
  on: 'On',
};

export function optionWord(option: string): string {
  return optionWords[option] ?? option;
}
