/** The rows of a table of runs side by side. SI values; undefined stands for "never" or "cannot". */
import { formatDuration, formatQuantity, type Dimension } from '../units/index.ts';
import type { RunFigures } from './run-figures.ts';

/** Ids are frozen. */
export type ComparedRowId =
  | 'time-to-80'
  | 'time-to-95'
  | 'charging'
  | 'engine-time-per-day'
  | 'fuel-per-day'
  | 'peak-temperature'
  | 'peak-engine-share'
  | 'peak-belt-share'
  | 'path-loss';

export interface ComparedRow {
  readonly id: ComparedRowId;
  readonly words: string;
  readonly dimension: Dimension;
  /** Which way is better. */
  readonly better: 'less' | 'more';
  /** In place of a value that is undefined. */
  readonly none: 'never' | 'cannot hold';
  readonly base: number | undefined;
  /** In the order of the what-ifs. */
  readonly values: readonly (number | undefined)[];
}

type RowKind = Omit<ComparedRow, 'base' | 'values'> & {
  readonly of: (figures: RunFigures) => number | undefined;
};

const main = ({ banks, main: at }: RunFigures) => banks[at];

const kinds: readonly RowKind[] = [
  {
    id: 'time-to-80',
    words: 'Time to 80 %',
    dimension: 'time',
    better: 'less',
    none: 'never',
    of: (figures) => main(figures)?.timeTo80,
  },
  {
    id: 'time-to-95',
    words: 'Time to 95 %',
    dimension: 'time',
    better: 'less',
    none: 'never',
    of: (figures) => main(figures)?.timeTo95,
  },
  {
    id: 'charging',
    words: 'Kept per engine hour to 80 %',
    dimension: 'current',
    better: 'more',
    none: 'never',
    of: (figures) => main(figures)?.charging,
  },
  {
    id: 'engine-time-per-day',
    words: 'Engine hours a day to hold it',
    dimension: 'time',
    better: 'less',
    none: 'cannot hold',
    of: ({ engineTimePerDay }) => engineTimePerDay,
  },
  {
    id: 'fuel-per-day',
    words: 'Fuel a day for that',
    dimension: 'volume',
    better: 'less',
    none: 'cannot hold',
    of: ({ fuelPerDay }) => fuelPerDay,
  },
  {
    id: 'peak-temperature',
    words: 'Hottest winding',
    dimension: 'temperature',
    better: 'less',
    none: 'never',
    of: ({ peakTemperature }) => peakTemperature,
  },
  {
    id: 'peak-engine-share',
    words: 'Largest share of engine power',
    dimension: 'ratio',
    better: 'less',
    none: 'never',
    of: ({ peakEngineShare }) => peakEngineShare,
  },
  {
    id: 'peak-belt-share',
    words: 'Belt load over its capacity',
    dimension: 'ratio',
    better: 'less',
    none: 'never',
    of: ({ peakBeltShare }) => peakBeltShare,
  },
  {
    id: 'path-loss',
    words: 'Lost from alternator to bank',
    dimension: 'voltage',
    better: 'less',
    none: 'never',
    of: ({ pathLoss }) => pathLoss,
  },
];

/** A value of a row as a technician reads it: "3 h 36 min", "57 Ah", "never". */
export function comparedText(row: ComparedRow, value: number | undefined): string {
  if (value === undefined) return row.none;
  if (row.id === 'charging') return formatQuantity(value * 3600, 'charge');
  if (row.id === 'peak-engine-share' || row.id === 'peak-belt-share') return `${(100 * value).toFixed(0)} %`;
  return row.dimension === 'time' ? formatDuration(value) : formatQuantity(value, row.dimension);
}

export function comparedRows(base: RunFigures, variants: readonly RunFigures[]): ComparedRow[] {
  return kinds.map(({ of, ...row }) => ({ ...row, base: of(base), values: variants.map(of) }));
}
