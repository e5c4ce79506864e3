/** Words of a report: odds, bands, values. A chance is never claimed outright. */
import { partWords, type BoatDescription } from '../boat/index.ts';
import type { CheckOutcome, PlacedCheck } from '../checks/index.ts';
import { sureness, type Band } from '../diagnosis/index.ts';
import type { Reading } from '../readings/index.ts';
import { faultById } from '../faults/index.ts';
import type { Cost } from '../remedy/index.ts';
import {
  formatDuration,
  formatNumber,
  formatQuantity,
  formatRange,
  type UnitPreference,
} from '../units/index.ts';

/** "over 99 in 100", "84 in 100". */
export function oddsOf(chance: number): string {
  if (chance > 0.99) return 'over 99 in 100';
  if (chance < 0.01) return 'under 1 in 100';
  return `${Math.round(chance * 100)} in 100`;
}

/** "very likely (91 in 100)". */
export const sure = (chance: number): string => `${sureness(chance)} (${oddsOf(chance)})`;

export function bandWords(
  band: Band | undefined,
  outcome: CheckOutcome | undefined,
  preference: UnitPreference,
): string {
  if (band === undefined || outcome?.kind !== 'number') return '–';
  return formatRange(band.low, band.high, outcome.dimension, preference);
}

/** What a reading said, in words. */
export function readingWords(
  reading: Reading,
  check: PlacedCheck | undefined,
  preference: UnitPreference,
): string {
  const { outcome } = reading;
  if (outcome.kind === 'could-not') return 'could not be done';
  if (check === undefined) return outcome.kind === 'number' ? String(outcome.value) : outcome.answer;
  if (outcome.kind === 'answer') {
    const answers = check.outcome.kind === 'answers' ? check.outcome.answers : [];
    return answers.find(({ id }) => id === outcome.answer)?.words ?? outcome.answer;
  }
  return check.outcome.kind === 'number'
    ? formatQuantity(outcome.value, check.outcome.dimension, preference)
    : String(outcome.value);
}

/** Where a reading differed from its check's own condition: "1850 rpm, 12 min after start". */
export function conditionWords(reading: Reading, preference: UnitPreference): string {
  return [
    ...(reading.engineSpeed === undefined ? [] : [formatQuantity(reading.engineSpeed, 'speed', preference)]),
    ...(reading.sinceStart === undefined ? [] : [`${formatDuration(reading.sinceStart)} after start`]),
  ].join(', ');
}

export function costWords(cost: Cost): string {
  const money = (value: number): string => formatNumber(value, { significant: 2 });
  return `about ${money(cost.low)} to ${money(cost.high)} ${cost.currency} with labour (${cost.status})`;
}

/** Words, with the first letter large. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Words, with the first letter small unless they begin with a shorthand such as "AC". */
export const lower = (text: string): string =>
  /^[A-Z][^A-Z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

/** A part inside a sentence: "charge cable". */
export const named = ({ description }: { readonly description: BoatDescription }, part: string): string =>
  lower(partWords(description, part));

/** What was put right, from the ids of placed faults: "belt broken or gone (alternator belt)". */
export const repairsWords = (
  about: { readonly description: BoatDescription },
  repairs: readonly string[],
): string =>
  repairs
    .map((id) => {
      const [fault = '', part] = id.split('@');
      const { words } = faultById(fault);
      return `${lower(words)}${part === undefined ? '' : ` (${named(about, part)})`}`;
    })
    .join('; ');
