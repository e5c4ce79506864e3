/** Where a figure comes from and how surely it was seen, and the shape of every answer of this folder.
 *  Screen and report print all of it: inputs, formula, source, edition, how seen, margin. */
import type { Dimension } from '../units/index.ts';

/** S the source itself was read · S2 second-hand · D derived by arithmetic · M from memory · C common practice. */
export type SeenMark = 'S' | 'S2' | 'D' | 'M' | 'C';

export interface Citation {
  /** Id in data/references.json. */
  readonly source: string;
  readonly clause: string;
  readonly edition: string;
  readonly seen: SeenMark;
  readonly confidence?: 'high' | 'medium' | 'low';
  /** What is odd about the figure; to be shown with it. */
  readonly note?: string;
}

export interface AnswerInput {
  readonly name: string;
  /** SI. */
  readonly value: number;
  readonly dimension: Dimension;
}

/** One computed or looked-up figure with its whole story. */
export interface Answer {
  readonly name: string;
  /** SI. */
  readonly value: number;
  readonly dimension: Dimension;
  readonly formula: string;
  readonly inputs: readonly AnswerInput[];
  readonly citation: Citation;
  /** Spare share of the limit, (limit − actual) / limit; negative beyond it. Undefined where nothing is compared. */
  readonly margin?: number;
}

/** To stand beside every figure taken from a rule. */
export const checkStandardInForce = 'Check the standard in force where the boat is.';

/** What each mark means, in words for the screen. */
export const seenWords: Readonly<Record<SeenMark, string>> = {
  S: 'read in the source',
  S2: 'known second-hand',
  D: 'worked out from other figures',
  M: 'from memory, not seen: verify',
  C: 'common practice, no standard',
};

const MARKS: readonly string[] = ['S', 'S2', 'D', 'M', 'C'];
const CONFIDENCES: readonly string[] = ['high', 'medium', 'low'];

/** The part of a data table that says where it is from. */
export interface CitedTable {
  readonly reference: string;
  readonly clause: string;
  readonly edition: string;
  readonly seen: string;
  readonly confidence?: string;
  readonly note?: string;
}

/** Citation of a data table.  Errors: RangeError for a mark or confidence that does not exist */
export function citationOf(table: CitedTable): Citation {
  const { reference, clause, edition, seen, confidence, note } = table;
  if (!MARKS.includes(seen))
    throw new RangeError(`citationOf: seen "${seen}" of ${reference} is not one of ${MARKS.join(', ')}`);
  if (confidence !== undefined && !CONFIDENCES.includes(confidence))
    throw new RangeError(
      `citationOf: confidence "${confidence}" of ${reference} is not one of ${CONFIDENCES.join(', ')}`,
    );
  return {
    source: reference,
    clause,
    edition,
    seen: seen as SeenMark,
    ...(confidence === undefined ? {} : { confidence: confidence as 'high' | 'medium' | 'low' }),
    ...(note === undefined ? {} : { note }),
  };
}

/** Throws when a number is not above zero (or not at least zero).
 *  Errors: RangeError naming function, argument, value, unit and range */
export function requireNumber(
  where: string,
  argument: string,
  value: number,
  unit: string,
  range: 'positive' | 'not negative',
): void {
  const good = Number.isFinite(value) && (range === 'positive' ? value > 0 : value >= 0);
  if (!good) throw new RangeError(`${where}: ${argument} ${value} ${unit} must be a finite number, ${range}`);
}
