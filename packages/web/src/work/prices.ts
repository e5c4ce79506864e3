/** The price table of a job: the usual one, with whatever the job's owner put in its place. */
import { priceTable, type PriceTable } from '@ampwright/core';
import type { Job } from './contract.ts';

export function pricesOf({ prices }: Job): PriceTable {
  if (prices === undefined) return priceTable;
  const exactly = (price: number) => ({ low: price, high: price });
  const parts = Object.entries(priceTable.parts).map(([key, usual]) => {
    const own = prices.items?.[key];
    return [key, own === undefined ? usual : { ...usual, ...exactly(own) }] as const;
  });
  return {
    currency: prices.currency ?? priceTable.currency,
    labourPerHour: prices.labour_hour === undefined ? priceTable.labourPerHour : exactly(prices.labour_hour),
    parts: Object.fromEntries(parts),
  };
}
