/** The chances of what a reading not yet taken may show, together with the hypotheses.
 *  A number falls into cells whose edges follow the predictions; within a hypothesis the sampled predictions are smoothed by
 *  a kernel of width 0.9 · min(sd, quartile range / 1.34) · n^(−1/5) on top of the error of the reading, since a few draws
 *  would else seem to tell hypotheses apart by their gaps.
 *  "Nothing fits" predicts any number in the span, any answer alike, or, once read, the earlier value again.
 *  Source: kernel width [SILVERMAN1986, eq. 3.31]
 */
import { normalCumulative } from './normal.ts';
import { errorsOf } from './likelihood.ts';
import { defaultSlip } from './types.ts';
import type { SharedError } from './types.ts';
import type { PosteriorSample } from './sample.ts';

/** A reading that could be taken. Errors as in a reading; an error common with readings already taken is used as such. */
export interface Candidate {
  readonly observable: number;
  readonly sigma?: number;
  readonly discrepancy?: number;
  readonly shared?: readonly SharedError[];
  readonly slip?: number;
  /** Edges by which outcomes are reported: below, within, above. Without it, five outcomes of about equal chance. */
  readonly band?: readonly [number, number];
  /** Where the observable was read before. */
  readonly earlier?: { readonly mean: number; readonly sigma: number };
}

/** Chance of each cell together with each hypothesis. */
export interface OutcomeTable {
  readonly cells: number;
  /** Edges of the cells of a number, cells + 1. */
  readonly edges: Float64Array | undefined;
  /** cells × (hypotheses + 1) */
  readonly joint: Float64Array;
  /** Of a number: draws × cells, what each draw adds to its hypothesis. */
  readonly byDraw: Float64Array | undefined;
}

/** Of an answer in words. */
export function answerTable(
  sample: PosteriorSample,
  column: Float64Array,
  width: number,
  slip: number,
): OutcomeTable {
  const size = sample.probability.length;
  const joint = new Float64Array(width * size);
  for (let i = 0; i < sample.count; i++) {
    const h = sample.hypothesis[i]!;
    for (let o = 0; o < width; o++) {
      const p = column[i * width + o]!;
      joint[o * size + h]! += sample.weights[i]! * ((1 - slip) * (p === p ? p : 1 / width) + slip / width);
    }
  }
  for (let o = 0; o < width; o++) joint[o * size + size - 1] = sample.probability[size - 1]! / width;
  return { cells: width, edges: undefined, joint, byDraw: undefined };
}

/** Of a number.
 *  Errors: RangeError for a sigma that is not positive */
export function numberTable(
  sample: PosteriorSample,
  column: Float64Array,
  span: number,
  low: number,
  candidate: Candidate,
): OutcomeTable {
  const { count, hypothesis, weights, probability } = sample;
  const size = probability.length;
  const slip = candidate.slip ?? defaultSlip;
  const { centres, own } = readingsExpected(sample, column, candidate);
  const widths = kernelWidths(sample, centres);
  const sd = widths.map((width) => Math.hypot(own, width));
  const edges = edgesFor(sample, centres, sd, candidate.band);
  const cells = edges.length - 1;
  const joint = new Float64Array(cells * size);
  const byDraw = new Float64Array(count * cells);
  const broad = edges.map((edge) => Math.min(1, Math.max(0, (edge - low) / span)));
  const loose = new Float64Array(size);
  for (let i = 0; i < count; i++) {
    const h = hypothesis[i]!;
    const centre = centres[i]!;
    if (centre !== centre) {
      loose[h]! += weights[i]!;
      continue;
    }
    loose[h]! += slip * weights[i]!;
    const weight = (1 - slip) * weights[i]!;
    let before = 0;
    for (let cell = 0; cell < cells && before < 1; cell++) {
      const z = (edges[cell + 1]! - centre) / sd[i]!;
      if (z < -6) continue;
      const after = z > 6 ? 1 : normalCumulative(z);
      byDraw[i * cells + cell] = weight * (after - before);
      joint[cell * size + h]! += byDraw[i * cells + cell]!;
      before = after;
    }
  }
  const nothing = size - 1;
  const { earlier } = candidate;
  for (let cell = 0; cell < cells; cell++) {
    const share = broad[cell + 1]! - broad[cell]!;
    for (let h = 0; h < nothing; h++) joint[cell * size + h]! += loose[h]! * share;
    let p = share;
    if (earlier) {
      const wide = Math.hypot(own, earlier.sigma);
      const near =
        normalCumulative((edges[cell + 1]! - earlier.mean) / wide) -
        normalCumulative((edges[cell]! - earlier.mean) / wide);
      p = (1 - slip) * near + slip * share;
    }
    joint[cell * size + nothing] = probability[nothing]! * p;
  }
  return { cells, edges, joint, byDraw };
}

