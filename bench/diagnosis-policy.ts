/** The tool's choice of checks against the best there can be, on catalogues small enough for an exact search.
 *  Run: npx tsx bench/diagnosis-policy.ts --catalogues 40
 *
 *  A catalogue: six states of a boat from a template, drawn by prior, and six checks drawn evenly; numbers are cut at the healthy band
 *  into low, in, high. Chances of the outcomes come from 64 worlds of each state, taken as independent given the state.
 *  Cost of a policy: minutes of its checks at the labour rate, risk counted, then the expected cost of repair.
 *  The tool's rule here is the one of diagnosis/worth.ts and conclusion.ts: most worth for the cost; stop when decided,
 *  or when no check is worth it. The bits come from the table, so inference is not judged here, only the choice.
 */
import { parseArgs } from 'node:util';
import { boatFromTemplate, templateIds } from '../packages/core/src/boat/index.ts';
import criteria from '../packages/core/src/diagnosis/criteria.json' with { type: 'json' };
import { createSession } from '../packages/core/src/diagnosis/index.ts';
import {
  gainPerMinute,
  greedyInformation,
  lookAhead,
  optimalPolicy,
  policyCost,
  type CheckProblem,
  type Chooser,
} from '../packages/core/src/diagnosis/inference/index.ts';
import type { State } from '../packages/core/src/diagnosis/state.ts';
import {
  checkCost,
  inOrderOfWorth,
  isWorthIt,
  repairCost,
  worthOf,
  worthOfBit,
} from '../packages/core/src/diagnosis/worth.ts';
import type { PlacedFault } from '../packages/core/src/faults/index.ts';
import { randomFrom, seedOf, type Random } from './diagnosis/random.ts';

const STATES = 6;
const CHECKS = 6;
const WORLDS = 64;

interface Catalogue extends CheckProblem {
  readonly states: readonly PlacedFault[];
  readonly worthOfBit: (belief: readonly number[]) => number;
  readonly isDear: (state: number) => boolean;
  /** Money that a minute costs. */
  readonly minute: number;
}

const { values } = parseArgs({ options: { catalogues: { type: 'string', default: '40' } } });
main(Number(values.catalogues));

function main(count: number): void {
  const rules: Record<string, (problem: Catalogue) => Chooser> = {
    'the tool': toolRule,
    'bits per cost to the end': greedyInformation,
    'look-ahead of one': (problem) => lookAhead(problem, 1),
    'look-ahead of two': (problem) => lookAhead(problem, 2),
  };
  const excess = Object.fromEntries(Object.keys(rules).map((name) => [name, [] as number[]]));
  let now = 0;
  const sums = Object.fromEntries(Object.keys(rules).map((name) => [name, 0]));
  let best = 0;
  for (let index = 0; index < count; index++) {
    const problem = catalogueOf(index);
    const optimum = optimalPolicy(problem).cost;
    best += optimum;
    now += problem.stop(problem.prior);
    for (const [name, rule] of Object.entries(rules)) {
      const cost = policyCost(problem, rule(problem));
      excess[name]?.push(cost / optimum - 1);
      sums[name]! += cost;
    }
  }
  console.log(
    `${count} small catalogues; expected cost of the best policy, mean ${(best / count).toFixed(1)}`,
  );
  console.log(`without any check, mean ${(now / count).toFixed(1)}`);
  console.log(
    'rule'.padEnd(28) +
      'over the best, in sum'.padStart(24) +
      'of what checks save'.padStart(24) +
      'median'.padStart(10) +
      'worst'.padStart(10),
  );
  for (const name of Object.keys(rules)) {
    const sorted = (excess[name] ?? []).sort((a, b) => a - b);
    const percent = (value: number | undefined): string => `${(100 * (value ?? NaN)).toFixed(1)} %`;
    console.log(
      name.padEnd(28) +
        percent((sums[name] ?? NaN) / best - 1).padStart(24) +
        percent(((sums[name] ?? NaN) - best) / (now - best)).padStart(24) +
        percent(sorted[Math.floor(sorted.length / 2)]).padStart(10) +
        percent(sorted[sorted.length - 1]).padStart(10),
    );
  }
}

