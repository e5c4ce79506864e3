/** Remedies in the order in which they would be tried, and what that costs.
 *    ECR = Σ_i [C_i P(not yet cured) + F_i P(not cured by it)] + P(never cured) · C(specialist)      C of a cause that is known: its remedy
 *  What buys the same for one part is one remedy, and exchanging an alternator cures whatever is wrong inside it. A remedy that does not
 *  cure costs a visit more; a fault told as normal costs what it does until then as well. Where going on costs more, a specialist is
 *  called, who finds the cause and puts it right.   Prices: data/prices.json, editable
 *  Leaves out: what of two faults was put right already; both are paid where they are put right together later (too dear).
 */
import {
  exchangePrice,
  insideAlternator,
  middleOf,
  remedyPrice,
  sameRepair,
  type PlacedFault,
  type PriceTable,
} from '../faults/index.ts';
import { isNormal, type Hypothesis } from './hypothesis.ts';
import { costOfActions, greedyActions, type RepairAction } from './inference/index.ts';
import criteria from './criteria.json' with { type: 'json' };

export interface RepairPlan {
  /** Numbers of the hypotheses that the actions are for; all others go to the specialist. */
  readonly causes: readonly number[];
  readonly actions: readonly RepairAction[];
  readonly order: readonly number[];
  /** Of each cause, and last of all others: the specialist, with what he puts right where it is listed. */
  readonly service: readonly number[];
}

/** The prices of a table, for the hypotheses of a boat. Chances are by hypothesis; what lies beyond the list is "nothing fits". */
export class Tariff {
  private readonly known: number[] = [];
  /** Of an alternator. */
  private readonly exchange: number;
  private readonly callBack: number;
  private readonly specialist: number;
  private readonly leftBehind: number;

  /** `hypotheses` may grow. */
  constructor(
    private readonly hypotheses: readonly Hypothesis[],
    private readonly prices: PriceTable,
  ) {
    this.exchange = middleOf(exchangePrice(prices));
    this.callBack = middleOf(prices.visits['call-back']);
    this.specialist = middleOf(prices.visits.specialist);
    this.leftBehind = middleOf(prices.visits['left-behind']);
  }

  /** Money that an hour costs [units of the price table/h]. */
  get labourPerHour(): number {
    return middleOf(this.prices.labourPerHour);
  }

  /** Whether its remedy costs so many call-backs that one is to be surer of it. */
  isDear(h: number): boolean {
    return this.costIfKnown(h) >= criteria.dearCallBacks * this.callBack;
  }

  /** A good plan, not always the cheapest. */
  planFor(chances: Float64Array): RepairPlan {
    const whole = chances.reduce((sum, chance) => sum + chance, 0);
    const causes = Array.from(this.hypotheses.keys())
      .filter((h) => chances[h]! > criteria.leastCause * whole)
      .sort((a, b) => chances[b]! - chances[a]!)
      .slice(0, criteria.mostCauses);
    const those = causes.map((h) => this.hypotheses[h]!);
    const prices = those.map((one) => this.remedy(one));
    // Of what is left behind, only a fault does harm; what is not listed may be one.
    const missed = [...those.map(isNormal), false].map(
      (normal) => this.callBack + (normal ? 0 : this.leftBehind),
    );
    const own = those.map((one, i): RepairAction => ({
      cost: prices[i]!,
      // A remedy is no cure of what takes a dearer one.
      cure: those.map((other, j) => (prices[i]! >= prices[j]! && cures(one, other) ? 1 : 0)),
      fails: isNormal(one) ? missed : this.callBack,
    }));
    const machines = new Set(those.flatMap(({ members }) => members.flatMap(inside)));
    const exchanges = [...machines].map((machine): RepairAction => ({
      cost: this.exchange,
      cure: those.map(({ members }) => (members.every((one) => inside(one).includes(machine)) ? 1 : 0)),
      fails: this.callBack,
    }));
    const actions = [...own, ...exchanges];
    const service = [...causes.map((h) => this.costIfKnown(h)), 0].map((known) => known + this.specialist);
    return { causes, actions, order: greedyActions(columnsOf(causes, chances), actions, service), service };
  }

  /** Expected cost of a plan [units of the price table], straight in the chances. */
  costOfPlan({ causes, actions, order, service }: RepairPlan, chances: Float64Array): number {
    let unlisted = 0;
    chances.forEach((p, h) => {
      if (p > 0 && h < this.hypotheses.length && !causes.includes(h)) unlisted += p * this.costIfKnown(h);
    });
    return costOfActions(columnsOf(causes, chances), actions, order, service) + unlisted;
  }

  /** Cost of putting right what is known. Beyond the list, known to be nothing that is known here: the specialist. */
  costIfKnown(h: number): number {
    const hypothesis = this.hypotheses[h];
    if (hypothesis === undefined) return this.specialist;
    return (this.known[h] ??= this.priceIfKnown(hypothesis));
  }

  private priceIfKnown(hypothesis: Hypothesis): number {
    const { members } = hypothesis;
    const remedy = this.remedy(hypothesis);
    const exchangeable = members.length > 0 && members.every((one) => inside(one).length > 0);
    return exchangeable ? Math.min(this.exchange, remedy) : remedy;
  }

  /** Price of all that the hypothesis wants put right. */
  private remedy({ members }: Hypothesis): number {
    return members.reduce(
      (sum, { fault }) => sum + (fault.nature === 'normal' ? 0 : middleOf(remedyPrice(fault, this.prices))),
      0,
    );
  }
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

/** The alternator that a fault is inside of; a regulator inside is named like its machine. */
const inside = (placed: PlacedFault): string[] =>
  insideAlternator(placed) ? [placed.part.replace(/^regulator/, 'alternator')] : [];
