/** What a check is worth in money.
 *    worth = max( saves, bits · worth of a bit )
 *    saves = ECR(now) − Σ P(outcome) · ECR(after outcome)
 *    worth of a bit = ( ECR(now) − Σ P(h) C(h) ) / H        H what is missing [bit]   C(h) cost of repair if h is known
 *  ECR: remedies in the order of chance of cure per cost until one cures (inference/repair-cost.ts). What buys the same for one part
 *  is one remedy, and exchanging an alternator cures whatever is wrong inside it. A remedy that does not cure costs a visit more,
 *  and so does saying that all is well where it is not. Prices: data/prices.json, editable.
 *  Few draws choose remedies by their own accidents, and the costs that they show after an outcome are too low; where each part of
 *  the draws pays for what the others chose, they are too high by about as much. `saves` takes the mean.   decision 0014
 */
import { middleOf, priceTable, remedyPrice, sameRepair } from '../faults/index.ts';
import type { Hypothesis } from './hypothesis.ts';
import { costOfActions, greedyActions, type Outcome, type RepairAction } from './inference/index.ts';
import type { BoatModel } from './model.ts';
import type { NextCheck } from './verdict.ts';
import criteria from './criteria.json' with { type: 'json' };

/** Remedies in the order in which they are tried. */
interface RepairPlan {
  /** Numbers of the hypotheses that the actions are for. */
  readonly causes: readonly number[];
  readonly actions: readonly RepairAction[];
  readonly order: readonly number[];
}

/** Expected cost of repair [units of the price table] for chances of what is still wrong. */
export function repairCost(model: BoatModel, probability: Float64Array): number {
  return costOfPlan(planFor(model, probability), probability);
}

/** What knowing the outcome saves in the expected cost of repair [units of the price table]. */
export function savingOf(model: BoatModel, outcomes: readonly Outcome[]): number {
  const before = new Float64Array(model.hypotheses.length + 1);
  let seen = 0;
  let foretold = 0;
  for (const { probability, posterior, parts } of outcomes) {
    for (let h = 0; h < before.length; h++) before[h]! += probability * posterior[h]!;
    const after = probability * repairCost(model, posterior);
    seen += after;
    foretold +=
      parts?.reduce((sum, { others, own }) => sum + costOfPlan(planFor(model, others), own), 0) ?? after;
  }
  return Math.max(0, repairCost(model, before) - (seen + foretold) / 2);
}

/** What a bit is worth [units of the price table/bit]: what knowing the cause would save, for each bit that is missing. Few checks
 *  decide by themselves, and a check that only leads on to others saves nothing at once. */
export function worthOfBit(model: BoatModel, chances: Float64Array): number {
  let missing = 0;
  let known = 0;
  chances.forEach((p, h) => {
    if (!(p > 0)) return;
    missing -= p * Math.log2(p);
    known += p * costIfKnown(model.hypotheses[h]);
  });
  return missing > 0 ? Math.max(0, repairCost(model, chances) - known) / missing : 0;
}

/** Money that the minutes of a check cost, risk counted as minutes. */
export function checkCost(minutes: number, risk: number): number {
  return ((minutes + (criteria.riskMinutes[risk] ?? 0)) / 60) * middleOf(priceTable.labourPerHour);
}

/** What of a check decides whether it is made. */
export type Worth = Pick<NextCheck, 'check' | 'bits' | 'bitsPerMinute' | 'worth' | 'costs'>;

/** Worth more than it costs, or so quick for what it tells that nobody would leave it out. */
export const isWorthIt = ({ bits, bitsPerMinute, worth, costs }: Worth): boolean =>
  bits >= criteria.leastBits && (worth > costs || bitsPerMinute >= criteria.worthBitsPerMinute);

/** Most worth for its cost first. */
export const inOrderOfWorth = <T extends Worth>(checks: readonly T[]): readonly T[] =>
  [...checks].sort((a, b) => b.worth / b.costs - a.worth / a.costs || (a.check < b.check ? -1 : 1));

function planFor({ hypotheses }: BoatModel, chances: Float64Array): RepairPlan {
  const whole = chances.reduce((sum, chance) => sum + chance, 0);
  const causes = Array.from(hypotheses.keys())
    .filter((h) => chances[h]! > criteria.leastCause * whole)
    .sort((a, b) => chances[b]! - chances[a]!)
    .slice(0, criteria.mostCauses);
  const own = causes.map((h): RepairAction => ({
    cost: costOf(hypotheses[h]!) + criteria.callBack,
    cure: causes.map((other) => (cures(hypotheses[h]!, hypotheses[other]!) ? 1 : 0)),
  }));
  const machines = new Set(causes.flatMap((h) => hypotheses[h]!.members.flatMap(inside)));
  const exchanges = [...machines].map((machine): RepairAction => ({
    cost: exchangeCost + criteria.callBack,
    cure: causes.map((h) => (hypotheses[h]!.members.every((one) => inside(one).includes(machine)) ? 1 : 0)),
  }));
  const actions = [...own, ...exchanges];
  return {
    causes,
    actions,
    order: greedyActions(
      causes.map((h) => chances[h]!),
      actions,
    ),
  };
}

/** Cost of a plan, straight in the chances. The last remedy is not called back for; causes that the plan has no remedy for go to
 *  the specialist. */
function costOfPlan({ causes, actions, order }: RepairPlan, chances: Float64Array): number {
  const own = causes.map((h) => chances[h]!);
  const cured = own.reduce((sum, chance) => sum + chance, 0);
  const left = chances.reduce((sum, chance) => sum + chance, 0) - cured;
  return (
    costOfActions(own, actions, order) - criteria.callBack * cured + Math.max(0, left) * criteria.specialist
  );
}

/** Whether the remedies for one set of faults put another right as well. */
const cures = (one: Hypothesis, other: Hypothesis): boolean =>
  other.members.every((b) => one.members.some((a) => sameRepair(a, b)));

const costOf = ({ members }: Hypothesis): number =>
  members.reduce((sum, { fault }) => sum + (fault.nature === 'normal' ? 0 : middleOf(remedyPrice(fault))), 0);

/** Of an alternator, with an hour's work. */
const exchangeCost = middleOf(priceTable.parts['alternator']!) + middleOf(priceTable.labourPerHour);

/** Undefined: nothing that is known here. */
function costIfKnown(hypothesis: Hypothesis | undefined): number {
  if (hypothesis === undefined) return criteria.specialist;
  const { members } = hypothesis;
  const exchangeable = members.length > 0 && members.every((one) => inside(one).length > 0);
  return exchangeable ? Math.min(exchangeCost, costOf(hypothesis)) : costOf(hypothesis);
}

/** The alternator that a fault is inside of. */
function inside({ fault, part }: { fault: { family: string; id: string }; part: string }): string[] {
  if (fault.family === 'alternator') return [part.replace(/^regulator/, 'alternator')];
  return [];
}
