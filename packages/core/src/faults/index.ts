export * from './fault.ts';
export { faultById, faultCatalogue, placedFaults } from './catalogue.ts';
export {
  exchangePrice,
  middleOf,
  partsPrice,
  priceTable,
  remedyPrice,
  type PricedItem,
  type PriceRange,
  type PriceTable,
} from './prices.ts';
export { isOrdinary, keepOrdinary } from './ordinary.ts';
export { insideAlternator, sameRepair } from './same-repair.ts';
