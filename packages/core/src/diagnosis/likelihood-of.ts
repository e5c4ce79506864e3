/** Likelihood of one reading for one prediction, as the inference engine weighs it, common errors counted as own. */
import { errorScaleOf } from './error-scale.ts';
import { defaultSlip, tailChance } from './inference/index.ts';
import type { Joined } from './readings-as-evidence.ts';

/** p(reading | prediction): `column` holds predictions, `draw` the row. Slips included. */
export function readingLikelihood(joined: Joined, column: ArrayLike<number>, draw: number): number {
  const { evidence, check } = joined;
  if (evidence.kind === 'categorical') {
    const width = check.outcome.kind === 'answers' ? check.outcome.answers.length : 1;
    const slip = evidence.slip ?? defaultSlip;
    return (1 - slip) * (column[draw * width + evidence.outcome] ?? 0) + slip / width;
  }
  const broad = 1 / spanOf(check);
  const prediction = column[draw] ?? NaN;
  if (!Number.isFinite(prediction)) return broad;
  return (1 - defaultSlip) * density(joined, prediction) + defaultSlip * broad;
}

/** Share of the likelihood that comes from a slip of the hand. */
export function slipShare(joined: Joined, column: ArrayLike<number>, draw: number): number {
  const { evidence, check } = joined;
  if (evidence.kind === 'categorical') {
    const width = check.outcome.kind === 'answers' ? check.outcome.answers.length : 1;
    return (evidence.slip ?? defaultSlip) / width / readingLikelihood(joined, column, draw);
  }
  return defaultSlip / spanOf(check) / readingLikelihood(joined, column, draw);
}

/** Span of a number on its error scale. */
function spanOf({ outcome }: Joined['check']): number {
  if (outcome.kind !== 'number') return 1;
  const { to } = errorScaleOf(outcome);
  return to(outcome.range[1]) - to(outcome.range[0]);
}

/** Density of a number about its prediction, tail and all. */
function density({ evidence }: Joined, prediction: number): number {
  if (evidence.kind !== 'numeric') return 0;
  const shared = (evidence.shared ?? []).reduce((sum, one) => sum + one.sigma ** 2, 0);
  const sigma = Math.sqrt(evidence.sigma ** 2 + (evidence.discrepancy ?? 0) ** 2 + shared);
  const gap = evidence.value - prediction;
  const { tail = 0 } = evidence;
  if (tail === 0) return normalDensity(gap, sigma);
  return (
    (1 - tailChance) * normalDensity(gap, sigma) + tailChance * normalDensity(gap, Math.hypot(sigma, tail))
  );
}

function normalDensity(gap: number, sigma: number): number {
  const z = gap / sigma;
  return Math.exp(-0.5 * z * z) / (sigma * Math.sqrt(2 * Math.PI));
}
