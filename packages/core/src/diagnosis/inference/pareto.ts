/** Tail shape k of importance weights, and other numbers that say how far a weighted sample can be trusted. */

/** Shape k of a generalised Pareto fitted to the largest weights.
 *    tail length M = min(n/5, 3√n);  estimator of Zhang and Stephens with the weak prior of Vehtari and others
 *  Below 0.5 the error behaves as usual; above 0.7 the estimate must not be trusted.
 *  Source: [ZHANG2009], [VEHTARI2024, appendix C]   Returns 0 when all weights are alike, Infinity for fewer than 20. */
export function tailShape(logWeights: Float64Array): number {
  const n = logWeights.length;
  const tail = Math.floor(Math.min(0.2 * n, 3 * Math.sqrt(n)));
  if (tail < 5) return Infinity;
  const sorted = Float64Array.from(logWeights).sort();
  const top = sorted[n - 1]!;
  if (top === -Infinity) return Infinity;
  const cut = Math.exp(sorted[n - tail - 1]! - top);
  const excess = new Float64Array(tail);
  for (let i = 0; i < tail; i++) excess[i] = Math.exp(sorted[n - tail + i]! - top) - cut;
  const largest = excess[tail - 1]!;
  if (!(largest > 1e-10)) return 0;
  const quartile = Math.max(excess[Math.max(0, Math.floor(tail / 4 + 0.5) - 1)]!, 1e-12 * largest);
  const grid = 20 + Math.floor(Math.sqrt(tail));
  const b = new Float64Array(grid);
  const likelihood = new Float64Array(grid);
  for (let j = 0; j < grid; j++) {
    b[j] = 1 / largest + (1 - Math.sqrt(grid / (j + 0.5))) / (3 * quartile);
    const k = shapeFor(excess, b[j]!);
    likelihood[j] = tail * (Math.log(-b[j]! / k) - k - 1);
  }
  let mean = 0;
  for (let j = 0; j < grid; j++) {
    let sum = 0;
    for (let i = 0; i < grid; i++) sum += Math.exp(likelihood[i]! - likelihood[j]!);
    if (sum > 0 && Number.isFinite(sum)) mean += b[j]! / sum;
  }
  const shape = shapeFor(excess, mean);
  return (shape * tail + 5) / (tail + 10);
}

function shapeFor(excess: Float64Array, b: number): number {
  let sum = 0;
  for (let i = 0; i < excess.length; i++) sum += Math.log1p(-b * excess[i]!);
  return sum / excess.length;
}

/** log Σ exp(x). */
export function logSum(values: Float64Array): number {
  const top = largestOf(values);
  if (top === -Infinity) return -Infinity;
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += Math.exp(values[i]! - top);
  return top + Math.log(sum);
}

/** The largest entry; −Infinity for none. */
export function largestOf(values: Float64Array): number {
  let top = -Infinity;
  for (let i = 0; i < values.length; i++) if (values[i]! > top) top = values[i]!;
  return top;
}