/** Reading expected for each draw, with the common errors known by then, and the sigma of what is left. */
function readingsExpected(
  sample: PosteriorSample,
  column: Float64Array,
  candidate: Candidate,
): { centres: Float64Array; own: number } {
  const sigma = candidate.sigma ?? 0;
  if (!(sigma > 0)) throw new RangeError(`informationOf: sigma = ${sigma}, must be above 0`);
  let variance = sigma * sigma;
  const centres = Float64Array.from(column);
  const parts = errorsOf({ kind: 'numeric', value: 0, ...candidate, sigma });
  for (const part of parts) {
    const at = sample.common.indexOf(part.group);
    if (at < 0) variance += part.sigma * part.sigma;
    else {
      const place = sample.rowLength - sample.common.length + at;
      for (let i = 0; i < centres.length; i++)
        centres[i]! += part.sigma * sample.rows[i * sample.rowLength + place]!;
    }
  }
  return { centres, own: Math.sqrt(variance) };
}

/** Kernel width of each draw: one per hypothesis. Draws of a hypothesis stand together in a sample. */
function kernelWidths(sample: PosteriorSample, centres: Float64Array): Float64Array {
  const widths = new Float64Array(sample.count);
  for (let from = 0; from < sample.count;) {
    let to = from;
    while (to < sample.count && sample.hypothesis[to] === sample.hypothesis[from]) to++;
    const values = centres
      .slice(from, to)
      .filter((x) => x === x)
      .sort();
    const n = values.length;
    const mean = values.reduce((sum, x) => sum + x, 0) / n;
    const sd = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / Math.max(1, n - 1));
    const range =
      n > 1 ? (values[Math.floor(0.75 * (n - 1))]! - values[Math.floor(0.25 * (n - 1))]!) / 1.34 : 0;
    widths.fill(n > 1 ? 0.9 * Math.min(sd, range) * n ** -0.2 : 0, from, to);
    from = to;
  }
  return widths;
}

/** Edges at equal steps of the chance of the reading, the ends open; the edges of the band are among them. */
function edgesFor(
  sample: PosteriorSample,
  centres: Float64Array,
  sd: Float64Array,
  band: readonly [number, number] | undefined,
): Float64Array {
  const points: { x: number; weight: number }[] = [];
  for (let i = 0; i < sample.count; i++) {
    const centre = centres[i]!;
    if (centre === centre)
      for (const step of nodes) points.push({ x: centre + step * sd[i]!, weight: sample.weights[i]! });
  }
  points.sort((a, b) => a.x - b.x);
  const whole = points.reduce((sum, { weight }) => sum + weight, 0);
  const edges: number[] = [-Infinity, ...(band ?? [])];
  let sum = 0;
  let next = 0.5;
  for (const { x, weight } of points) {
    sum += weight;
    if (sum >= (next / cellsWanted) * whole) {
      edges.push(x);
      next = Math.floor((sum / whole) * cellsWanted) + 1.5;
    }
  }
  edges.push(Infinity);
  return Float64Array.from(new Set(edges)).sort();
}

/** Places of the edges within one prediction, in sigmas: the quintile middles of a normal. */
const nodes = [-1.6, -0.7, 0, 0.7, 1.6];
const cellsWanted = 40;
