/** Chances of the hypotheses given the readings, with "nothing I know fits" as one of them.
 *
 *    P(h | readings) = P(h) Z_h / Σ P(j) Z_j
 *    var P_h ≈ P_h² ((1 − P_h)² s_h² + Σ_{j≠h} P_j² s_j²)        s standard error of log Z
 *  Nothing fits: every observable has a true value anywhere in its span (or any answer with the same chance), and readings of
 *  it scatter about that value by their own error.
 *
 *  Hypotheses are dropped after round 0 when a ceiling of their chance is below `dropBelow`. The ceiling is
 *    mean + 3 standard errors of Z         where at least ten draws of round 0 are effective and the linear model agrees
 *    e⁶ · max(Z, Z with errors four times as wide, Z of the linear model of the numbers)      otherwise
 *  The second is an estimate with a margin, not a proof; the wide errors find regimes that the linear model smears out.
 *  One that was dropped on earlier readings is asked again only where its old ceiling, and further readings each at the peak of
 *  its density, could bring it back; else it has chance 0.
 */
import { carriedEvidence } from './carried.ts';
import { defaultEvidenceOptions, refinedEvidence, startEvidence, weightedDraws } from './evidence.ts';
import { preparedEvidence, sortedReadings } from './likelihood.ts';
import { logRootTwoPi } from './normal.ts';
import { nothingFitsLogEvidence } from './nothing-fits.ts';
import { logSum } from './pareto.ts';
import { isReliable, lightTail, logEvidenceOf, logWeightsOf, reliabilityOf } from './reliability.ts';
import { logLikelihoodOf, splitRows } from './sampling.ts';
import type { DrawCache } from './cache.ts';
import type { EvidenceOptions, EvidenceState, WeightedDraws } from './evidence-state.ts';
import type { Evidence } from './likelihood.ts';
import type { EvidenceReliability } from './reliability.ts';
import type { Reading } from './types.ts';

export interface PosteriorOptions {
  /** Prior chance that nothing known fits; the priors of the hypotheses share the rest in proportion. */
  readonly nothingFits: number;
  /** A hypothesis whose chance is surely below this is not refined. */
  readonly dropBelow: number;
  /** Margin on the estimates of round 0 [nat]: they may be wrong by its exponential before a hypothesis is lost. */
  readonly screenMargin: number;
  readonly evidence: EvidenceOptions;
}

const defaultPosteriorOptions: PosteriorOptions = {
  nothingFits: 0.01,
  dropBelow: 1e-4,
  screenMargin: 6,
  evidence: defaultEvidenceOptions,
};

export interface Posterior {
  /** By hypothesis; the last entry is "nothing fits". */
  readonly probability: Float64Array;
  readonly logEvidence: Float64Array;
  /** Posterior draws by hypothesis; undefined where prior or chance is nil. */
  readonly draws: readonly (WeightedDraws | undefined)[];
  /** Names of the common errors: the entries of a row of draws after the unknowns. */
  readonly common: readonly string[];
}

export interface PosteriorReliability {
  /** Numerical standard error of each probability. */
  readonly standardError: Float64Array;
  readonly hypothesis: readonly (EvidenceReliability | undefined)[];
  /** Hypotheses not refined, and the most chance that they can have together. */
  readonly dropped: readonly number[];
  readonly droppedBound: number;
}

/** Posterior and its reliability, apart.
 *  `kept`: work on single hypotheses from an earlier call with these readings (the same array) or the first of them; used, and
 *  brought up to these. The answer depends on the way that it took, within its stated error.
 *  Errors: RangeError for priors that are negative or sum to nothing */
