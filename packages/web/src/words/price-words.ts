/** What a remedy may cost, as a round range. */
import type { RemedyView } from '../work/remedy-view.ts';

export function priceWords({ price }: RemedyView): string {
  // The table that comes with the core is in no currency: it steers the order of checks and is no offer.
  if (price.high <= 0 || price.currency === 'units') return '';
  const round = (value: number) => (value >= 100 ? Math.round(value / 10) * 10 : Math.round(value));
  return `Together about ${round(price.low)} to ${round(price.high)} ${price.currency}: an estimate, prices differ from place to place.`;
}
