/** Log evidence and posterior draws of one hypothesis, by adaptive importance sampling.
 *
 *    round 0   draws from the prior; their predictions are kept from reading to reading
 *    round r   draws from normals found by statistical linearisation of all draws so far
 *    weight    w = L(u) π(u) / Σ_c (n_c / n) q_c(u)   (deterministic mixture, the prior being one part)
 *    evidence  Z = Σ w / n
 *  L likelihood  π prior  q_c density of part c, from which n_c draws came  n all draws
 *  Source: [OWEN2000] (deterministic mixture), [BUGALLO2017] (adaptive importance sampling)
 *  Leaves out: proposals depend on earlier draws, which gives a bias of the order of the squared relative error.
 */
import { commonErrors, fillColumns, priorBatch } from './cache.ts';
import { evenLinearModel, linearModel, proposals } from './linearise.ts';
import { largestOf, logSum, tailShape } from './pareto.ts';
import {
  addDensity,
  appended,
  drawFrom,
  joined,
  logLikelihoodOf,
  negligible,
  splitRows,
  targetsOf,
  temperedWeights,
} from './sampling.ts';
import { linearLogEvidence } from './slips.ts';
import type { Batch, DrawCache } from './cache.ts';
import type { Evidence } from './likelihood.ts';
import type { LinearModel } from './linear-model.ts';
import type { Cloud, Component } from './linearise.ts';

/** How far to refine. */
export interface EvidenceOptions {
  /** Draws of each further round. */
  readonly refineDraws: number;
  readonly maximumRounds: number;
  /** Rounds allowed to a hypothesis of at least the chance `leaderFrom`: an error there is an error of the verdict. */
  readonly leaderRounds: number;
  readonly leaderFrom: number;
  /** Rounds end when the standard error of the log evidence is below this, the tail is light, and enough draws are effective.
   *  For a hypothesis of chance p below 0.1 the wanted error is a tenth of this over p, at most 0.5. */
  readonly wantedError: number;
  readonly wantedEffective: number;
}

export const defaultEvidenceOptions: EvidenceOptions = {
  refineDraws: 128,
  maximumRounds: 4,
  leaderRounds: 4,
  leaderFrom: 1,
  wantedError: 0.1,
  wantedEffective: 60,
};

/** Work in progress on one hypothesis. */
export interface EvidenceState {
  readonly cache: DrawCache;
  readonly hypothesis: number;
  readonly evidence: Evidence;
  readonly batches: readonly Batch[];
  readonly count: number;
  /** Unknowns and common errors, row by row. */
  readonly rows: Float64Array;
  readonly logLikelihood: Float64Array;
  /** Σ_c n_c q_c / π */
  readonly mixture: Float64Array;
  /** Part from which each draw came, 0 for the prior. */
  readonly source: Int32Array;
  readonly components: readonly { readonly component: Component; readonly draws: number }[];
  readonly rounds: number;
  /** Length of a row. */
  readonly width: number;
  /** Linear model of the last round, and the log evidence that the first one foresees. */
  readonly linear: LinearModel;
  readonly foreseen: number;
  /** First normal of the last round. */
  readonly lead: Component | undefined;
}

/** What the draws say, and how far that can be trusted. */
export interface EvidenceReliability {
  readonly standardError: number;
  readonly effectiveDraws: number;
  readonly tailShape: number;
  readonly draws: number;
  readonly rounds: number;
}

/** Posterior draws of one hypothesis. */
export interface WeightedDraws {
  readonly count: number;
  readonly dimensions: number;
  /** Unknowns followed by common errors, row by row. */
  readonly rows: Float64Array;
  readonly rowLength: number;
  /** Sum 1. */
  readonly weights: Float64Array;
  /** Predictions of an observable that was read, draw by draw; empty for any other. */
  readonly columnOf: (observable: number) => Float64Array;
}

