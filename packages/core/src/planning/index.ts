export * from './variant.ts';
export { proposedVariants, variantOf } from './variants.ts';
export {
  compareRuns,
  type CompareOptions,
  type ComparedVariant,
  type Comparison,
  type RunOutcome,
} from './compare-runs.ts';
export { comparedText, type ComparedRow, type ComparedRowId } from './compared-rows.ts';
export {
  resampled,
  runBands,
  type SeriesBand,
  type BandOptions,
  type FigureBand,
  type RunBands,
} from './run-bands.ts';
export { eventCaution, eventWords } from './event-words.ts';
export { runFigures, type BankFigures, type RunFigures } from './run-figures.ts';
export { dailyPlan, parsePhase, type ParsedPhase, type RepeatedPlan } from './plan-words.ts';
export { useOverDays, type DayOfUse, type UseOverDays } from './use-over-days.ts';
