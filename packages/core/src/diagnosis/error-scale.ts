/** The scale in which the error of a reading is the same wherever the truth lies.
 *    σ(x)² = a² + b²·x²      g(x) = asinh(b·x / a) / b      g'(x) = 1 / σ(x);      b → 0: g(x) = x / a
 *  x reading [its unit]  a error at zero  b error as a share, of meter and model together
 *  A drop of 0.3 V expected within 15 % rules out 1.2 V; the error taken at the 1.2 V that was read would not. The inference
 *  engine gets such numbers on this scale; everything shown is taken back to the unit.
 *  Source: [BARTLETT1947] (variance-stabilising transformations).
 */
import type { CheckOutcome } from '../checks/index.ts';

type NumberOutcome = Extract<CheckOutcome, { kind: 'number' }>;

export interface ErrorScale {
  readonly to: (value: number) => number;
  readonly from: (scaled: number) => number;
  /** g' at a value: multiplies an error in the unit. */
  readonly slope: (value: number) => number;
}

const known = new WeakMap<NumberOutcome, ErrorScale>();

/** The scale of a number. Where the error hardly grows over the range, the unit itself. Asked for by the hundred thousand: kept. */
export function errorScaleOf(outcome: NumberOutcome): ErrorScale {
  let scale = known.get(outcome);
  if (scale === undefined) {
    scale = scaleFrom(outcome);
    known.set(outcome, scale);
  }
  return scale;
}

function scaleFrom(outcome: NumberOutcome): ErrorScale {
  const farthest = Math.max(Math.abs(outcome.range[0]), Math.abs(outcome.range[1]));
  const error = (value: number): number => Math.hypot(outcome.meterSigma(value), outcome.modelSigma(value));
  const floor = error(0);
  const far = error(farthest);
  if (far < 1.5 * floor) return inItsUnit;
  const share = Math.sqrt(far * far - floor * floor) / farthest;
  const ratio = share / floor;
  return {
    to: (value) => Math.asinh(ratio * value) / share,
    from: (scaled) => Math.sinh(share * scaled) / ratio,
    slope: (value) => 1 / Math.hypot(floor, share * value),
  };
}

const inItsUnit: ErrorScale = { to: (value) => value, from: (scaled) => scaled, slope: () => 1 };
