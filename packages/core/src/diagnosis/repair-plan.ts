/** Remedies in the order in which they would be tried, and what that costs.
 *    ECR = Σ_i C_i P(not yet cured) + P(never cured) · C(specialist)      C of a cause that is known: its remedy
 *  What buys the same for one part is one remedy, and exchanging an alternator cures whatever is wrong inside it. A remedy that does not
 *  cure costs a visit more, and so does saying that all is well where it is not. Where going on costs more, a specialist is called,
 *  who finds the cause and puts it right.   Prices: data/prices.json, editable
 */
import { middleOf, priceTable, remedyPrice, sameRepair } from '../faults/index.ts';
import type { Hypothesis } from './hypothesis.ts';
import { costOfActions, greedyActions, type RepairAction } from './inference/index.ts';
import criteria from './criteria.json' with { type: 'json' };

export interface RepairPlan {
  /** Numbers of the hypotheses that the actions are for; all others go to the specialist. */
  readonly causes: readonly number[];
  readonly actions: readonly RepairAction[];
  readonly order: readonly number[];
  /** Of each cause, and last of all others: the specialist called back, with what he puts right where it is listed. */
  readonly service: readonly number[];
}

/** A good plan for chances by hypothesis; what lies beyond the list is "nothing fits". Not always the cheapest. */
export function planFor(hypotheses: readonly Hypothesis[], chances: Float64Array): RepairPlan {
  const whole = chances.reduce((sum, chance) => sum + chance, 0);
  const causes = Array.from(hypotheses.keys())
    .filter((h) => chances[h]! > criteria.leastCause * whole)
    .sort((a, b) => chances[b]! - chances[a]!)
    .slice(0, criteria.mostCauses);
  const own = causes.map((h): RepairAction => ({
    cost: remedyOf(hypotheses[h]!) + criteria.callBack,
    cure: causes.map((other) => (cures(hypotheses[h]!, hypotheses[other]!) ? 1 : 0)),
  }));
  const machines = new Set(causes.flatMap((h) => hypotheses[h]!.members.flatMap(inside)));
  const exchanges = [...machines].map((machine): RepairAction => ({
    cost: exchangeCost + criteria.callBack,
    cure: causes.map((h) => (hypotheses[h]!.members.every((one) => inside(one).includes(machine)) ? 1 : 0)),
  }));
  const actions = [...own, ...exchanges];
  const service = [...causes.map((h) => costIfKnown(hypotheses[h])), 0].map(
    (known) => known + criteria.specialist + criteria.callBack,
  );
  return {
    causes,
    actions,
    order: greedyActions(columnsOf(causes, chances), actions, service),
    service,
  };
}

/** Expected cost of a plan [units of the price table], straight in the chances. */
export function costOfPlan(
  { causes, actions, order, service }: RepairPlan,
  hypotheses: readonly Hypothesis[],
  chances: Float64Array,
): number {
  const columns = columnsOf(causes, chances);
  let unlisted = 0;
  chances.forEach((p, h) => {
    if (p > 0 && !causes.includes(h)) unlisted += p * costIfKnown(hypotheses[h]);
  });
  const whole = columns.reduce((sum, p) => sum + p, 0);
  // The first visit is no call-back.
  return costOfActions(columns, actions, order, service) + unlisted - criteria.callBack * whole;
}

/** Cost of putting right what is known. Undefined, nothing that is known here: no more than finding it. */
export function costIfKnown(hypothesis: Hypothesis | undefined): number {
  if (hypothesis === undefined) return 0;
  const { members } = hypothesis;
  const exchangeable = members.length > 0 && members.every((one) => inside(one).length > 0);
  return exchangeable ? Math.min(exchangeCost, remedyOf(hypothesis)) : remedyOf(hypothesis);
}

/** Chances of the causes, and last of all others. */
function columnsOf(causes: readonly number[], chances: Float64Array): number[] {
  const own = causes.map((h) => chances[h]!);
  const whole = chances.reduce((sum, chance) => sum + chance, 0);
  return [...own, Math.max(0, whole - own.reduce((sum, chance) => sum + chance, 0))];
}

/** Whether the remedies for one set of faults put another right as well. */
const cures = (one: Hypothesis, other: Hypothesis): boolean =>
  other.members.every((b) => one.members.some((a) => sameRepair(a, b)));

const remedies = new WeakMap<Hypothesis, number>();

/** Price of all that the hypothesis wants put right. */
function remedyOf(hypothesis: Hypothesis): number {
  const kept = remedies.get(hypothesis);
  if (kept !== undefined) return kept;
  const price = hypothesis.members.reduce(
    (sum, { fault }) => sum + (fault.nature === 'normal' ? 0 : middleOf(remedyPrice(fault))),
    0,
  );
  remedies.set(hypothesis, price);
  return price;
}

/** Of an alternator, with an hour's work. */
const exchangeCost = middleOf(priceTable.parts['alternator']!) + middleOf(priceTable.labourPerHour);

/** The alternator that a fault is inside of. */
function inside({ fault, part }: { fault: { family: string; id: string }; part: string }): string[] {
  if (fault.family === 'alternator') return [part.replace(/^regulator/, 'alternator')];
  return [];
}
