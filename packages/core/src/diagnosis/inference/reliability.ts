/** How far the draws of a hypothesis can be trusted. */
import { largestOf, logSum, tailShape } from './pareto.ts';
import type { EvidenceOptions, EvidenceState } from './evidence-state.ts';

/** What the draws say, and how far that can be trusted. */
export interface EvidenceReliability {
  readonly standardError: number;
  readonly effectiveDraws: number;
  readonly tailShape: number;
  /** Draws kept. */
  readonly draws: number;
  /** Rounds since the last reading. */
  readonly rounds: number;
}

/** log Z of the hypothesis. */
export function logEvidenceOf(state: EvidenceState): number {
  return logSum(logWeightsOf(state));
}

/** Log weights, scaled so that their sum is the evidence. */
export function logWeightsOf({
  count,
  logLikelihood,
  mixture,
  kept,
}: Pick<EvidenceState, 'count' | 'logLikelihood' | 'mixture' | 'kept'>): Float64Array {
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) weights[i] = logLikelihood[i]! - Math.log(mixture[i]! * kept[i]!);
  return weights;
}

/** By how much the linear model of the prior draws foresees more evidence than was found, before any round was made for
 *  these readings [nat]: all draws may sit where a reading is taken for a slip, and miss the narrow place that fits it. */
export function missedBy(state: EvidenceState): number {
  return state.rounds > 0 ? 0 : Math.max(0, state.foreseen - logEvidenceOf(state) - foreseenSlack);
}

/** The linear model's own estimate is this rough [nat]. Estimate. */
const foreseenSlack = 0.3;

/** Standard error of log Z (within the parts of the mixture; at least what was missed), effective draws and tail shape. */
export function reliabilityOf(state: EvidenceState): EvidenceReliability {
  const logWeights = logWeightsOf(state);
  return {
    ...errorOf(state, logWeights),
    tailShape: tailShape(logWeights),
    draws: state.count,
    rounds: state.rounds,
  };
}

/** The heaviest tail of the weights with which an estimate may be trusted; source as in `tailShape`. */
export const lightTail = 0.7;

/** True when the evidence is as reliable as wanted. The cheap criteria come first. */
export function isReliable(
  state: EvidenceState,
  options: EvidenceOptions,
  wantedError = options.wantedError,
  heaviestTail = lightTail,
): boolean {
  const logWeights = logWeightsOf(state);
  const { standardError, effectiveDraws: effective } = errorOf(state, logWeights);
  const enough = Math.min(
    options.wantedEffective,
    (options.wantedEffective * options.wantedError) / wantedError,
  );
  return standardError <= wantedError && effective >= enough && tailShape(logWeights) <= heaviestTail;
}

function errorOf(
  state: EvidenceState,
  logWeights: Float64Array,
): { standardError: number; effectiveDraws: number } {
  const top = largestOf(logWeights);
  if (top === -Infinity) return { standardError: Infinity, effectiveDraws: 0 };
  const parts = state.components.length + 1;
  const sum = new Float64Array(parts);
  const squares = new Float64Array(parts);
  for (let i = 0; i < state.count; i++) {
    const w = Math.exp(logWeights[i]! - top);
    const part = state.source[i]!;
    sum[part]! += w;
    squares[part]! += w * w;
  }
  let [variance, total, square] = [0, 0, 0];
  for (let part = 0; part < parts; part++) {
    const n = part === 0 ? state.cache.draws : state.components[part - 1]!.draws;
    variance += (squares[part]! - (sum[part]! * sum[part]!) / n) * (n / Math.max(1, n - 1));
    total += sum[part]!;
    square += squares[part]!;
  }
  const sampling = Math.sqrt(Math.max(0, variance)) / total;
  return { standardError: Math.max(sampling, missedBy(state)), effectiveDraws: (total * total) / square };
}
