/** What readings of an earlier, healthy visit say of this boat: the unknowns that do not change between visits (resistances,
 *  output, ratios, set-points) are known more narrowly, so that a small change shows early.
 *    u' = m + s · u      m, s: posterior mean and standard deviation of each lasting unknown, the boat taken as healthy
 *  Leaves out: what the readings say of several unknowns together (their correlation).
 */
import type { Reading } from '../readings/index.ts';
import { healthyHypothesis } from './hypothesis.ts';
import { createCache, posteriorGiven } from './inference/index.ts';
import type { BoatModel } from './model.ts';
import type { Narrowing } from './narrowing.ts';
import { joinReadings } from './readings-as-evidence.ts';

/** Unknowns that differ from visit to visit. */
const passing = /state of charge|surface charge|ambient|engine space|speed$|loads?: current|error$/;
/** Wear and weather since then: no unknown is taken as narrower than this share of its former spread. */
const LEAST_SPREAD = 0.25;
const DRAWS = 256;

export function narrowingFrom(
  model: BoatModel,
  baseline: readonly Reading[],
  seed: number,
): Narrowing | undefined {
  const { joined } = joinReadings(model, baseline);
  if (joined.length === 0) return undefined;
  const priors = model.hypotheses.map((_, h) => (h === healthyHypothesis ? 1 : 0));
  const cache = createCache(model, { seed, draws: DRAWS });
  const evidence = joined.map((one) => one.evidence);
  const { posterior } = posteriorGiven(cache, priors, evidence, { nothingFits: 0.01 });
  const draws = posterior.draws[healthyHypothesis];
  if (draws === undefined) return undefined;
  const middle = new Float64Array(model.unknowns.length);
  const spread = new Float64Array(model.unknowns.length).fill(1);
  model.unknowns.forEach((name, j) => {
    if (passing.test(name)) return;
    let mean = 0;
    let square = 0;
    for (let i = 0; i < draws.count; i++) {
      const weight = draws.weights[i] ?? 0;
      const u = draws.rows[i * draws.rowLength + j] ?? 0;
      mean += weight * u;
      square += weight * u * u;
    }
    middle[j] = mean;
    spread[j] = Math.min(1, Math.max(LEAST_SPREAD, Math.sqrt(Math.max(0, square - mean * mean))));
  });
  return { middle, spread };
}
