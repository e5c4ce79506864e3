/** From one set of readings to a larger one: the draws of a hypothesis are weighed anew instead of drawn anew.
 *
 *    w' = L' π / Σ_c n_c q_c        L' likelihood of all readings; the mixture stays as it is
 *  Draws that the earlier readings left with less than e⁻¹⁶ of the largest weight are let go; they still count in n_c.
 *  An error that becomes common with the further reading is a further unknown, so far drawn from its prior by every part.
 *  Source: [CHOPIN2002] (iterated batch importance sampling), without its resampling: the mixture keeps every part's density
 */
import { fillColumns } from './cache.ts';
import { hashOf, normalColumn } from './draws.ts';
import { startEvidence } from './evidence.ts';
import { largestOf } from './pareto.ts';
import { logWeightsOf } from './reliability.ts';
import { logLikelihoodOf, splitRows } from './sampling.ts';
import type { EvidenceState } from './evidence-state.ts';
import type { Evidence } from './likelihood.ts';
import type { Component } from './linearise.ts';

/** Log weight below the largest at which a draw is let go [nat]. */
const letGo = 16;

/** A hypothesis with further readings. Where nothing was drawn but the prior, or an error is no longer common, it is begun anew. */
export function carriedEvidence(state: EvidenceState, evidence: Evidence): EvidenceState {
  const { cache, hypothesis } = state;
  const start = startEvidence(cache, hypothesis, evidence);
  const kept = state.evidence.common.every((name) => evidence.common.includes(name));
  if (state.components.length === 0 || !kept) return start;
  const chosen = chosenDraws(state);
  const count = chosen.length;
  const rows = widerRows(state, evidence, chosen);
  const { batch, errors } = splitRows(rows, count, start.width, cache.model.dimensions);
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
  const wider = (component: Component): Component => widerComponent(component, places, start.width);
  return {
    ...start,
    batch,
    count,
    rows,
    logLikelihood: logLikelihoodOf(evidence, batch, errors),
    mixture: Float64Array.from(chosen, (i) => state.mixture[i]!),
    source: Int32Array.from(chosen, (i) => state.source[i]!),
    components: state.components.map(({ component, draws }) => ({ component: wider(component), draws })),
    lead: state.lead && wider(state.lead),
  };
}

function chosenDraws(state: EvidenceState): number[] {
  const weights = logWeightsOf(state);
  const least = largestOf(weights) - letGo;
  return Array.from(weights.keys()).filter((i) => weights[i]! >= least);
}

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
