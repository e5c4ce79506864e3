/** What a check is worth in money: the expected cost of putting the boat right, before and after it.
 *    saves = ECR(now) − Σ P(outcome) · ECR(after outcome)
 *  ECR: remedies in the order of chance of cure per cost until one cures (inference/repair-cost.ts). Each suspect has its own
 *  remedy; exchanging an alternator cures whatever is wrong inside it. A normal state costs the visit that it takes to find
 *  that the explanation was wrong. Prices: data/prices.json, editable.
 */
import { priceTable, remedyPrice, type PriceRange } from '../faults/index.ts';
import { costOfActions, greedyActions, type RepairAction } from './inference/index.ts';
import type { BoatModel } from './model.ts';
import criteria from './criteria.json' with { type: 'json' };

const middle = ({ low, high }: PriceRange): number => (low + high) / 2;

/** Expected cost of repair [units of the price table] for chances of what is still wrong. */
export function repairCost(model: BoatModel, probability: ArrayLike<number>): number {
  const causes = model.hypotheses
    .map((hypothesis, h) => ({ hypothesis, chance: probability[h] ?? 0 }))
    .filter(({ chance }) => chance > criteria.leastCause)
    .sort((a, b) => b.chance - a.chance)
    .slice(0, criteria.mostCauses);
  const own: RepairAction[] = causes.map(({ hypothesis }, index) => ({
    cost: hypothesis.members.reduce(
      (sum, { fault }) => sum + costOf(fault.nature, middle(remedyPrice(fault))),
      0,
    ),
    cure: causes.map((_, other) => (other === index ? 1 : 0)),
  }));
  const machines = new Set(causes.flatMap(({ hypothesis }) => hypothesis.members.flatMap(inside)));
  const exchanges: RepairAction[] = [...machines].map((machine) => ({
    cost: middle(priceTable.parts['alternator'] ?? { low: 0, high: 0 }) + middle(priceTable.labourPerHour),
    cure: causes.map(({ hypothesis }) =>
      hypothesis.members.every((one) => inside(one).includes(machine)) ? 1 : 0,
    ),
  }));
  const actions = [...own, ...exchanges];
  const chances = causes.map(({ chance }) => chance);
  const left = 1 - chances.reduce((sum, chance) => sum + chance, 0);
  const cost = costOfActions(chances, actions, greedyActions(chances, actions));
  return cost + Math.max(0, left) * criteria.specialist;
}

/** Money that the minutes of a check cost, risk counted as minutes. */
export function checkCost(minutes: number, risk: number): number {
  return ((minutes + (criteria.riskMinutes[risk] ?? 0)) / 60) * middle(priceTable.labourPerHour);
}

function costOf(nature: 'fault' | 'normal', price: number): number {
  return nature === 'normal' ? criteria.callBack : price;
}

/** The alternator that a fault is inside of. */
function inside({ fault, part }: { fault: { family: string; id: string }; part: string }): string[] {
  if (fault.family === 'alternator') return [part.replace(/^regulator/, 'alternator')];
  return [];
}
