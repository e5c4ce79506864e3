/** The standard normal distribution: density, cumulative, quantile. */

export const logRootTwoPi = 0.5 * Math.log(2 * Math.PI);

/** Log density of N(0, sd²) at x. */
export function normalLogDensity(x: number, sd: number): number {
  const z = x / sd;
  return -0.5 * z * z - Math.log(sd) - logRootTwoPi;
}

/** Chance that a standard normal lies below x.
 *    Φ(x) by a rational function for |x| < 7.07, a continued fraction beyond
 *  Source: [HART1968] as given in [WEST2005] (from memory)   Valid: all x, absolute error about 1e-15 */
export function normalCumulative(x: number): number {
  const size = Math.abs(x);
  if (size > 37) return x > 0 ? 1 : 0;
  const bell = Math.exp(-0.5 * size * size);
  let tail: number;
  if (size < 7.07106781186547) {
    let upper = 3.52624965998911e-2 * size + 0.700383064443688;
    upper = upper * size + 6.37396220353165;
    upper = upper * size + 33.912866078383;
    upper = upper * size + 112.079291497871;
    upper = upper * size + 221.213596169931;
    upper = upper * size + 220.206867912376;
    let lower = 8.83883476483184e-2 * size + 1.75566716318264;
    lower = lower * size + 16.064177579207;
    lower = lower * size + 86.7807322029461;
    lower = lower * size + 296.564248779674;
    lower = lower * size + 637.333633378831;
    lower = lower * size + 793.826512519948;
    lower = lower * size + 440.413735824752;
    tail = (bell * upper) / lower;
  } else {
    const fraction = size + 1 / (size + 2 / (size + 3 / (size + 4 / (size + 0.65))));
    tail = bell / (fraction * 2.506628274631);
  }
  return x > 0 ? 1 - tail : tail;
}

/** The number below which a standard normal lies with chance p.
 *  Source: [WICHURA1988, algorithm AS 241, PPND16] (from memory)   Valid: 0 < p < 1, relative error about 1e-15
 *  Errors: RangeError outside 0 < p < 1 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`normalQuantile: p = ${p} is outside 0 < p < 1`);
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(centreUpper, r)) / polynomial(centreLower, r);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const size =
    r <= 5
      ? polynomial(middleUpper, r - 1.6) / polynomial(middleLower, r - 1.6)
      : polynomial(tailUpper, r - 5) / polynomial(tailLower, r - 5);
  return q < 0 ? -size : size;
}

function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!;
  return sum;
}

const centreUpper = [
  3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
  45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
];
const centreLower = [
  1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867,
  39307.89580009271061, 28729.085735721942674, 5226.495278852854561,
];
const middleUpper = [
  1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504,
  1.27045825245236838258, 0.24178072517745061177, 0.0227238449892691845833, 7.7454501427834140764e-4,
];
const middleLower = [
  1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459,
  0.0151986665636164571966, 5.475938084995344946e-4, 1.05075007164441684324e-9,
];
const tailUpper = [
  6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123,
  0.026532189526576123093, 0.0012426609473880784386, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
];
const tailLower = [
  1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525, 7.868691311456132591e-4,
  1.8463183175100546818e-5, 1.4215117583164458887e-7, 2.04426310338993978564e-15,
];
