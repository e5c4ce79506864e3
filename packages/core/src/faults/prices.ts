/** Part prices, the labour rate and what a visit more costs: an editable table of round figures, to be replaced by the reader's own. */
import table from '../../data/prices.json' with { type: 'json' };
import type { FaultText } from './fault.ts';

/** A range of prices, in the currency of the table. */
export interface PriceRange {
  readonly low: number;
  readonly high: number;
}

export type PricedItem = PriceRange & { readonly words: string };

export interface PriceTable {
  readonly currency: string;
  readonly labourPerHour: PriceRange;
  readonly parts: Readonly<Record<string, PricedItem>>;
  readonly visits: {
    /** To come once more, since a remedy did not cure. */
    readonly 'call-back': PricedItem;
    /** To have the cause found by whoever surely finds it. */
    readonly specialist: PricedItem;
    /** What a fault does that was told as normal, until somebody comes again. */
    readonly 'left-behind': PricedItem;
  };
}

export const priceTable: PriceTable = table;

/** Price of the parts that a remedy buys.   Errors: RangeError for a part that the table has not. */
export function partsPrice(fault: FaultText, prices: PriceTable = priceTable): PriceRange {
  let low = 0;
  let high = 0;
  for (const key of fault.buys) {
    const price = prices.parts[key];
    if (price === undefined) throw new RangeError(`partsPrice: ${fault.id}: the price table has no "${key}"`);
    low += price.low;
    high += price.high;
  }
  return { low, high };
}

/** Price of a remedy, parts and labour. */
export function remedyPrice(fault: FaultText, prices: PriceTable = priceTable): PriceRange {
  const parts = partsPrice(fault, prices);
  const { low, high } = prices.labourPerHour;
  return { low: parts.low + fault.labourHours * low, high: parts.high + fault.labourHours * high };
}

export const middleOf = ({ low, high }: PriceRange): number => (low + high) / 2;

/** Hours that it takes to exchange an alternator.  Source: estimate */
const exchangeHours = 2;

/** Price of an exchanged alternator, whatever was wrong inside it. */
export function exchangePrice({ parts, labourPerHour }: PriceTable): PriceRange {
  const { low, high } = parts['alternator']!;
  return { low: low + exchangeHours * labourPerHour.low, high: high + exchangeHours * labourPerHour.high };
}