/** Round 0: draws from the prior, and the linear model that fits them. */
export function startEvidence(cache: DrawCache, hypothesis: number, evidence: Evidence): EvidenceState {
  const batch = priorBatch(cache, hypothesis, evidence.wanted);
  const count = batch.count;
  const errors = commonErrors(cache, evidence.common, count, 0);
  const rows = joined(batch.u, errors, count, cache.model.dimensions, evidence.common.length);
  const logLikelihood = logLikelihoodOf(evidence, batch, errors);
  const width = cache.model.dimensions + evidence.common.length;
  const even = new Float64Array(count).fill(1 / count);
  const cloud = cloudOf(cache, evidence, [batch], rows, width, even, count);
  const linear = evenLinearModel(evidence.readings, cloud, cache.scatter);
  const answers = { ...evidence, readings: evidence.readings.filter(({ form }) => form !== 'number') };
  const answered = logSum(logLikelihoodOf(answers, batch, errors)) - Math.log(count);
  return {
    cache,
    hypothesis,
    evidence,
    batches: [batch],
    count,
    rows,
    logLikelihood,
    mixture: new Float64Array(count).fill(count),
    source: new Int32Array(count),
    components: [],
    rounds: 0,
    width,
    linear,
    foreseen: answered + linearLogEvidence(linear),
    lead: undefined,
  };
}

/** One more round: new normals, new draws from them, all draws weighed anew. */
export function refinedEvidence(
  state: EvidenceState,
  options: EvidenceOptions = defaultEvidenceOptions,
): EvidenceState {
  const { cache, evidence } = state;
  const linear = state.lead === undefined ? state.linear : relinearised(state, state.lead);
  const round = state.rounds + 1;
  // Multiples of eight keep the number of different draw tables small.
  const fresh = proposals(linear).map((component) => ({
    component,
    draws: Math.max(8, 8 * Math.round((component.share * options.refineDraws) / 8)),
  }));
  const { width } = state;
  const added = fresh.reduce((sum, { draws }) => sum + draws, 0);
  const newRows = new Float64Array(added * width);
  const source = new Int32Array(state.count + added);
  source.set(state.source);
  let at = 0;
  fresh.forEach(({ component, draws }, index) => {
    drawFrom(cache, component, draws, 16 * round + index, newRows, at, width);
    source.fill(state.components.length + index + 1, state.count + at, state.count + at + draws);
    at += draws;
  });
  const { batch, errors } = splitRows(newRows, added, width, cache.model.dimensions);
  fillColumns(cache, state.hypothesis, batch, evidence.wanted);
  const logLikelihood = appended(state.logLikelihood, logLikelihoodOf(evidence, batch, errors));
  const mixture = appended(state.mixture, new Float64Array(added).fill(cache.draws));
  const rows = appended(state.rows, newRows);
  for (const part of state.components) addDensity(part, rows, width, mixture, state.count);
  for (const part of fresh) addDensity(part, rows, width, mixture, state.count);
  const skip = negligible(logLikelihood, mixture, state.count);
  for (const part of fresh) addDensity(part, rows, width, mixture.subarray(0, state.count), 0, skip);
  return {
    ...state,
    batches: [...state.batches, batch],
    count: state.count + added,
    rows,
    logLikelihood,
    mixture,
    source,
    components: [...state.components, ...fresh],
    rounds: round,
    linear,
    lead: fresh[0]!.component,
  };
}

/** Rounds until the wanted reliability or the most rounds allowed. */
export function convergedEvidence(
  start: EvidenceState,
  options: EvidenceOptions = defaultEvidenceOptions,
): EvidenceState {
  let state = start;
  while (state.rounds < options.maximumRounds && !isReliable(state, options))
    state = refinedEvidence(state, options);
  return state;
}

/** log Z of the hypothesis. */
export function logEvidenceOf(state: EvidenceState): number {
  return logSum(logWeightsOf(state));
}

