/** What a person types, as a quantity: "2/0 AWG", "70 mm2", "13,4", "1 850 rpm", "6 ft 4 in", "2h 30min". */
import { toSI, unknownUnit, type Quantity, type QuantityOutOfRange, type UnknownUnit } from './convert.ts';
import { dimensions, findUnit, type Dimension } from './dimensions.ts';
import { gaugeNumber } from './gauge.ts';

export type ParseResult =
  /** `quantity` as typed, `value` in SI. */
  | { readonly kind: 'ok'; readonly quantity: Quantity; readonly value: number }
  | { readonly kind: 'not-a-number'; readonly text: string }
  /** The comma in "1,200" may be a decimal mark or part thousands: ask which. */
  | { readonly kind: 'ambiguous'; readonly text: string; readonly choices: readonly [Quantity, Quantity] }
  | UnknownUnit
  | QuantityOutOfRange;

interface NumberReading {
  readonly value: number;
  /** The other reading of a lone comma before three digits. */
  readonly grouped?: number;
}

/** A typed quantity, read with kindness.
 *  Decimal point or comma; thousands parted by space, apostrophe, comma or point; a unit before or after an AWG size;
 *  compound lengths and times. Without a unit, `fallbackUnit` is meant (the SI unit when not given).
 *  A lone comma before exactly three digits is read as decimal for volts, as thousands for rpm, otherwise `ambiguous`.
 *  Errors: none thrown for any text; RangeError when `fallbackUnit` is no unit of the dimension (caller's mistake) */
export function parseQuantity(text: string, dimension: Dimension, fallbackUnit?: string): ParseResult {
  const fallback = fallbackUnit ?? dimensions[dimension].siUnit;
  const fallbackDefinition = findUnit(fallback, dimension);
  if (!fallbackDefinition)
    throw new RangeError(`parseQuantity: fallbackUnit "${fallback}" is no unit of ${dimension}`);
  const trimmed = text
    .normalize('NFC')
    .replace(/[\u00a0\u202f\u2009]/g, ' ')
    .replace(/[\u2212\u2013]/g, '-')
    .trim();

  if (dimension === 'area') {
    const gauge = parseGauge(trimmed, fallbackDefinition.unit === 'AWG');
    if (gauge !== undefined) return finish({ value: gauge, unit: 'AWG' }, dimension);
  }
  if (dimension === 'length' || dimension === 'time') {
    const compound = parseCompound(trimmed, dimension);
    if (compound) return compound;
  }

  const match = /^([+-]?\s*[\d.,' ]*\d[.,]?(?:[eE][+-]?\d+)?)\s*(.*)$/.exec(trimmed);
  const reading = match ? readNumber(match[1]!) : undefined;
  if (!match || !reading) return { kind: 'not-a-number', text };
  const unitText = match[2]!.trim();
  const definition = unitText === '' ? fallbackDefinition : findUnit(unitText, dimension);
  if (!definition) return unknownUnit(unitText, dimension);
  const unit = definition.unit;
  if (reading.grouped === undefined || unit === 'V') return finish({ value: reading.value, unit }, dimension);
  if (unit === 'rpm') return finish({ value: reading.grouped, unit }, dimension);
  return {
    kind: 'ambiguous',
    text,
    choices: [
      { value: reading.value, unit },
      { value: reading.grouped, unit },
    ],
  };
}

function finish(quantity: Quantity, dimension: Dimension): ParseResult {
  const result = toSI(quantity, dimension);
  return result.kind === 'ok' ? { kind: 'ok', quantity, value: result.value } : result;
}

/** "2/0", "AWG 2/0", "#6", "4 ga", "0000"; a bare number only counts when AWG is the unit meant. */
function parseGauge(text: string, bareIsGauge: boolean): number | undefined {
  const named = /^(?:AWG\s*#?|#)\s*(\S.*?)$/i.exec(text) ?? /^#?(\S.*?)\s*(?:AWG|ga|gauge)$/i.exec(text);
  if (named) return gaugeNumber(named[1]!.trim());
  return bareIsGauge || text.includes('/') ? gaugeNumber(text) : undefined;
}

function parseCompound(text: string, dimension: Dimension): ParseResult | undefined {
  const parts = [...text.matchAll(/(\d+(?:[.,]\d+)?)\s*([^\d\s.,]+)\s*/g)];
  if (parts.length < 2 || parts.map((part) => part[0]).join('') !== text) return undefined;
  let total = 0;
  let smallestUnit = '';
  let smallestSize = Infinity;
  for (const part of parts) {
    const definition = findUnit(part[2]!, dimension);
    if (!definition) return unknownUnit(part[2]!, dimension);
    total += definition.toSI(Number(part[1]!.replace(',', '.')));
    if (definition.toSI(1) >= smallestSize) return { kind: 'not-a-number', text };
    smallestSize = definition.toSI(1);
    smallestUnit = definition.unit;
  }
  return finish({ value: total / smallestSize, unit: smallestUnit }, dimension);
}

function readNumber(text: string): NumberReading | undefined {
  const [mantissa = '', exponent] = text.replace(/\s*$/, '').split(/e/i);
  const scale = exponent === undefined ? 1 : 10 ** Number(exponent);
  const sign = mantissa.trimStart().startsWith('-') ? -1 : 1;
  let digits = mantissa.replace(/^\s*[+-]?\s*/, '').trim();
  // Spaces and apostrophes part thousands only where three digits follow each.
  if (/[ ']/.test(digits)) {
    if (!/^\d{1,3}(?:[ ']\d{3})+(?:[.,]\d*)?$/.test(digits)) return undefined;
    digits = digits.replace(/[ ']/g, '');
  }
  const plain = (value: string): NumberReading => ({ value: sign * scale * Number(value) });
  if (/^\d*[.,]?\d*$/.test(digits) && /\d/.test(digits)) {
    const decimal = plain(digits.replace(',', '.'));
    return /^[1-9]\d{0,2},\d{3}$/.test(digits)
      ? { ...decimal, grouped: sign * scale * Number(digits.replace(',', '')) }
      : decimal;
  }
  if (/^\d{1,3}(?:,\d{3})+(?:\.\d*)?$/.test(digits)) return plain(digits.replaceAll(',', ''));
  if (/^\d{1,3}(?:\.\d{3})+(?:,\d*)?$/.test(digits))
    return plain(digits.replaceAll('.', '').replace(',', '.'));
  return undefined;
}
