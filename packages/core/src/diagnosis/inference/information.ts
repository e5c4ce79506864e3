/** What a reading not yet taken would tell about the hypotheses.
 *
 *    gain = H(h) − Σ_o P(o) H(h | o) = Σ_o,h P(o, h) ln( P(o | h) / P(o) )   [nat]
 *  Few draws tell hypotheses apart by their own accidents, and the gain they show is too large by about as much as the gain is
 *  too small when each draw is foretold by the others of its hypothesis alone. A number's gain is the mean of both.
 *    foretold: P(o | h) without the draw that o comes from, P(o) in its place
 *  Chances: outcome-table.ts.  Source: [LINDLEY1956]; both errors of one size [AKAIKE1974], to first order in 1/draws
 */
import { spanOf } from './likelihood.ts';
import { defaultSlip, observableAt, widthOf } from './types.ts';
import type { Observable } from './types.ts';
import { outcomeParts, type OutcomePart } from './outcome-parts.ts';
import { answerTable, numberTable, type Candidate, type OutcomeTable } from './outcome-table.ts';
import type { PosteriorSample } from './sample.ts';

/** One outcome, and the chances of the hypotheses after it. `low` and `high` bound a number; `answer` names an answer. */
export interface Outcome {
  readonly answer?: number;
  readonly low?: number;
  readonly high?: number;
  readonly probability: number;
  /** By hypothesis, "nothing fits" last. */
  readonly posterior: Float64Array;
  /** Of a number: what each part of the draws adds to the outcome, and what the others say of it. */
  readonly parts?: readonly OutcomePart[];
}

export interface CandidateInformation {
  /** Expected information [nat]. */
  readonly gain: number;
  readonly outcomes: readonly Outcome[];
}

/** Expected information of a candidate, and what each outcome would do.
 *  `column`: predictions of its observable for the sample. Draws without a prediction count as "any value".
 *  Errors: RangeError for a numeric candidate whose sigma is not positive */
export function informationOf(
  observables: readonly Observable[],
  sample: PosteriorSample,
  column: Float64Array,
  candidate: Candidate,
): CandidateInformation {
  const observable = observableAt(observables, candidate.observable);
  const table =
    observable.kind === 'categorical'
      ? answerTable(sample, column, widthOf(observable), candidate.slip ?? defaultSlip)
      : numberTable(sample, column, spanOf(observable), observable.low, candidate);
  return { gain: gainOf(table, sample), outcomes: outcomesOf(table, sample, candidate.band) };
}

/** Information for the minutes that it takes; risk adds minutes that the technician would give to be spared it.
 *  Errors: RangeError for minutes that are not positive in sum */
export function gainPerMinute(gain: number, minutes: number, riskMinutes = 0): number {
  if (!(minutes + riskMinutes > 0))
    throw new RangeError(`gainPerMinute: minutes = ${minutes + riskMinutes}, must be above 0`);
  return gain / (minutes + riskMinutes);
}

function gainOf(table: OutcomeTable, sample: PosteriorSample): number {
  const { cells, joint } = table;
  const size = sample.probability.length;
  const byCell = new Float64Array(cells);
  const byHypothesis = new Float64Array(size);
  let whole = 0;
  for (let at = 0; at < joint.length; at++) {
    byCell[Math.floor(at / size)]! += joint[at]!;
    byHypothesis[at % size]! += joint[at]!;
    whole += joint[at]!;
  }
  let gain = 0;
  for (let at = 0; at < joint.length; at++) {
    const p = joint[at]!;
    if (p > 0)
      gain += p * Math.log((p * whole) / (byCell[Math.floor(at / size)]! * byHypothesis[at % size]!));
  }
  const marginal = byCell.map((p) => p / whole);
  return Math.max(0, (gain + foretoldLess(table, sample, marginal) / 2) / whole);
}

/** By how much the gain is less when the draws foretell each other [nat · weight]; below zero. `marginal`: P(o). */
function foretoldLess(
  { cells, joint, byDraw }: OutcomeTable,
  { count, hypothesis, probability }: PosteriorSample,
  marginal: Float64Array,
): number {
  if (byDraw === undefined) return 0;
  const size = probability.length;
  const draws = new Int32Array(size);
  for (const h of hypothesis) draws[h]!++;
  let less = 0;
  for (let i = 0; i < count; i++) {
    const h = hypothesis[i]!;
    // A hypothesis of one draw has nothing else to be foretold by.
    if (draws[h]! < 2) continue;
    const own = byDraw.subarray(i * cells, (i + 1) * cells);
    const weight = own.reduce((sum, p) => sum + p, 0);
    for (let cell = 0; cell < cells; cell++) {
      const p = own[cell]!;
      if (p <= LEAST_SHARE * weight) continue;
      const seen = joint[cell * size + h]!;
      less += p * Math.log((Math.max(0, seen - p) + weight * marginal[cell]!) / seen);
    }
  }
  return less;
}

/** Cells that get less than this share of a draw are left out of what it foretells. */
const LEAST_SHARE = 1e-4;

/** Cells gathered into outcomes: answers as they are, numbers by the band, or into five of about equal chance. */
function outcomesOf(
  table: OutcomeTable,
  sample: PosteriorSample,
  band: readonly [number, number] | undefined,
): Outcome[] {
  const { cells, edges, joint } = table;
  const size = sample.probability.length;
  const whole = joint.reduce((sum, p) => sum + p, 0);
  const outcomes: Outcome[] = [];
  const ends: number[] = [];
  let posterior = new Float64Array(size);
  let first = 0;
  let sum = 0;
  for (let cell = 0; cell < cells; cell++) {
    for (let h = 0; h < size; h++) {
      posterior[h]! += joint[cell * size + h]! / whole;
      sum += joint[cell * size + h]! / whole;
    }
    const isLast = cell === cells - 1;
    const closes =
      edges === undefined ||
      isLast ||
      (band ? band.includes(edges[cell + 1]!) : sum >= (outcomes.length + 1) / 5);
    if (!closes) continue;
    const probability = posterior.reduce((total, p) => total + p, 0);
    const chances = posterior.map((p) => p / Math.max(probability, 1e-300));
    outcomes.push(
      edges === undefined
        ? { answer: cell, probability, posterior: chances }
        : { low: edges[first]!, high: edges[cell + 1]!, probability, posterior: chances },
    );
    ends.push(cell + 1);
    posterior = new Float64Array(size);
    first = cell + 1;
  }
  const parts = outcomeParts(table, sample, ends);
  return parts === undefined ? outcomes : outcomes.map((one, o) => ({ ...one, parts: parts[o]! }));
}
