/** Figures of charge runs in words. */
import { formatDuration, formatQuantity } from '../work/contract.ts';
import type { ComparedRow, Dimension, FigureBand, UnitPreference } from '../work/contract.ts';

export function rowWords(row: ComparedRow, value: number | undefined, units: UnitPreference): string {
  if (value === undefined) return row.none;
  if (row.id === 'charging') return formatQuantity(value * 3600, 'charge', units);
  return figureWords(value, row.dimension, units);
}

/** "2 h 57 min (2 h 10 min to never)". */
export function figureBandWords(
  { low, middle, high }: FigureBand,
  dimension: Dimension,
  units: UnitPreference,
  none = 'never',
): string {
  const say = (value: number) => (Number.isFinite(value) ? figureWords(value, dimension, units) : none);
  const [first, typical, last] = [say(low), say(middle), say(high)];
  return first === last ? typical : `${typical} (${first} to ${last})`;
}

function figureWords(value: number, dimension: Dimension, units: UnitPreference): string {
  if (dimension === 'ratio') return `${(100 * value).toFixed(0)} %`;
  return dimension === 'time' ? formatDuration(value) : formatQuantity(value, dimension, units);
}
