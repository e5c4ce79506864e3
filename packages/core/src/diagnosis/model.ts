/** The boat as the inference engine sees it: hypotheses are placed faults, unknowns are the boat's own, observables are
 *  placed checks. A draw of the unknowns is a possible world; a world under a condition is an operating point.
 *
 *  Three coordinates follow the boat's own: the severity of the fault, whether an intermittent one shows on this visit,
 *  and the severity of a second fault.
 *
 *  A check read before a repair and after it are two observables: the one sees the hypothesis as it stands, the other the same
 *  world without the members that were put right.
 */
import { boatAt, unknownsOf, type Boat, type BoatDescription } from '../boat/index.ts';
import type { PlacedCheck } from '../checks/index.ts';
import type { PlacedFault } from '../faults/index.ts';
import { applyHypothesis, singleHypotheses, type Hypothesis } from './hypothesis.ts';
import {
  conditionKey,
  Operator,
  readProbe,
  type Condition,
  type Models,
  type OperatingPoint,
  type Probe,
} from '../operate/index.ts';
import { errorScaleOf, type ErrorScale } from './error-scale.ts';
import type { Narrowing } from './narrowing.ts';
import type { Model, Observable } from './inference/index.ts';
import { normalCumulative, observableAt, widthOf } from './inference/index.ts';

/** One possible world: ask it for operating points. Valid until the next world is made. */
export interface World {
  readonly boat: Boat;
  readonly at: (condition: Condition) => OperatingPoint;
  readonly read: (point: OperatingPoint, probe: Probe) => number;
}

/** Ids of the placed faults that were put right, sorted. The model keeps each set once: equal sets are the same object. */
export type Repairs = readonly string[];
const noRepairs: Repairs = [];

export class BoatModel implements Model {
  readonly dimensions: number;
  readonly unknowns: readonly string[];
  /** Numbers are on their error scale. */
  readonly observables: Observable[] = [];
  /** By observable: its check, its scale (undefined for answers in words), and what was put right before. */
  readonly checks: PlacedCheck[] = [];
  readonly scales: (ErrorScale | undefined)[] = [];
  readonly repairs: Repairs[] = [];
  /** The healthy boat first, then single faults, then the pairs that were weighed. */
  readonly hypotheses: Hypothesis[];
  operatingPoints = 0;
  notConverged = 0;
  private readonly operator: Operator;
  private readonly narrowing: Narrowing | undefined;
  private readonly own: Float64Array;
  private readonly repairSets = new Map<string, Repairs>();

  constructor(
    readonly description: BoatDescription,
    faults: readonly PlacedFault[],
    private readonly placed: readonly PlacedCheck[],
    options: { readonly models?: Models; readonly narrowing?: Narrowing | undefined } = {},
  ) {
    this.unknowns = unknownsOf(description);
    this.dimensions = this.unknowns.length + 3;
    this.hypotheses = singleHypotheses(faults);
    this.narrowing = options.narrowing;
    this.own = new Float64Array(this.unknowns.length);
    this.operator = new Operator(boatAt(description), options.models);
    this.repairsOf([]);
  }

  /** The number of a hypothesis; a new one for a pair not weighed before. */
  weigh(hypothesis: Hypothesis): number {
    const known = this.hypotheses.findIndex(({ id }) => id === hypothesis.id);
    return known >= 0 ? known : this.hypotheses.push(hypothesis) - 1;
  }

  /** The model's own set of those repairs. Of a new one all placed checks become observables, for they share operating points. */
  repairsOf(ids: readonly string[]): Repairs {
    const sorted = [...new Set(ids)].sort();
    const key = sorted.join(' ');
    const known = this.repairSets.get(key);
    if (known !== undefined) return known;
    const repairs = sorted.length === 0 ? noRepairs : sorted;
    this.repairSets.set(key, repairs);
    for (const check of this.placed) this.observe(check, repairs);
    return repairs;
  }

  /** The observable of a placed check under its own condition; -1 for an id that this boat has not. */
  observableOf(id: string, repairs: Repairs = noRepairs): number {
    return this.checks.findIndex((check, number) => check.id === id && this.repairs[number] === repairs);
  }