export function posteriorGiven(
  cache: DrawCache,
  priors: ArrayLike<number>,
  readings: readonly Reading[],
  options: Partial<PosteriorOptions> = {},
  kept: Map<number, EvidenceState> = new Map(),
): { posterior: Posterior; reliability: PosteriorReliability } {
  const {
    nothingFits,
    dropBelow,
    screenMargin,
    evidence: evidenceOptions,
  } = { ...defaultPosteriorOptions, ...options };
  const count = priors.length;
  const logPrior = logPriors(priors, nothingFits);
  const evidence = preparedEvidence(cache.model.observables, readings);
  const logEvidence = new Float64Array(count + 1).fill(-Infinity);
  logEvidence[count] = nothingFitsLogEvidence(cache.model.observables, sortedReadings(readings));
  const mass = new Float64Array(count + 1).fill(-Infinity);
  mass[count] = logPrior[count]! + logEvidence[count];
  const states = new Array<EvidenceState | undefined>(count).fill(undefined);
  const bound = new Float64Array(count).fill(-Infinity);
  const before = sharesOf(logPrior, kept);
  const up = (h: number, known: EvidenceState | undefined): EvidenceState =>
    broughtUp(cache, h, known, evidence, before.get(h) ?? 0, evidenceOptions);
  for (let h = 0; h < count; h++) {
    if (logPrior[h] === -Infinity) continue;
    const known = kept.get(h);
    const isNew = known === undefined || known.components.length > 0;
    const state = isNew ? up(h, known) : known;
    states[h] = state;
    bound[h] = logPrior[h]! + ceilingOf(state, screenMargin) + mostOf(state, readings);
  }
  const order = Array.from(bound.keys()).filter((h) => states[h] !== undefined);
  order.sort((a, b) => bound[b]! - bound[a]! || a - b);
  const dropped: number[] = [];
  const logDrop = Math.log(dropBelow);
  const reliabilities = new Array<EvidenceReliability | undefined>(count).fill(undefined);
  for (const h of order) {
    let state = states[h]!;
    if (state.evidence.of !== readings) {
      // Whatever the further readings say, it stays out: it need not be asked.
      if (bound[h]! < logSum(mass) + logDrop - farOut) {
        dropped.push(h);
        continue;
      }
      state = up(h, state);
      bound[h] = logPrior[h]! + ceilingOf(state, screenMargin);
    }
    const isHopeless = bound[h] === -Infinity || bound[h]! < logSum(mass) + logDrop;
    while (!isHopeless) {
      mass[h] = logPrior[h]! + logEvidenceOf(state);
      const share = Math.exp(mass[h] - logSum(mass));
      const { maximumRounds, leaderRounds, leaderFrom, mostError } = evidenceOptions;
      const leads = share >= leaderFrom;
      if (state.rounds >= (leads ? leaderRounds : maximumRounds)) break;
      const wantedError = Math.min(
        mostError,
        Math.max(evidenceOptions.wantedError, (0.1 * evidenceOptions.wantedError) / share),
      );
      if (isReliable(state, evidenceOptions, wantedError, leads ? lightTail : Infinity)) break;
      state = refinedEvidence(state, evidenceOptions);
    }
    const reliability = reliabilityOf(state);
    if (isHopeless) dropped.push(h);
    states[h] = state;
    kept.set(h, state);
    reliabilities[h] = reliability;
    logEvidence[h] = logEvidenceOf(state);
    mass[h] = Math.min(logPrior[h]! + logEvidence[h], isHopeless ? bound[h]! : Infinity);
  }
  const whole = logSum(mass);
  const probability = mass.map((value) => Math.exp(value - whole));
  const droppedBound = dropped.reduce((sum, h) => sum + Math.exp(bound[h]! - whole), 0);
  const standardError = errorsOfProbabilities(probability, reliabilities);
  const draws = states.map((state) => state && weightedDraws(state));
  return {
    posterior: { probability, logEvidence, draws, common: evidence.common },
    reliability: { standardError, hypothesis: reliabilities, dropped, droppedBound },
  };
}

/** Chances of the hypotheses by what is kept of each, whatever readings that stands by. */
function sharesOf(logPrior: Float64Array, kept: ReadonlyMap<number, EvidenceState>): Map<number, number> {
  const masses = [...kept].map(
    ([h, state]) => [h, (logPrior[h] ?? -Infinity) + logEvidenceOf(state)] as const,
  );
  const whole = logSum(Float64Array.from(masses, ([, mass]) => mass));
  return new Map(masses.map(([h, mass]) => [h, Math.exp(mass - whole)]));
}

