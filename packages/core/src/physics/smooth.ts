/** Smooth stand-ins for max and clamp, so that a Newton solver never meets a kink.
 *    softPlus(x) = max(x, 0) + w · ln(1 + e^(−|x|/w))          above max(x, 0) by at most w · ln 2, at x = 0
 *    softClamp(x) = softPlus(x) − softPlus(x − cap)            between 0 and cap
 *  x and w in one unit (V, A, or a ratio).
 *  Both are increasing and have every derivative; a few widths away from the corner they equal the plain maximum.
 *  Beyond 40 widths they are that maximum: what is left, w · e^−40 = 4e-18 w, is below the last digit of anything added
 *  to it, and the exponential, which is most of the cost, is saved.
 *  The `...Spice` functions give the same laws as ngspice expression text. */

const FLAT = 40;

/** Smooth max(x, 0). HOT: no allocation. */
export function softPlus(x: number, width: number): number {
  if (x > FLAT * width) return x;
  if (x < -FLAT * width) return 0;
  return x > 0 ? x + width * Math.log1p(Math.exp(-x / width)) : width * Math.log1p(Math.exp(x / width));
}

/** d softPlus / dx, the logistic curve, between 0 and 1. HOT: no allocation. */
export function softPlusSlope(x: number, width: number): number {
  if (x > FLAT * width) return 1;
  if (x < -FLAT * width) return 0;
  return 1 / (1 + Math.exp(-x / width));
}

/** Smooth clamp to [0, cap]. HOT: no allocation. */
export function softClamp(x: number, cap: number, width: number): number {
  return softPlus(x, width) - softPlus(x - cap, width);
}

/** d softClamp / dx. HOT: no allocation. */
export function softClampSlope(x: number, cap: number, width: number): number {
  return softPlusSlope(x, width) - softPlusSlope(x - cap, width);
}

/** softPlus as ngspice text. `x` is any ngspice expression. */
export function softPlusSpice(x: string, width: number): string {
  return `(max(${x},0)+${spiceNumber(width)}*ln(1+exp(min(${x},0-(${x}))/${spiceNumber(width)})))`;
}

/** softClamp as ngspice text. */
export function softClampSpice(x: string, cap: number, width: number): string {
  return `(${softPlusSpice(x, width)}-${softPlusSpice(`(${x}-${spiceNumber(cap)})`, width)})`;
}

/** A number as ngspice text, in brackets when negative; all digits kept. */
export function spiceNumber(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`spiceNumber: value = ${value} must be finite`);
  const text = value.toExponential();
  return value < 0 ? `(${text})` : text;
}
