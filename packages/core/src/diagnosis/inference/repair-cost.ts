/** Expected cost of repair, the order in which to act, and what a check is worth against it.
 *
 *    ECR = Σ_i [(1 − Σ_{j<i} p_j) C_i(look) + p_i C_i(repair)] + (1 − Σ p) C(service)      look in order of p / C(look)
 *    a check is worth making only if  C(check) + Σ P(outcome) ECR(outcome) < ECR
 *  p chance that the part is the cause  C cost, in any one currency (minutes or money)
 *  Source: [HECKERMAN1995]   Valid: one cause   Leaves out: costs that depend on the order
 */

/** Costs of one part: of looking whether it is the cause, and of putting it right. */
export interface PartCost {
  readonly look: number;
  readonly repair: number;
}

/** ECR and the order of looking.
 *  `chances` may sum to less than 1: the rest goes to `service`. Parts dearer to look at than service are left to it.
 *  Errors: RangeError for lengths that differ, negative costs or chances */
export function expectedCostOfRepair(
  chances: ArrayLike<number>,
  parts: readonly PartCost[],
  service: number,
): { cost: number; order: number[] } {
  if (chances.length !== parts.length)
    throw new RangeError(`expectedCostOfRepair: ${chances.length} chances for ${parts.length} parts`);
  parts.forEach(({ look, repair }, i) => {
    if (!(look >= 0 && repair >= 0 && chances[i]! >= 0))
      throw new RangeError(
        `expectedCostOfRepair: part ${i} has chance ${chances[i]}, look ${look}, repair ${repair}; none may be negative`,
      );
  });
  const order = parts.map((_, i) => i).filter((i) => chances[i]! > 0);
  order.sort((a, b) => chances[b]! * parts[a]!.look - chances[a]! * parts[b]!.look || a - b);
  let cost = service;
  let best = 0;
  for (let length = 1; length <= order.length; length++) {
    const trial = costOfOrder(chances, parts, service, order.slice(0, length));
    if (trial < cost) [cost, best] = [trial, length];
  }
  return { cost, order: order.slice(0, best) };
}

/** Cost saved by a check: ECR without it − (its cost + the expected ECR after it). Below zero: not worth making. */
export function valueOfCheck(
  checkCost: number,
  before: number,
  outcomes: readonly { readonly probability: number; readonly cost: number }[],
): number {
  return before - checkCost - outcomes.reduce((sum, { probability, cost }) => sum + probability * cost, 0);
}

/** Cost of a cause that was not cured: one for all, or one of each. */
type CostByCause = number | readonly number[];

/** An action that may cure: `cure[c]` is the chance that it cures cause c. Whether it did is seen at once, or it `fails` and costs more. */
export interface RepairAction {
  readonly cost: number;
  readonly cure: readonly number[];
  readonly fails?: CostByCause;
}

/** Expected cost of acting in that order until cured; what is never cured costs `service`.
 *    Σ_i Σ_c [C_i + F_ic (1 − cure_ic)] p_c Π_{j<i} (1 − cure_jc)
 *  Source: [JENSEN2007, section 9.3]; there F = 0 */
export function costOfActions(
  chances: readonly number[],
  actions: readonly RepairAction[],
  order: readonly number[],
  service: CostByCause = 0,
): number {
  const left = chances.slice();
  let cost = 0;
  for (const i of order) {
    const action = actions[i];
    if (action === undefined)
      throw new RangeError(`costOfActions: action ${i} is outside 0 to ${actions.length - 1}`);
    cost += act(left, action);
  }
  return cost + costLeft(left, service);
}

/** Actions by chance of cure per cost, given that those before did not cure. Best first; not always the best order.
 *  With `service`, they end where the rest is cheaper left to it. */
export function greedyActions(
  chances: readonly number[],
  actions: readonly RepairAction[],
  service?: CostByCause,
): number[] {
  const left = chances.slice();
  const open = new Set(actions.keys());
  const order: number[] = [];
  let spent = 0;
  let ends = 0;
  let least = costLeft(left, service ?? 0);
  while (open.size > 0) {
    let best = -1;
    let bestRate = -Infinity;
    for (const i of open) {
      const after = left.slice();
      const costs = act(after, actions[i]!);
      const cured = left.reduce((sum, p, c) => sum + p - after[c]!, 0);
      const rate = cured > 0 ? cured / costs : 0;
      if (rate > bestRate) [best, bestRate] = [i, rate];
    }
    order.push(best);
    open.delete(best);
    spent += act(left, actions[best]!);
    const whole = spent + costLeft(left, service ?? 0);
    if (whole < least) [least, ends] = [whole, order.length];
  }
  return service === undefined ? order : order.slice(0, ends);
}

/** Cost of an action; `left` becomes what it does not cure. */
function act(left: number[], { cost, cure, fails = 0 }: RepairAction): number {
  const spent = cost * left.reduce((sum, p) => sum + p, 0);
  for (let c = 0; c < left.length; c++) left[c]! *= 1 - (cure[c] ?? 0);
  return spent + costLeft(left, fails);
}

const costLeft = (left: readonly number[], service: CostByCause): number =>
  left.reduce((sum, p, c) => sum + p * (typeof service === 'number' ? service : service[c]!), 0);

/** All orders of the actions with their expected cost, cheapest first. An order ends where every cause is surely cured.
 *  Valid: up to 8 actions   Errors: RangeError for more */
export function rankedOrders(
  chances: readonly number[],
  actions: readonly RepairAction[],
  service = 0,
): { order: number[]; cost: number }[] {
  if (actions.length > 8) throw new RangeError(`rankedOrders: ${actions.length} actions, at most 8`);
  const found = new Map<string, { order: number[]; cost: number }>();
  const grow = (order: number[], left: readonly number[]): void => {
    if (order.length === actions.length || left.every((p) => p === 0)) {
      found.set(order.join(' '), { order, cost: costOfActions(chances, actions, order, service) });
      return;
    }
    actions.forEach((action, i) => {
      if (!order.includes(i))
        grow(
          [...order, i],
          left.map((p, c) => p * (1 - (action.cure[c] ?? 0))),
        );
    });
  };
  grow([], chances);
  return [...found.values()].sort((a, b) => a.cost - b.cost);
}

function costOfOrder(
  chances: ArrayLike<number>,
  parts: readonly PartCost[],
  service: number,
  order: readonly number[],
): number {
  let left = 1;
  let cost = 0;
  for (const i of order) {
    cost += Math.max(0, left) * parts[i]!.look + chances[i]! * parts[i]!.repair;
    left -= chances[i]!;
  }
  return cost + Math.max(0, left) * service;
}
