/** Expected cost of repair: actions that may cure, in the order in which they are tried.
 *
 *    ECR = Σ_i Σ_c [C_i + F_ic (1 − cure_ic)] p_c Π_{j<i} (1 − cure_jc)  +  Σ_c S_c p_c Π_i (1 − cure_ic)
 *  p_c chance of a cause  C cost of an action  F what it costs more where it does not cure  S cost of what nothing cured
 *  all in any one currency (minutes or money)
 *  Source: [JENSEN2007, section 9.3], there F = 0; [HECKERMAN1995] for looking before one repairs, there F takes back the repair
 *  Valid: one cause at a time   Leaves out: costs that depend on the order
 */

/** Cost of a cause that was not cured: one for all, or one of each. */
type CostByCause = number | readonly number[];

/** An action that may cure: `cure[c]` is the chance that it cures cause c. Whether it did is seen at once, or it `fails` and costs more. */
export interface RepairAction {
  readonly cost: number;
  readonly cure: readonly number[];
  readonly fails?: CostByCause;
}

/** Expected cost of acting in that order until cured; what is never cured costs `service`. */
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
