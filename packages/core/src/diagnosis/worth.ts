/** What a check is worth in money.
 *    worth = max( saves, bits · worth of a bit )
 *    saves = ECR(now) − Σ P(outcome) · ECR(after outcome)
 *    worth of a bit = ( ECR(now) − Σ P(h) C(h) ) / H        H what is missing [bit]   C(h) cost of repair if h is known
 *  ECR: repair-plan.ts.
 *  Few draws choose remedies by their own accidents, and the costs that they show after an outcome are too low; where each part of
 *  the draws pays for what the others chose, they are too high by about as much. `saves` takes the mean.   decision 0015
 */
import type { Outcome } from './inference/index.ts';
import type { RepairPlan, Tariff } from './repair-plan.ts';
import type { NextCheck } from './verdict.ts';
import criteria from './criteria.json' with { type: 'json' };

/** Expected cost of repair [units of the price table] for chances of what is still wrong. */
export function repairCost(tariff: Tariff, chances: Float64Array): number {
  return tariff.costOfPlan(tariff.planFor(chances), chances);
}

/** What knowing the outcome saves in the expected cost of repair [units of the price table]. A plan that an outcome would lead to
 *  can be followed without it as well: what tells nothing saves nothing, however well the remedies are put in order. */
export function savingOf(tariff: Tariff, outcomes: readonly Outcome[]): number {
  const before = new Float64Array(outcomes[0]?.posterior.length ?? 0);
  for (const { probability, posterior } of outcomes) {
    for (let h = 0; h < before.length; h++) before[h]! += probability * posterior[h]!;
  }
  const cheapest = (plans: readonly RepairPlan[], chances: Float64Array): RepairPlan => {
    const costs = plans.map((plan) => tariff.costOfPlan(plan, chances));
    return plans[costs.indexOf(Math.min(...costs))]!;
  };
  const now = tariff.planFor(before);
  const plans = [now, ...outcomes.map(({ posterior }) => tariff.planFor(posterior))];
  let seen = 0;
  let foretold = 0;
  for (const { probability, posterior, parts } of outcomes) {
    const after = probability * tariff.costOfPlan(cheapest(plans, posterior), posterior);
    seen += after;
    foretold +=
      parts?.reduce((sum, { others, own }) => {
        const chosen = cheapest([now, tariff.planFor(others)], others);
        return sum + tariff.costOfPlan(chosen, own);
      }, 0) ?? after;
  }
  return Math.max(0, tariff.costOfPlan(cheapest(plans, before), before) - (seen + foretold) / 2);
}

/** What a bit is worth [units of the price table/bit]: what knowing the cause would save, for each bit that is missing. Few checks
 *  decide by themselves, and a check that only leads on to others saves nothing at once. */
export function worthOfBit(tariff: Tariff, chances: Float64Array): number {
  let missing = 0;
  let known = 0;
  chances.forEach((p, h) => {
    if (!(p > 0)) return;
    missing -= p * Math.log2(p);
    known += p * tariff.costIfKnown(h);
  });
  return missing > 0 ? Math.max(0, repairCost(tariff, chances) - known) / missing : 0;
}

/** What a check is worth [units of the price table] by what it saves and tells. One that tells next to nothing is worth nothing:
 *  what it seems to save is an accident of few draws. */
export const worthOf = (saves: number, bits: number, ofBit: number): number =>
  bits < criteria.leastBits ? 0 : Math.max(saves, bits * ofBit);

/** Money that the minutes of a check cost, risk counted as minutes. */
export function checkCost(tariff: Tariff, minutes: number, risk: number): number {
  return ((minutes + (criteria.riskMinutes[risk] ?? 0)) / 60) * tariff.labourPerHour;
}

/** What of a check decides whether it is made. */
export type Worth = Pick<NextCheck, 'check' | 'bitsPerMinute' | 'worth' | 'costs'>;

/** Worth more than it costs, unless it is all too slow for what it tells: what such a check seems to save is mostly noise. */
export const isWorthIt = ({ bitsPerMinute, worth, costs }: Worth): boolean =>
  worth > costs && bitsPerMinute >= criteria.leastBitsPerMinute;

/** What is worth it first, and of that the most worth for its cost. Where an hour costs nothing, the most worth. */
export const inOrderOfWorth = <T extends Worth>(checks: readonly T[]): readonly T[] =>
  [...checks].sort(
    (a, b) =>
      Number(isWorthIt(b)) - Number(isWorthIt(a)) ||
      b.worth * a.costs - a.worth * b.costs ||
      b.worth - a.worth ||
      b.bitsPerMinute - a.bitsPerMinute ||
      (a.check < b.check ? -1 : 1),
  );