  /** Adds an observable (a check, perhaps under another condition than its own) and returns its number. */
  observe(check: PlacedCheck, repairs: Repairs): number {
    this.checks.push(check);
    this.repairs.push(repairs);
    const { outcome } = check;
    if (outcome.kind === 'number') {
      const scale = errorScaleOf(outcome);
      const [low, high] = outcome.range;
      this.scales.push(scale);
      this.observables.push({ kind: 'numeric', low: scale.to(low), high: scale.to(high) });
    } else {
      this.scales.push(undefined);
      this.observables.push({ kind: 'categorical', outcomes: outcome.answers.length });
    }
    return this.checks.length - 1;
  }

  predict(hypothesis: number, u: Float64Array, wanted: readonly number[], out: Float64Array): void {
    const repairs = wanted.map((number) => this.repairsThatCount(hypothesis, number));
    // One world after the other: the operator holds one at a time.
    for (const set of new Set(repairs)) {
      const world = this.world(hypothesis, u, set);
      let slot = 0;
      wanted.forEach((number, at) => {
        const width = widthOf(observableAt(this.observables, number));
        if (repairs[at] === set) this.write(world, number, out.subarray(slot, slot + width));
        slot += width;
      });
    }
  }

  /** Numbers read under the same condition after the same repairs: one operating point gives them all. */
  companions(observable: number): readonly number[] {
    const check = this.checks[observable];
    if (check?.outcome.kind !== 'number') return [];
    const key = conditionKey(check.condition);
    const repairs = this.repairs[observable];
    return this.checks.flatMap((other, number) =>
      other.outcome.kind === 'number' &&
      this.repairs[number] === repairs &&
      conditionKey(other.condition) === key
        ? [number]
        : [],
    );
  }

  /** The world of a hypothesis at a draw, after repairs. */
  world(hypothesis: number, u: Float64Array, repairs: Repairs = noRepairs): World {
    const boat = this.boatOf(hypothesis, u, repairs);
    const { operator } = this;
    operator.set(boat);
    const points = new Map<string, OperatingPoint>();
    return {
      boat,
      at: (condition) => {
        const key = conditionKey(condition);
        const known = points.get(key);
        if (known !== undefined) return known;
        const point = operator.at(condition);
        this.operatingPoints++;
        if (!point.converged) this.notConverged++;
        points.set(key, point);
        return point;
      },
      read: (point, probe) => readProbe(operator, boat, point, probe),
    };
  }

  /** An observable in the unit of its check, from the engine's scale. */
  fromScale(observable: number, scaled: number): number {
    return this.scales[observable]?.from(scaled) ?? scaled;
  }

  /** Repairs of what a hypothesis has not leave its worlds as they are. */
  private repairsThatCount(hypothesis: number, observable: number): Repairs {
    const repairs = this.repairs[observable] ?? noRepairs;
    const members = this.hypotheses[hypothesis]?.members ?? [];
    return members.some(({ id }) => repairs.includes(id)) ? repairs : noRepairs;
  }

  private write(world: World, number: number, row: Float64Array): void {
    const { outcome, condition, part = '' } = this.checks[number]!;
    if (outcome.kind === 'number') {
      const point = world.at(condition);
      const read = point.converged ? world.read(point, outcome.probe) : NaN;
      row[0] = this.scales[number]?.to(read) ?? read;
    } else outcome.chances({ boat: world.boat, part, at: world.at, read: world.read }, row);
  }

  private boatOf(hypothesis: number, u: Float64Array, repairs: Repairs): Boat {
    const boat = boatAt(this.description, this.ownUnknowns(u));
    const chosen = this.hypotheses[hypothesis];
    if (chosen === undefined || chosen.members.length === 0) return boat;
    const [first = 0, presence = 0, second = 0] = u.subarray(this.dimensions - 3);
    applyHypothesis(chosen, boat, [normalCumulative(first), normalCumulative(second)], repairs);
    if (boat.traits.presence >= 1 || normalCumulative(presence) < boat.traits.presence) return boat;
    // On a day without the fault only its history is left: how it comes and goes.
    const { presence: chance, onset } = boat.traits;
    const absent = boatAt(this.description, this.ownUnknowns(u));
    return { ...absent, traits: { ...absent.traits, presence: chance, onset } };
  }

  /** The boat's own coordinates, narrowed by what an earlier healthy visit told. */
  private ownUnknowns(u: Float64Array): Float64Array {
    const { narrowing, own } = this;
    for (let j = 0; j < own.length; j++) {
      own[j] = narrowing === undefined ? u[j]! : narrowing.middle[j]! + narrowing.spread[j]! * u[j]!;
    }
    return own;
  }
}
