/** The price table of a job: the usual one, with whatever its owner put in the place of single prices. */
import { priceTable, type PricedItem, type PriceTable } from '@ampwright/core';
import type { JobPrices } from './job.ts';

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
