/** How a reading is said, and what it is in SI. */
import { formatQuantity, formatRange, formatSideBySide, toSI } from '../work/contract.ts';
import type { CheckView } from '../work/check-view.ts';
import type { Band, JobReading, ReadingInLight, UnitPreference } from '../work/contract.ts';

/** The reading's number in SI; undefined when it is no number. */
export function siValue(reading: JobReading, check: CheckView): number | undefined {
  if (reading.value === undefined || check.outcome.kind !== 'number') return undefined;
  const unit = reading.unit ?? check.outcome.unit;
  const result = toSI({ value: reading.value, unit }, check.outcome.dimension);
  return result.kind === 'ok' ? result.value : undefined;
}

export function readingWords(
  reading: JobReading,
  check: CheckView | undefined,
  units: UnitPreference,
): string {
  if (reading.could_not === true) return 'could not be done';
  if (reading.answer !== undefined) {
    if (check?.outcome.kind !== 'answers') return reading.answer;
    return check.outcome.answers.find(({ id }) => id === reading.answer)?.words ?? reading.answer;
  }
  const value = check && siValue(reading, check);
  if (value === undefined || check?.outcome.kind !== 'number')
    return `${reading.value ?? '–'} ${reading.unit ?? ''}`;
  return formatQuantity(value, check.outcome.dimension, units);
}

/** "13.6 to 14.5 V" */
export function bandWords(band: Band, check: CheckView, units: UnitPreference): string {
  if (check.outcome.kind !== 'number') return '';
  return formatRange(band.low, band.high, check.outcome.dimension, units);
}

/** An outcome against the healthy band, in figures: "below 13.60 V". Undefined where it is no such outcome. */
export function outcomeBandWords(
  outcome: string,
  band: Band | undefined,
  check: CheckView,
  units: UnitPreference,
): string | undefined {
  if (band === undefined || check.outcome.kind !== 'number') return undefined;
  const [low, high] = formatSideBySide([band.low, band.high], check.outcome.dimension, units);
  if (outcome === 'low') return `below ${low}`;
  if (outcome === 'high') return `above ${high}`;
  return outcome === 'in' ? bandWords(band, check, units) : undefined;
}

export const standsWords: Readonly<Record<ReadingInLight['stands'], string>> = {
  in: 'as it should be',
  low: 'lower than it should be',
  high: 'higher than it should be',
  usual: 'usual when all is well',
  unusual: 'unusual when all is well',
  none: 'no yardstick',
};
