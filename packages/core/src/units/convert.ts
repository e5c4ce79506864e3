/** Between `{ value, unit }` as people write it and plain SI numbers as the core computes. */
import { dimensions, findUnit, unitNames, type Dimension } from './dimensions.ts';
import { largestGaugeNumber, smallestGaugeNumber } from './gauge.ts';
import { nearestNames } from './nearest.ts';

/** A number with its unit, as it stands in job files and on screens. An object, so it cannot pass for an SI number. */
export interface Quantity {
  readonly value: number;
  readonly unit: string;
}

export interface UnknownUnit {
  readonly kind: 'unknown-unit';
  readonly unit: string;
  readonly dimension: Dimension;
  readonly allowed: readonly string[];
  readonly nearest: readonly string[];
}

export interface QuantityOutOfRange {
  readonly kind: 'out-of-range';
  readonly value: number;
  readonly unit: string;
  readonly dimension: Dimension;
  /** Plain words: what the value must be. */
  readonly allowed: string;
}

export type ToSIResult = { readonly kind: 'ok'; readonly value: number } | UnknownUnit | QuantityOutOfRange;

/** SI value of a quantity.
 *    SI = value · factor + offset;  AWG: area of the solid round conductor
 *  Units: dimensions.ts   Returns: `ok` with the SI number, `unknown-unit`, or `out-of-range`
 *  Errors: none thrown; not finite, below absolute zero and the like come back as `out-of-range` */
export function toSI(quantity: Quantity, dimension: Dimension): ToSIResult {
  const { value, unit } = quantity;
  const definition = findUnit(unit, dimension);
  if (!definition) return unknownUnit(unit, dimension);
  const refuse = (allowed: string): QuantityOutOfRange => ({
    kind: 'out-of-range',
    value,
    unit,
    dimension,
    allowed,
  });
  if (!Number.isFinite(value)) return refuse('a finite number');
  if (definition.unit === 'AWG' && (value < smallestGaugeNumber || value > largestGaugeNumber))
    return refuse('a gauge number from -3 (4/0) to 40');
  const si = definition.toSI(value);
  const { lowest, openLowest, siUnit } = dimensions[dimension];
  if (lowest !== undefined && (openLowest ? si <= lowest : si < lowest))
    return refuse(`${openLowest ? 'greater than' : 'at least'} ${lowest} ${siUnit}`);
  return { kind: 'ok', value: si };
}

/** The SI value of a quantity known to be good (own tables, tests).  Errors: RangeError where `toSI` is not `ok` */
export function requireSI(quantity: Quantity, dimension: Dimension): number {
  const result = toSI(quantity, dimension);
  if (result.kind === 'ok') return result.value;
  const allowed = result.kind === 'unknown-unit' ? `a unit of ${result.allowed.join(', ')}` : result.allowed;
  throw new RangeError(
    `requireSI: ${dimension} quantity ${quantity.value} ${quantity.unit} is not allowed: must be ${allowed}`,
  );
}

/** A quantity in the unit wanted, from an SI value. The dimension is needed because K, degC and Hz serve two each.
 *  Errors: RangeError for a unit that the dimension does not have */
export function fromSI(value: number, unit: string, dimension: Dimension): Quantity {
  const definition = findUnit(unit, dimension);
  if (!definition) {
    const { allowed, nearest } = unknownUnit(unit, dimension);
    throw new RangeError(
      `fromSI: unit "${unit}" is not one of ${dimension}: ${allowed.join(', ')}` +
        (nearest.length > 0 ? `; nearest ${nearest.join(', ')}` : ''),
    );
  }
  return { value: definition.fromSI(value), unit: definition.unit };
}

/** The refusal for a unit that a dimension does not have. */
export function unknownUnit(unit: string, dimension: Dimension): UnknownUnit {
  const units = dimensions[dimension].units;
  const nearestSpelling = nearestNames(unit, units.flatMap(unitNames));
  const nearest = [...new Set(nearestSpelling.map((name) => findUnit(name, dimension)?.unit ?? name))];
  return { kind: 'unknown-unit', unit, dimension, allowed: units.map((entry) => entry.unit), nearest };
}
