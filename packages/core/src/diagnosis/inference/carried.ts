/** From one set of readings to a larger one: the draws of a hypothesis are weighed anew instead of drawn anew.
 *
 *    w' = L' π / Σ_c n_c q_c        L' likelihood of all readings; the mixture stays as it is
 *  Most draws are let go first (thinning.ts): a hypothesis of little chance need not be known well. They still count in n_c.
 *  An error that becomes common with the further reading is a further unknown, so far drawn from its prior by every part.
 *  Source: [CHOPIN2002] (iterated batch importance sampling), without its resampling: the mixture keeps every part's density
 */
import { fillColumns } from './cache.ts';
import { hashOf, normalColumn } from './draws.ts';
import { startEvidence } from './evidence.ts';
import { logEvidenceOf, logWeightsOf } from './reliability.ts';
import { logLikelihoodOf, splitRows } from './sampling.ts';
import { thinned } from './thinning.ts';
import type { EvidenceState } from './evidence-state.ts';
import type { Evidence } from './likelihood.ts';
import type { Component } from './linearise.ts';

/** A hypothesis with further readings, about `draws` of its draws kept. Where nothing was drawn but the prior, or an error is no
 *  longer common, it is begun anew. */
export function carriedEvidence(state: EvidenceState, evidence: Evidence, draws: number): EvidenceState {
  const { cache, hypothesis } = state;
  const isKept = state.evidence.common.every((name) => evidence.common.includes(name));
  if (state.components.length === 0 || !isKept) return startEvidence(cache, hypothesis, evidence);
  const { chosen, chance } = thinned(logWeightsOf(state), draws);
  const count = chosen.length;
  const rows = widerRows(state, evidence, chosen);
  const width = cache.model.dimensions + evidence.common.length;
  const { batch, errors } = splitRows(rows, count, width, cache.model.dimensions);
  for (const [observable, column] of state.batch.columns) {
    const slots = column.length / state.count;
    const part = new Float64Array(slots * count);
    chosen.forEach((from, to) => {
      for (let slot = 0; slot < slots; slot++) part[to * slots + slot] = column[from * slots + slot]!;
    });
    batch.columns.set(observable, part);
  }
  fillColumns(cache, hypothesis, batch, evidence.wanted);
  const places = placesOf(state, evidence);
  const wider = (component: Component): Component => widerComponent(component, places, width);
  const carried: EvidenceState = {
    ...state,
    evidence,
    batch,
    count,
    rows,
    logLikelihood: logLikelihoodOf(evidence, batch, errors),
    mixture: Float64Array.from(chosen, (i) => state.mixture[i]!),
    kept: Float64Array.from(chosen, (i, k) => state.kept[i]! * chance[k]!),
    source: Int32Array.from(chosen, (i) => state.source[i]!),
    components: state.components.map((part) => ({ ...part, component: wider(part.component) })),
    rounds: 0,
    width,
    linear: undefined,
    foreseen: -Infinity,
    lead: state.lead && wider(state.lead),
  };
  if (sees(carried, state)) return carried;
  const { linear, foreseen } = startEvidence(cache, hypothesis, evidence);
  return { ...carried, linear, foreseen };
}

/** Whether the draws see the one further reading: it is foretold better than as a slip of the hand. Answers are always seen. */
function sees(carried: EvidenceState, before: EvidenceState): boolean {
  const { of, readings } = carried.evidence;
  const last = of.at(-1)!;
  if (of.length - before.evidence.of.length !== 1) return false;
  if (last.kind === 'categorical') return true;
  const { slipDensity = 0 } =
    readings.find(({ observable, value }) => observable === last.observable && value === last.value) ?? {};
  return Math.exp(logEvidenceOf(carried) - logEvidenceOf(before)) > twiceAsWell * slipDensity;
}

/** Of a predictive density that slips make up half of. */
const twiceAsWell = 2;

/** Where each coordinate of a row stands among those of the larger set. */
function placesOf({ cache, evidence: { common } }: EvidenceState, larger: Evidence): number[] {
  const own = Array.from({ length: cache.model.dimensions }, (_, j) => j);
  return [...own, ...common.map((name) => own.length + larger.common.indexOf(name))];
}

function widerRows(state: EvidenceState, evidence: Evidence, chosen: readonly number[]): Float64Array {
  const { cache, width: before } = state;
  const first = cache.model.dimensions;
  const width = first + evidence.common.length;
  const rows = new Float64Array(chosen.length * width);
  const places = placesOf(state, evidence);
  chosen.forEach((from, to) => {
    for (let j = 0; j < before; j++) rows[to * width + places[j]!] = state.rows[from * before + j]!;
  });
  evidence.common.forEach((name, g) => {
    if (chosen.length === 0 || state.evidence.common.includes(name)) return;
    const column = normalColumn(cache.seed, state.components.length, hashOf(name), chosen.length);
    for (let i = 0; i < chosen.length; i++) rows[i * width + first + g] = column[i]!;
  });
  return rows;
}

/** A normal with further coordinates, independent of the others and standard. */
function widerComponent(component: Component, places: readonly number[], width: number): Component {
  const before = places.length;
  if (before === width) return component;
  const mean = new Float64Array(width);
  const factor = new Float64Array(width * width);
  for (let j = 0; j < width; j++) factor[j * width + j] = 1;
  for (let j = 0; j < before; j++) {
    mean[places[j]!] = component.mean[j]!;
    for (let l = 0; l <= j; l++) factor[places[j]! * width + places[l]!] = component.factor[j * before + l]!;
  }
  return { ...component, mean, factor };
}
