/** A diagnosis that goes on: keep the session while a job is open, since predictions are kept from reading to reading. */
import type { BoatDescription } from '../boat/index.ts';
import { placedChecks, skills, type PlacedCheck, type Skill } from '../checks/index.ts';
import { placedFaults, priceTable, type PlacedFault, type PriceTable } from '../faults/index.ts';
import type { Models } from '../operate/index.ts';
import type { Reading } from '../readings/index.ts';
import { answersOf, wrongOf } from './answers.ts';
import { narrowingFrom } from './baseline.ts';
import { ampsBands, tellsAmps } from './amps.ts';
import { assumptionsOf } from './assumed.ts';
import { conclusionOf } from './conclusion.ts';
import { healthyBands, healthyDraws, healthyKey } from './healthy.ts';
import { createCache, posteriorSample } from './inference/index.ts';
import { readingsInLight } from './light.ts';
import { BoatModel } from './model.ts';
import type { HealthyView } from './healthy-view.ts';
import type { State } from './state.ts';
import { columnsFor, nextChecks, openChecks } from './next-check.ts';
import { joinReadings, type Joined, type JoinProblem } from './readings-as-evidence.ts';
import { chancesLeft, remainingOf } from './remaining.ts';
import { Tariff } from './repair-plan.ts';
import type { Band, Verdict } from './verdict.ts';
import { stepsTo, type Step } from './steps.ts';
import { suspectsAndCleared } from './why.ts';
import criteria from './criteria.json' with { type: 'json' };

export interface SessionOptions {
  /** Checks beyond this skill are never proposed. */
  readonly skill?: Skill;
  /** Draws of possible worlds for each hypothesis. */
  readonly draws?: number;
  readonly seed?: number;
  /** Readings of an earlier visit that ended all well: they narrow this boat's own unknowns. */
  readonly baseline?: readonly Reading[];
  /** Placed faults that were put right by now; those that readings name are counted in any case. */
  readonly repaired?: readonly string[];
  /** What repairs and an hour cost (default: the usual table). They decide which check comes next, and whether one is worth it. */
  readonly prices?: PriceTable;
  readonly models?: Models;
}

export interface Session {
  readonly description: BoatDescription;
  readonly checks: readonly PlacedCheck[];
  readonly faults: readonly PlacedFault[];
  /** The verdict on a list of readings: what is wrong now, after all repairs. Same list, same answer; another order of it
   *  changes the numerical error alone.
   *  Readings that no check of this boat can have given are returned as problems and left out. */
  readonly diagnose: (readings: readonly Reading[]) => Verdict;
  readonly problems: (readings: readonly Reading[]) => readonly JoinProblem[];
  /** Where each placed check would read if all were well, given what was read with the engine off. */
  readonly predict: (readings: readonly Reading[]) => ReadonlyMap<string, Band>;
  readonly state: (readings: readonly Reading[]) => State;
}

export function createSession(description: BoatDescription, options: SessionOptions = {}): Session {
  const faults = placedFaults(description);
  const checks = placedChecks(description);
  const seed = options.seed ?? criteria.seed;
  const plain = new BoatModel(description, faults, checks, options);
  const narrowing = options.baseline && narrowingFrom(plain, options.baseline, seed);
  const model = narrowing ? new BoatModel(description, faults, checks, { ...options, narrowing }) : plain;
  const cache = createCache(model, { seed, draws: options.draws ?? criteria.draws });
  const tariff = new Tariff(model.hypotheses, options.prices ?? priceTable);
  const skill = options.skill ?? skills[skills.length - 1] ?? 'electrician';

  let known: { readonly key: string; readonly view: HealthyView } | undefined;
  const healthyFor = (joined: readonly Joined[]): HealthyView => {
    const key = healthyKey(joined);
    if (known?.key !== key) known = { key, view: healthyDraws(model, cache, joined) };
    return known.view;
  };

  const steps: Step[] = [];
  const state = (readings: readonly Reading[]): State => {
    const { joined } = joinReadings(model, readings);
    const told = readings.flatMap(({ afterRepairOf = [] }) => afterRepairOf);
    const repairs = model.repairsOf([...(options.repaired ?? []), ...told]);
    const { posterior, reliability } = stepsTo(model, cache, steps, joined, repairs);
    const remaining = remainingOf(model.hypotheses, repairs);
    return {
      model,
      cache,
      posterior,
      reliability,
      joined,
      readings,
      repairs,
      remaining,
      still: chancesLeft(remaining, posterior.probability),
      healthy: healthyFor(joined),
      tariff,
      skill,
    };
  };

  return {
    description,
    checks,
    faults,
    problems: (readings) => joinReadings(model, readings).problems,
    state,
    predict: (readings) => healthyBands(state(readings), checks),
    diagnose: (readings) => verdictOf(state(readings), checks),
  };
}

/** One verdict, nothing kept. */
export function diagnose(
  description: BoatDescription,
  readings: readonly Reading[],
  options: SessionOptions = {},
): Verdict {
  return createSession(description, options).diagnose(readings);
}

function verdictOf(state: State, checks: readonly PlacedCheck[]): Verdict {
  const { posterior, reliability, model } = state;
  const sample = posteriorSample(posterior, {
    perHypothesis: criteria.perHypothesis,
    leastChance: criteria.leastChance,
    unlikely: criteria.unlikely,
  });
  const { suspects, cleared, says } = suspectsAndCleared(state);
  const next = nextChecks(state, sample, openChecks(state, checks));
  const inLight = readingsInLight(
    state,
    says.map(({ slip }) => slip),
  );
  const nothingFits = posterior.probability[posterior.probability.length - 1] ?? 0;
  const wrong = wrongOf(state);
  const error = Math.max(0, ...reliability.standardError);
  return {
    repaired: state.repairs,
    wrong,
    answers: answersOf(state),
    suspects,
    nothingFits,
    cleared,
    readings: inLight,
    next,
    conclusion: conclusionOf(state, says, suspects, nothingFits, wrong, next, inLight),
    amps: ampsBands(state, sample, columnsFor(state, sample, checks.filter(tellsAmps))),
    assumed: assumptionsOf(model.description),
    reliability: {
      draws: state.cache.predictions,
      operatingPoints: model.operatingPoints,
      notConverged: model.notConverged,
      effectiveDraws: leastEffective(state),
      error,
    },
  };
}

function leastEffective({ posterior, reliability }: State): number {
  const counts = reliability.hypothesis.flatMap((one, h) =>
    one !== undefined && (posterior.probability[h] ?? 0) > 0.02 ? [one.effectiveDraws] : [],
  );
  return counts.length === 0 ? 0 : Math.min(...counts);
}
