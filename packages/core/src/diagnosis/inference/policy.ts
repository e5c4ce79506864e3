/** Which check next, when checks cost: the exact optimum on small catalogues, bounded look-ahead, and greedy information.
 *
 *    V(b) = min( stop(b),  min_t [ C_t + Σ_o P(o | b, t) V(b | t, o) ] )
 *  b chances of the states  t a check not yet made  o its outcome  stop cost of acting on what is known
 *  Source: [BELLMAN1957]   Valid: exact search up to about 10 checks with two outcomes   Leaves out: a check made twice
 */

/** `chances[state][outcome]`. */
export interface CostedCheck {
  readonly cost: number;
  readonly chances: readonly (readonly number[])[];
}

export interface CheckProblem {
  readonly prior: readonly number[];
  readonly checks: readonly CostedCheck[];
  /** Cost of stopping with these chances; Infinity where stopping is not allowed. */
  readonly stop: (belief: readonly number[]) => number;
}

/** Number of the check to make, or undefined to stop. `made` has a bit for each check made. */
export type Chooser = (belief: readonly number[], made: number) => number | undefined;

/** Cost of the best policy, and its first check.
 *  Errors: RangeError for more than 20 checks */
export function optimalPolicy(problem: CheckProblem): { cost: number; first: number | undefined } {
  assertSmall(problem);
  const known = new Map<number, { cost: number; first: number | undefined }>();
  const places = placesOf(problem);
  // Chances depend on which outcomes came, not on their order: `seen` numbers the set of them.
  const value = (
    belief: readonly number[],
    made: number,
    seen: number,
  ): { cost: number; first: number | undefined } => {
    const before = known.get(seen);
    if (before !== undefined) return before;
    let cost = problem.stop(belief);
    let first: number | undefined;
    problem.checks.forEach((check, t) => {
      if (made & (1 << t) || check.cost >= cost) return;
      const next = outcomes(belief, check);
      if (next.length < 2) return;
      let trial = check.cost;
      for (const { outcome, probability, posterior } of next)
        trial += probability * value(posterior, made | (1 << t), seen + (outcome + 1) * places[t]!).cost;
      if (trial < cost) [cost, first] = [trial, t];
    });
    known.set(seen, { cost, first });
    return { cost, first };
  };
  return value(problem.prior, 0, 0);
}

/** Place value of each check in the number of a set of outcomes. */
function placesOf({ checks }: CheckProblem): number[] {
  let place = 1;
  return checks.map(({ chances }) => {
    const own = place;
    place *= (chances[0]?.length ?? 0) + 1;
    return own;
  });
}

/** Expected cost of a policy, all its outcomes followed to the end. */
export function policyCost(problem: CheckProblem, choose: Chooser): number {
  assertSmall(problem);
  const follow = (belief: readonly number[], made: number): number => {
    const check = choose(belief, made);
    if (check === undefined) return problem.stop(belief);
    let cost = problem.checks[check]!.cost;
    for (const { probability, posterior } of outcomes(belief, problem.checks[check]!))
      cost += probability * follow(posterior, made | (1 << check));
    return cost;
  };
  return follow(problem.prior, 0);
}

/** Chooses the check with most information per cost, until stopping costs nothing or no check tells anything. */
export function greedyInformation(problem: CheckProblem): Chooser {
  return (belief, made) => {
    if (problem.stop(belief) === 0) return undefined;
    let best: number | undefined;
    let bestRate = 1e-12;
    problem.checks.forEach((check, t) => {
      if (made & (1 << t)) return;
      let gain = entropy(belief);
      for (const { probability, posterior } of outcomes(belief, check))
        gain -= probability * entropy(posterior);
      if (gain / check.cost > bestRate) [best, bestRate] = [t, gain / check.cost];
    });
    return best;
  };
}

/** Chooses by the optimum of the next `depth` checks; beyond them a belief is worth stopping, or `leaf` where given. */
export function lookAhead(
  problem: CheckProblem,
  depth: number,
  leaf: (belief: readonly number[]) => number = problem.stop,
): Chooser {
  if (!(Number.isInteger(depth) && depth >= 1))
    throw new RangeError(`lookAhead: depth = ${depth}, must be a whole number of 1 or more`);
  return (belief, made) => valueWithin(problem, belief, made, depth, leaf).first;
}

/** Least expected number of yes/no checks of that cost that could still be needed: entropy in bits. A leaf for `lookAhead`. */
export function entropyCost(unitCost: number): (belief: readonly number[]) => number {
  return (belief) => (unitCost * entropy(belief)) / Math.LN2;
}

/** Entropy of chances that sum to 1 [nat]. */
function entropy(belief: readonly number[]): number {
  return belief.reduce((sum, p) => (p > 0 ? sum - p * Math.log(p) : sum), 0);
}

function valueWithin(
  problem: CheckProblem,
  belief: readonly number[],
  made: number,
  depth: number,
  leaf: (belief: readonly number[]) => number,
): { cost: number; first: number | undefined } {
  let cost = problem.stop(belief);
  let first: number | undefined;
  if (depth === 0) return { cost: Math.min(cost, leaf(belief)), first };
  problem.checks.forEach((check, t) => {
    if (made & (1 << t) || check.cost >= cost) return;
    const next = outcomes(belief, check);
    if (next.length < 2) return;
    let trial = check.cost;
    for (const { probability, posterior } of next) {
      trial += probability * valueWithin(problem, posterior, made | (1 << t), depth - 1, leaf).cost;
      if (trial >= cost) return;
    }
    [cost, first] = [trial, t];
  });
  return { cost, first };
}

function outcomes(
  belief: readonly number[],
  check: CostedCheck,
): { outcome: number; probability: number; posterior: number[] }[] {
  const count = check.chances[0]?.length ?? 0;
  const found: { outcome: number; probability: number; posterior: number[] }[] = [];
  for (let o = 0; o < count; o++) {
    const joint = belief.map((p, state) => p * check.chances[state]![o]!);
    const probability = joint.reduce((sum, p) => sum + p, 0);
    if (probability > 1e-15)
      found.push({ outcome: o, probability, posterior: joint.map((p) => p / probability) });
  }
  return found;
}

function assertSmall(problem: CheckProblem): void {
  if (problem.checks.length > 20)
    throw new RangeError(`policy: ${problem.checks.length} checks, at most 20 for an exact search`);
}