function catalogueOf(index: number): Catalogue {
  const random = randomFrom(seedOf('small catalogue', index));
  const session = createSession(boatFromTemplate(random.pick(templateIds), {}));
  const state = session.state([]);
  const { model } = state;
  const numbers = draw(
    random,
    STATES,
    model.hypotheses.map(({ members, prior }) => (members.length === 1 ? prior : 0)),
  );
  const checks = draw(
    random,
    CHECKS,
    session.checks.map(({ text }) => (text.minutes < 15 ? 1 : 0)),
  ).map((number) => session.checks[number]!);
  const bands = session.predict([]);
  const whole = numbers.reduce((sum, h) => sum + model.hypotheses[h]!.prior, 0);
  const among = (belief: readonly number[]): Float64Array => {
    const chances = new Float64Array(model.hypotheses.length);
    numbers.forEach((h, at) => (chances[h] = belief[at] ?? 0));
    return chances;
  };
  return {
    states: numbers.map((h) => model.hypotheses[h]!.members[0]!),
    prior: numbers.map((h) => model.hypotheses[h]!.prior / whole),
    checks: checks.map((check) => ({
      cost: checkCost(state.tariff, check.text.minutes, check.text.risk),
      chances: chancesOf(state, numbers, check.id, bands.get(check.id)),
    })),
    stop: (belief) => repairCost(state.tariff, among(belief)),
    isDear: (at) => state.tariff.isDear(numbers[at]!),
    minute: checkCost(state.tariff, 1, 0),
    worthOfBit: (belief) => worthOfBit(state.tariff, among(belief)),
  };
}

/** Chance of each outcome of a check, state by state. */
function chancesOf(
  { model, cache }: State,
  numbers: readonly number[],
  id: string,
  band: { readonly low: number; readonly high: number } | undefined,
): number[][] {
  const observable = model.checks.findIndex((check) => check.id === id);
  const { outcome } = model.checks[observable]!;
  const width = outcome.kind === 'answers' ? outcome.answers.length : 1;
  const out = new Float64Array(width);
  const u = new Float64Array(model.dimensions);
  const worlds = Math.min(WORLDS, cache.draws);
  return numbers.map((h) => {
    const sums = new Array<number>(outcome.kind === 'answers' ? width : 3).fill(0.02);
    for (let world = 0; world < worlds; world++) {
      for (let j = 0; j < u.length; j++) u[j] = cache.u[world * u.length + j]!;
      model.predict(h, u, [observable], out);
      if (outcome.kind === 'answers') for (let k = 0; k < width; k++) sums[k]! += out[k]!;
      else {
        const read = model.fromScale(observable, out[0]!);
        sums[band === undefined || (read >= band.low && read <= band.high) ? 1 : read < band.low ? 0 : 2]!++;
      }
    }
    const sum = sums.reduce((total, one) => total + one, 0);
    return sums.map((one) => one / sum);
  });
}

/** So many numbers without repetition, by weight. */
function draw(random: Random, count: number, weights: readonly number[]): number[] {
  const left = weights.slice();
  return Array.from({ length: count }, () => {
    const number = random.index(left);
    left[number] = 0;
    return number;
  });
}

/** The tool's own rule on a table. */
function toolRule(problem: Catalogue): Chooser {
  return (belief, made) => {
    const first = belief.indexOf(Math.max(...belief));
    if (belief[first]! >= (problem.isDear(first) ? criteria.dearDecidedAt : criteria.decidedAt))
      return undefined;
    const bit = problem.worthOfBit(belief);
    const open = problem.checks.flatMap(({ cost, chances }, k) => {
      if (made & (1 << k)) return [];
      const { bits, after } = outcomeOf(problem, belief, chances);
      const saves = problem.stop(belief) - after;
      const bitsPerMinute = gainPerMinute(bits, cost / problem.minute);
      return [{ check: String(k), bitsPerMinute, worth: worthOf(saves, bits, bit), costs: cost }];
    });
    const [best] = inOrderOfWorth(open);
    return best !== undefined && isWorthIt(best) ? Number(best.check) : undefined;
  };
}

function outcomeOf(
  problem: CheckProblem,
  belief: readonly number[],
  chances: CheckProblem['checks'][number]['chances'],
): { bits: number; after: number } {
  const entropy = (list: readonly number[]): number =>
    list.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
  let bits = entropy(belief);
  let after = 0;
  for (let outcome = 0; outcome < (chances[0]?.length ?? 0); outcome++) {
    const joint = belief.map((p, s) => p * chances[s]![outcome]!);
    const chance = joint.reduce((sum, p) => sum + p, 0);
    if (chance <= 0) continue;
    const posterior = joint.map((p) => p / chance);
    bits -= chance * entropy(posterior);
    after += chance * problem.stop(posterior);
  }
  return { bits, after };
}