/** Log weights, scaled so that their sum is the evidence. */
function logWeightsOf(state: EvidenceState): Float64Array {
  const weights = new Float64Array(state.count);
  for (let i = 0; i < state.count; i++) weights[i] = state.logLikelihood[i]! - Math.log(state.mixture[i]!);
  return weights;
}

/** Standard error of log Z (within the parts of the mixture), effective draws and tail shape.
 *  Draws from the prior alone may all sit where readings are taken for slips and miss the narrow place that fits them; so in
 *  round 0 the error is at least what the linear model foresees beyond the estimate. */
export function reliabilityOf(state: EvidenceState): EvidenceReliability {
  const logWeights = logWeightsOf(state);
  return {
    ...errorOf(state, logWeights),
    tailShape: tailShape(logWeights),
    draws: state.count,
    rounds: state.rounds,
  };
}

/** True when the evidence is as reliable as wanted. The cheap criteria come first. */
export function isReliable(
  state: EvidenceState,
  options: EvidenceOptions,
  wantedError = options.wantedError,
): boolean {
  const logWeights = logWeightsOf(state);
  const { standardError, effectiveDraws: effective } = errorOf(state, logWeights);
  const enough = Math.min(
    options.wantedEffective,
    (options.wantedEffective * options.wantedError) / wantedError,
  );
  return standardError <= wantedError && effective >= enough && tailShape(logWeights) <= 0.7;
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
  const size = new Float64Array(parts);
  for (let i = 0; i < state.count; i++) {
    const w = Math.exp(logWeights[i]! - top);
    const part = state.source[i]!;
    sum[part]! += w;
    squares[part]! += w * w;
    size[part]!++;
  }
  let [variance, total, square] = [0, 0, 0];
  for (let part = 0; part < parts; part++) {
    const n = size[part]!;
    variance += (squares[part]! - (sum[part]! * sum[part]!) / n) * (n / Math.max(1, n - 1));
    total += sum[part]!;
    square += squares[part]!;
  }
  const sampling = Math.sqrt(Math.max(0, variance)) / total;
  const missed = state.rounds === 0 ? state.foreseen - (top + Math.log(total)) - foreseenSlack : 0;
  return { standardError: Math.max(sampling, missed), effectiveDraws: (total * total) / square };
}

/** The linear model's own estimate is this rough [nat]. Estimate. */
const foreseenSlack = 0.3;

/** Posterior draws with weights of sum 1. */
export function weightedDraws(state: EvidenceState): WeightedDraws {
  const weights = logWeightsOf(state);
  const whole = logSum(weights);
  for (let i = 0; i < weights.length; i++) weights[i] = Math.exp(weights[i]! - whole);
  const dimensions = state.cache.model.dimensions;
  const columnOf = (observable: number): Float64Array => {
    const parts = state.batches.map((batch) => batch.columns.get(observable) ?? new Float64Array());
    const column = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
    let at = 0;
    for (const part of parts) {
      column.set(part, at);
      at += part.length;
    }
    return column;
  };
  return { count: state.count, dimensions, rows: state.rows, rowLength: state.width, weights, columnOf };
}

/** The linear model of all draws so far, weighed by the posterior, or by a power of it where too few draws carry weight. */
function relinearised(state: EvidenceState, component: Component): LinearModel {
  const { cache, evidence, batches, rows, width } = state;
  const wanted = Math.max(40, 2 * (cache.model.dimensions + 1));
  const { weights, effective } = temperedWeights(logWeightsOf(state), wanted);
  const cloud = cloudOf(cache, evidence, batches, rows, width, weights, effective);
  return linearModel(evidence.readings, cloud, { model: state.linear, component });
}

function cloudOf(
  cache: DrawCache,
  evidence: Evidence,
  batches: readonly Batch[],
  rows: Float64Array,
  dimensions: number,
  weights: Float64Array,
  effective: number,
): Cloud {
  const predictive = cache.model.dimensions;
  const targets = targetsOf(evidence, batches, rows, dimensions, predictive);
  return { count: weights.length, rows, dimensions, predictive, weights, effective, targets };
}
