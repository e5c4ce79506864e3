/** What each part of the draws adds to an outcome, and what the others say of it: whoever judges a choice by the draws that made it
 *  praises it too much.
 *    others = (joint − own) · P(h) / (P(h) − P(h, part))      the hypotheses keep their chances
 */
import type { OutcomeTable } from './outcome-table.ts';
import type { PosteriorSample } from './sample.ts';

/** Chances by hypothesis, "nothing fits" last, together with the outcome. */
export interface OutcomePart {
  readonly own: Float64Array;
  readonly others: Float64Array;
}

/** Draws of each hypothesis are dealt out into so many parts. */
const PARTS = 4;

/** By outcome, then by part; undefined for answers in words, whose chances are mixed and not smoothed.
 *  `ends`: of each outcome the cell after its last. */
export function outcomeParts(
  { byDraw, cells, joint }: OutcomeTable,
  { count, hypothesis, probability }: PosteriorSample,
  ends: readonly number[],
): OutcomePart[][] | undefined {
  if (byDraw === undefined) return undefined;
  const size = probability.length;
  const inside = ends.map((end, o) => {
    const sums = new Float64Array(size);
    for (let at = (ends[o - 1] ?? 0) * size; at < end * size; at++) sums[at % size]! += joint[at]!;
    return sums;
  });
  const own = ends.map(() => Array.from({ length: PARTS }, () => new Float64Array(size)));
  const rest = inside.map((sums) => sums.slice());
  const dealt = new Int32Array(size);
  for (let i = 0; i < count; i++) {
    const h = hypothesis[i]!;
    const part = dealt[h]!++ % PARTS;
    for (let o = 0, cell = 0; o < ends.length; o++) {
      let sum = 0;
      for (; cell < ends[o]!; cell++) sum += byDraw[i * cells + cell]!;
      own[o]![part]![h]! += sum;
      rest[o]![h]! -= sum;
    }
  }
  // Slips and draws without a prediction belong to no draw.
  own.forEach((parts, o) =>
    parts.forEach((sums) => rest[o]!.forEach((left, h) => (sums[h]! += Math.max(0, left) / PARTS))),
  );
  const total = sumOf(inside, size);
  const whole = total.reduce((sum, p) => sum + p, 0);
  const shares = inside.map((sums) => sums.reduce((sum, p) => sum + p, 0) / whole);
  const totals = Array.from({ length: PARTS }, (_, part) =>
    sumOf(
      own.map((parts) => parts[part]!),
      size,
    ),
  );
  return own.map((parts, o) =>
    parts.map((sums, part) => ({
      own: sums.map((p) => p / whole),
      others: sums.map((p, h) => {
        const left = total[h]! - totals[part]![h]!;
        // A hypothesis that this part holds alone has nothing else to be foretold by.
        if (!(left > LEAST_LEFT * total[h]!)) return (shares[o]! * total[h]!) / whole;
        return (Math.max(0, inside[o]![h]! - p) * total[h]!) / (left * whole);
      }),
    })),
  );
}

const LEAST_LEFT = 0.1;

function sumOf(rows: readonly Float64Array[], size: number): Float64Array {
  const sums = new Float64Array(size);
  for (const row of rows) for (let h = 0; h < size; h++) sums[h]! += row[h]!;
  return sums;
}
