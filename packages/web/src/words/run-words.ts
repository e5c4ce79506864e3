/** Figures of charge runs in words. */
import { formatDuration, formatQuantity } from '../work/contract.ts';
import type { ComparedRow, Dimension, FigureBand, UnitPreference } from '../work/contract.ts';

export function rowWords(row: ComparedRow, value: number | undefined, units: UnitPreference): string {
  if (value === undefined) return row.none;
  if (row.id === 'charging') return formatQuantity(value * 3600, 'charge', units);
  return figureWords(value, row.dimension, units);
}

/** "2 h 57 min (2 h 10 min to 4 h)"; where some boats never reach it, "2 h 57 min (at best 2 h 10 min, perhaps not within
 *  this plan)"; where most do not, "not within this plan (at best 2 h 10 min)".
 */
export function figureBandWords(
  { low, middle, high }: FigureBand,
  dimension: Dimension,
  units: UnitPreference,
  none = 'not at all',
): string {
  const say = (value: number) => figureWords(value, dimension, units);
  if (!Number.isFinite(low)) return none;
  if (!Number.isFinite(middle)) return `${none} (at best ${say(low)})`;
  if (!Number.isFinite(high)) return `${say(middle)} (at best ${say(low)}, perhaps ${none})`;
  const [first, typical, last] = [say(low), say(middle), say(high)];
  return first === last ? typical : `${typical} (${first} to ${last})`;
}

function figureWords(value: number, dimension: Dimension, units: UnitPreference): string {
  if (dimension === 'ratio') return `${(100 * value).toFixed(0)} %`;
  return dimension === 'time' ? formatDuration(value) : formatQuantity(value, dimension, units);
}
