/** The price table of a job: the usual one, with whatever its owner put in the place of single prices. */
import { nearestNames, priceTable, type PricedItem, type PriceTable } from '@ampwright/core';
import type { JobPrices } from './job.ts';
import { placeOf, pointerOf, shown, type Problem } from './problem.ts';

export function pricesOf(own: JobPrices | undefined): PriceTable {
  if (own === undefined) return priceTable;
  const prices = new Map(Object.entries(own.items ?? {}));
  const exactly = (price: number) => ({ low: price, high: price });
  const withOwn = <Table extends Readonly<Record<string, PricedItem>>>(usual: Table): Table =>
    Object.fromEntries(
      Object.entries(usual).map(([key, item]) => {
        const price = prices.get(key);
        return [key, price === undefined ? item : { ...item, ...exactly(price) }];
      }),
    ) as Table;
  return {
    currency: own.currency ?? priceTable.currency,
    labourPerHour: own.labour_hour === undefined ? priceTable.labourPerHour : exactly(own.labour_hour),
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