/** A state that stands by all of these readings. `share`: its chance before. */
function broughtUp(
  cache: DrawCache,
  hypothesis: number,
  known: EvidenceState | undefined,
  evidence: Evidence,
  share: number,
  { carried }: EvidenceOptions,
): EvidenceState {
  if (known === undefined) return startEvidence(cache, hypothesis, evidence);
  if (known.evidence.of === evidence.of) return known;
  return carriedEvidence(known, evidence, carried.find(({ from }) => share >= from)?.draws ?? 0);
}

/** The most that readings further than those of a state can add to its log evidence: each number at the peak of its density. */
function mostOf({ evidence }: EvidenceState, readings: readonly Reading[]): number {
  if (evidence.of === readings) return 0;
  return readings.slice(evidence.of.length).reduce((sum, reading) => {
    if (reading.kind === 'categorical' || reading.bound !== undefined) return sum;
    return sum - Math.log(Math.hypot(reading.sigma, reading.discrepancy ?? 0)) - logRootTwoPi;
  }, 0);
}

/** How much farther out than one that is dropped a hypothesis must be to be left unasked [nat]. */
const farOut = 3;

function logPriors(priors: ArrayLike<number>, nothingFits: number): Float64Array {
  if (!(nothingFits >= 0 && nothingFits < 1))
    throw new RangeError(`posteriorGiven: nothingFits = ${nothingFits} is outside 0 to 1`);
  let sum = 0;
  for (let h = 0; h < priors.length; h++) {
    if (!(priors[h]! >= 0))
      throw new RangeError(`posteriorGiven: prior ${h} = ${priors[h]}, must be 0 or more`);
    sum += priors[h]!;
  }
  if (!(sum > 0 && Number.isFinite(sum)))
    throw new RangeError(`posteriorGiven: priors sum to ${sum}, must be above 0`);
  const logs = new Float64Array(priors.length + 1);
  for (let h = 0; h < priors.length; h++) logs[h] = Math.log((priors[h]! / sum) * (1 - nothingFits));
  logs[priors.length] = Math.log(nothingFits);
  return logs;
}

/** A log evidence that the hypothesis will hardly exceed, from the draws it has. */
function ceilingOf(state: EvidenceState, screenMargin: number): number {
  const { standardError, effectiveDraws } = reliabilityOf(state);
  const own = logEvidenceOf(state);
  if (effectiveDraws >= 10 && standardError < 0.5) return own + Math.log1p(3 * standardError);
  const { batch, count, rows, width, evidence, cache } = state;
  const { errors } = splitRows(rows, count, width, cache.model.dimensions);
  const logLikelihood = logLikelihoodOf(widened(evidence, 4), batch, errors);
  const smooth = logSum(logWeightsOf({ ...state, logLikelihood }));
  return smooth === -Infinity ? own : Math.max(own, smooth, state.foreseen) + screenMargin;
}

function widened(evidence: Evidence, factor: number): Evidence {
  return {
    ...evidence,
    readings: evidence.readings.map((reading) => ({
      ...reading,
      sd: factor * reading.sd,
      tailSd: factor * reading.tailSd,
    })),
  };
}

/** Standard errors of the probabilities. A log evidence with an error above 1 is counted as 1: the linear rule says no more. */
function errorsOfProbabilities(
  probability: Float64Array,
  reliabilities: readonly (EvidenceReliability | undefined)[],
): Float64Array {
  const part = probability.map((p, h) => p * Math.min(1, reliabilities[h]?.standardError ?? 0));
  const whole = part.reduce((sum, x) => sum + x * x, 0);
  return probability.map((p, h) => {
    const own = part[h]!;
    return Math.sqrt((1 - p) ** 2 * own * own + p * p * Math.max(0, whole - own * own));
  });
}
