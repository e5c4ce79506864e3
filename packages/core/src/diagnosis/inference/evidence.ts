/** Log evidence and posterior draws of one hypothesis, by adaptive importance sampling.
 *
 *    round 0   draws from the prior; their predictions are kept from reading to reading
 *    round r   draws from normals found by statistical linearisation of all draws so far
 *    weight    w = L(u) π(u) / Σ_c n_c q_c(u)   (deterministic mixture, the prior being one part)
 *    evidence  Z = Σ w
 *  L likelihood  π prior  q_c density of part c, from which n_c draws came
 *  A further reading changes L alone: draws and mixture stay, the draws are weighed anew, and rounds follow only where they do
 *  not tell enough (see carried.ts).
 *  Source: [OWEN2000] (deterministic mixture), [BUGALLO2017] (adaptive importance sampling)
 *  Leaves out: proposals depend on earlier draws, which gives a bias of the order of the squared relative error.
 */
import { commonErrors, fillColumns, priorBatch } from './cache.ts';
import { evenLinearModel, linearModel, proposals } from './linearise.ts';
import { logSum } from './pareto.ts';
import { isReliable, logWeightsOf, missedBy } from './reliability.ts';
import {
  addDensity,
  appended,
  drawFrom,
  joined,
  joinedBatch,
  logLikelihoodOf,
  negligible,
  splitRows,
  targetsOf,
  temperedWeights,
} from './sampling.ts';
import { linearLogEvidence } from './slips.ts';
import type { Batch, DrawCache } from './cache.ts';
import type { EvidenceOptions, EvidenceState, WeightedDraws } from './evidence-state.ts';
import type { Evidence } from './likelihood.ts';
import type { LinearModel } from './linear-model.ts';
import type { Cloud, Component } from './linearise.ts';

export const defaultEvidenceOptions: EvidenceOptions = {
  refineDraws: 128,
  maximumRounds: 4,
  leaderRounds: 4,
  leaderFrom: 1,
  wantedError: 0.1,
  mostError: 0.5,
  wantedEffective: 60,
  carried: [{ from: 0, draws: 512 }],
};

/** Round 0: draws from the prior, and the linear model that fits them. */
export function startEvidence(cache: DrawCache, hypothesis: number, evidence: Evidence): EvidenceState {
  const batch = priorBatch(cache, hypothesis, evidence.wanted);
  const { count } = batch;
  const errors = commonErrors(cache, evidence.common, count, 0);
  const rows = joined(batch.u, errors, count, cache.model.dimensions, evidence.common.length);
  const width = cache.model.dimensions + evidence.common.length;
  const even = new Float64Array(count).fill(1 / count);
  const cloud = cloudOf(cache, evidence, batch, rows, width, even, count);
  const linear = evenLinearModel(evidence.readings, cloud, cache.scatter);
  const answers = { ...evidence, readings: evidence.readings.filter(({ form }) => form !== 'number') };
  const answered = logSum(logLikelihoodOf(answers, batch, errors)) - Math.log(count);
  return {
    cache,
    hypothesis,
    evidence,
    batch,
    count,
    rows,
    logLikelihood: logLikelihoodOf(evidence, batch, errors),
    mixture: new Float64Array(count).fill(count),
    kept: new Float64Array(count).fill(1),
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
  const { cache, evidence, width } = state;
  const before = state.linear ?? startEvidence(cache, state.hypothesis, evidence).linear!;
  const linear =
    state.lead === undefined || missedBy(state) > 0 ? before : relinearised(state, before, state.lead);
  // Multiples of eight keep the number of different draw tables small.
  const fresh = proposals(linear).map((component) => ({
    component,
    draws: Math.max(8, 8 * Math.round((component.share * options.refineDraws) / 8)),
  }));
  const added = fresh.reduce((sum, { draws }) => sum + draws, 0);
  const newRows = new Float64Array(added * width);
  const source = new Int32Array(state.count + added);
  source.set(state.source);
  let at = 0;
  fresh.forEach(({ component, draws }, index) => {
    const part = state.components.length + index + 1;
    drawFrom(cache, component, draws, part, newRows, at, width);
    source.fill(part, state.count + at, state.count + at + draws);
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
    batch: joinedBatch(state.batch, batch),
    count: state.count + added,
    rows,
    logLikelihood,
    mixture,
    kept: appended(state.kept, new Float64Array(added).fill(1)),
    source,
    components: [...state.components, ...fresh],
    rounds: state.rounds + 1,
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

/** Posterior draws with weights of sum 1. */
export function weightedDraws(state: EvidenceState): WeightedDraws {
  const weights = logWeightsOf(state);
  const whole = logSum(weights);
  for (let i = 0; i < weights.length; i++) weights[i] = Math.exp(weights[i]! - whole);
  const { batch, count, rows, width, cache } = state;
  return {
    count,
    dimensions: cache.model.dimensions,
    rows,
    rowLength: width,
    weights,
    columnOf: (observable) => batch.columns.get(observable) ?? new Float64Array(),
  };
}

/** The linear model of all draws so far, weighed by the posterior, or by a power of it where too few draws carry weight. */
function relinearised(state: EvidenceState, model: LinearModel, component: Component): LinearModel {
  const { cache, evidence, batch, rows, width } = state;
  const wanted = Math.max(40, 2 * (cache.model.dimensions + 1));
  const { weights, effective } = temperedWeights(logWeightsOf(state), wanted);
  const cloud = cloudOf(cache, evidence, batch, rows, width, weights, effective);
  return linearModel(evidence.readings, cloud, { model, component });
}

function cloudOf(
  cache: DrawCache,
  evidence: Evidence,
  batch: Batch,
  rows: Float64Array,
  dimensions: number,
  weights: Float64Array,
  effective: number,
): Cloud {
  const predictive = cache.model.dimensions;
  const targets = targetsOf(evidence, batch, rows, dimensions, predictive);
  return { count: weights.length, rows, dimensions, predictive, weights, effective, targets };
}
