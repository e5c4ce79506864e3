/** The price table of a job: the usual one, with whatever its owner put in the place of single prices. */
import {
  middleOf,
  nearestNames,
  priceTable,
  type PricedItem,
  type PriceRange,
  type PriceTable,
} from '@ampwright/core';
import type { JobPrices } from './job.ts';
import { placeOf, pointerOf, shown, type Problem } from './problem.ts';

/** In a currency of its own, what the job does not price is scaled as its hour of labour is: an estimate, but of the right size. */
export function pricesOf(own: JobPrices | undefined): PriceTable {
  if (own === undefined) return priceTable;
  const { currency, labour_hour: labour, items = {} } = own;
  const prices = new Map(Object.entries(items));
  const scale = currency !== undefined && labour ? labour / middleOf(priceTable.labourPerHour) : 1;
  const exactly = (price: number) => ({ low: price, high: price });
  const scaled = ({ low, high }: PriceRange) => ({ low: scale * low, high: scale * high });
  const withOwn = <Table extends Readonly<Record<string, PricedItem>>>(usual: Table): Table =>
    Object.fromEntries(
      Object.entries(usual).map(([key, item]) => {
        const price = prices.get(key);
        return [key, { ...item, ...(price === undefined ? scaled(item) : exactly(price)) }];
      }),
    ) as Table;
  return {
    currency: currency ?? priceTable.currency,
    labourPerHour: labour === undefined ? priceTable.labourPerHour : exactly(labour),
    visits: withOwn(priceTable.visits),
    parts: withOwn(priceTable.parts),
  };
}

/** Own prices of what the table has not: kept, and not used. */
export function priceNotes(root: unknown, own: JobPrices | undefined): Problem[] {
  const known = [...Object.keys(priceTable.visits), ...Object.keys(priceTable.parts)];
  return Object.entries(own?.items ?? {}).flatMap(([key, price]): Problem[] => {
    if (known.includes(key)) return [];
    const path = ['prices', 'items', key];
    const nearest = nearestNames(key, known);
    return [
      {
        kind: 'unknown-field',
        pointer: pointerOf(path),
        place: placeOf(root, path),
        value: shown(price),
        allowed: known.join(', '),
        advice: `The price is kept and not used.${nearest[0] === undefined ? '' : ` Did you mean ${nearest[0]}?`}`,
        nearest,
      },
    ];
  });
}
