/** Reads an answer with kindness: a number in any unit of its dimension, text such as "13.4 V", yes and no. */
import { parseQuantity, toSI } from '@ampwright/core';
import type { PlacedCheck, Reading } from '@ampwright/core';
import { isPlausible, outcomeWords, shown } from '@ampwright/jobs';

export interface Given {
  readonly value?: number | string | null | undefined;
  readonly unit?: string | null | undefined;
  readonly answer?: string | boolean | null | undefined;
  readonly cannot?: boolean | null | undefined;
  readonly engine_rpm?: number | null | undefined;
  readonly seconds_since_start?: number | null | undefined;
  readonly meter?: string | null | undefined;
}

export type ReadAnswer =
  | { readonly kind: 'ok'; readonly reading: Reading }
  | {
      readonly kind: 'unknown-unit' | 'unknown-answer' | 'wrong-outcome' | 'implausible-reading';
      readonly message: string;
      readonly allowed: string;
    };

/** The reading that an answer to a check means, or why it means none. */
export function readAnswer(check: PlacedCheck, given: Given): ReadAnswer {
  const outcome = outcomeOf(check, given);
  if (outcome.kind !== 'ok') return outcome;
  return {
    kind: 'ok',
    reading: {
      id: check.id,
      check: check.id,
      outcome: outcome.outcome,
      ...(isSpeed(given.engine_rpm) ? { engineSpeed: (given.engine_rpm * Math.PI) / 30 } : {}),
      ...(isTime(given.seconds_since_start) ? { sinceStart: given.seconds_since_start } : {}),
      ...(typeof given.meter === 'string' ? { meter: given.meter } : {}),
    },
  };
}

type OutcomeRead =
  { readonly kind: 'ok'; readonly outcome: Reading['outcome'] } | Exclude<ReadAnswer, { kind: 'ok' }>;

function outcomeOf(check: PlacedCheck, given: Given): OutcomeRead {
  if (given.cannot === true) return { kind: 'ok', outcome: { kind: 'could-not' } };
  return check.outcome.kind === 'number' ? numberOf(check, given) : answerOf(check, given);
}

function numberOf(check: PlacedCheck, given: Given): OutcomeRead {
  const { outcome } = check;
  if (outcome.kind !== 'number') throw new RangeError(`numberOf: check ${check.id} asks for an answer`);
  const allowed = outcomeWords(check);
  const said = given.value ?? undefined;
  if (said === undefined) {
    return { kind: 'wrong-outcome', message: `${check.id} wants a value`, allowed: `${allowed}, or cannot` };
  }
  const unit = given.unit ?? outcome.unit;
  const result =
    typeof said === 'number'
      ? toSI({ value: said, unit }, outcome.dimension)
      : fromText(said, given.unit ?? undefined, outcome.dimension, outcome.unit);
  if (result.kind === 'unknown-unit') {
    const units = result.allowed.join(', ');
    return { kind: 'unknown-unit', message: `Unknown unit ${shown(result.unit)}`, allowed: units };
  }
  if (result.kind !== 'ok') {
    return {
      kind: 'implausible-reading',
      message: `${shown(said)} is no number that can be read`,
      allowed,
    };
  }
  // An ohmmeter on an open winding shows nothing, and people write any large number for it.
  const value = outcome.dimension === 'resistance' ? Math.min(result.value, outcome.range[1]) : result.value;
  if (!isPlausible(value, outcome.range)) {
    return {
      kind: 'implausible-reading',
      message: `${shown(said)} ${unit} cannot be`,
      allowed,
    };
  }
  return { kind: 'ok', outcome: { kind: 'number', value } };
}

/** A number in text; its own unit counts before the one beside it. */
function fromText(
  text: string,
  beside: string | undefined,
  dimension: Parameters<typeof toSI>[1],
  unit: string,
): ReturnType<typeof toSI> | { readonly kind: 'not-a-number' } {
  const known = beside === undefined ? undefined : toSI({ value: 1, unit: beside }, dimension);
  if (known?.kind === 'unknown-unit') return known;
  const parsed = parseQuantity(text.slice(0, 60), dimension, beside ?? unit);
  if (parsed.kind === 'ambiguous' || parsed.kind === 'not-a-number') return { kind: 'not-a-number' };
  return parsed.kind === 'ok' ? { kind: 'ok', value: parsed.value } : parsed;
}

function answerOf(check: PlacedCheck, given: Given): OutcomeRead {
  const { outcome } = check;
  if (outcome.kind !== 'answers') throw new RangeError(`answerOf: check ${check.id} asks for a number`);
  const allowed = outcomeWords(check);
  const said = given.answer ?? (typeof given.value === 'string' ? given.value : undefined);
  if (said === undefined) {
    return {
      kind: 'wrong-outcome',
      message: `${check.id} wants an answer`,
      allowed: `${allowed}, or cannot`,
    };
  }
  const wanted = typeof said === 'boolean' ? (said ? 'yes' : 'no') : said.trim().toLowerCase();
  const found = outcome.answers.find(
    ({ id, words }) => id.toLowerCase() === wanted || words.toLowerCase() === wanted,
  );
  if (found === undefined)
    return { kind: 'unknown-answer', message: `Unknown answer ${shown(said)}`, allowed };
  return { kind: 'ok', outcome: { kind: 'answer', answer: found.id } };
}

const isSpeed = (value: unknown): value is number => typeof value === 'number' && value >= 0 && value <= 8000;
const isTime = (value: unknown): value is number =>
  typeof value === 'number' && value >= 0 && value <= 172_800;
