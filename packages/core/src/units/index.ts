export { nearestNames } from './nearest.ts';
export {
  areaOfGauge,
  diameterOfGauge,
  gaugeLabel,
  gaugeNumber,
  gaugeOfArea,
  largestGaugeNumber,
  smallestGaugeNumber,
} from './gauge.ts';
export { dimensions, findUnit, unitNames } from './dimensions.ts';
export type { Dimension, DimensionDefinition, DisplayDigits, UnitDefinition } from './dimensions.ts';
export { fromSI, requireSI, toSI, unknownUnit } from './convert.ts';
export type { Quantity, QuantityOutOfRange, ToSIResult, UnknownUnit } from './convert.ts';
export * from './shorthand.ts';
export {
  formatDuration,
  formatNumber,
  formatQuantity,
  formatRange,
  formatSideBySide,
  metricPreference,
  usPreference,
} from './format.ts';
export type { UnitPreference } from './format.ts';
export { parseQuantity } from './parse.ts';
export type { ParseResult } from './parse.ts';
