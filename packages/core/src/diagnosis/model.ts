/** The boat as the inference engine sees it: hypotheses are placed faults, unknowns are the boat's own, observables are
 *  placed checks. A draw of the unknowns is a possible world; a world under a condition is an operating point.
 *
 *  Three coordinates follow the boat's own: the severity of the fault, whether an intermittent one shows on this visit,
 *  and the severity of a second fault.
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
import { normalCumulative } from './inference/index.ts';

/** One possible world: ask it for operating points. Valid until the next world is made. */
export interface World {
  readonly boat: Boat;
  readonly at: (condition: Condition) => OperatingPoint;
  readonly read: (point: OperatingPoint, probe: Probe) => number;
}

export class BoatModel implements Model {
  readonly dimensions: number;
  readonly unknowns: readonly string[];
  readonly checks: PlacedCheck[];
  /** Numbers are on their error scale. */
  readonly observables: Observable[];
  /** By observable; undefined for answers in words. */
  readonly scales: (ErrorScale | undefined)[];
  /** The healthy boat first, then single faults, then the pairs that were weighed. */
  readonly hypotheses: Hypothesis[];
  operatingPoints = 0;
  notConverged = 0;
  private readonly operator: Operator;
  private readonly narrowing: Narrowing | undefined;
  private readonly own: Float64Array;

  constructor(
    readonly description: BoatDescription,
    faults: readonly PlacedFault[],
    checks: readonly PlacedCheck[],
    options: { readonly models?: Models; readonly narrowing?: Narrowing | undefined } = {},
  ) {
    this.unknowns = unknownsOf(description);
    this.dimensions = this.unknowns.length + 3;
    this.hypotheses = singleHypotheses(faults);
    this.narrowing = options.narrowing;
    this.own = new Float64Array(this.unknowns.length);
    this.checks = [];
    this.observables = [];
    this.scales = [];
    this.operator = new Operator(boatAt(description), options.models);
    for (const check of checks) this.observe(check);
  }

  /** The number of a hypothesis; a new one for a pair not weighed before. */
  weigh(hypothesis: Hypothesis): number {
    const known = this.hypotheses.findIndex(({ id }) => id === hypothesis.id);
    return known >= 0 ? known : this.hypotheses.push(hypothesis) - 1;
  }

  /** Adds an observable (a check, perhaps under another condition than its own) and returns its number. */
  observe(check: PlacedCheck): number {
    this.checks.push(check);
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
    const world = this.world(hypothesis, u);
    let slot = 0;
    for (const number of wanted) {
      const check = this.checks[number];
      if (check === undefined) throw new RangeError(`BoatModel.predict: no observable ${number}`);
      slot = this.write(world, number, check, out, slot);
    }
  }

  /** Numbers read under the same condition: one operating point gives them all. */
  companions(observable: number): readonly number[] {
    const check = this.checks[observable];
    if (check?.outcome.kind !== 'number') return [];
    const key = conditionKey(check.condition);
    return this.checks.flatMap((other, number) =>
      other.outcome.kind === 'number' && conditionKey(other.condition) === key ? [number] : [],
    );
  }

  /** The world of a hypothesis at a draw. */
  world(hypothesis: number, u: Float64Array): World {
    const boat = this.boatOf(hypothesis, u);
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

  private write(world: World, number: number, check: PlacedCheck, out: Float64Array, slot: number): number {
    const { outcome } = check;
    const scale = this.scales[number];
    if (outcome.kind === 'number') {
      const point = world.at(check.condition);
      const read = point.converged ? world.read(point, outcome.probe) : NaN;
      out[slot] = scale === undefined ? read : scale.to(read);
      return slot + 1;
    }
    const count = outcome.answers.length;
    const row = out.subarray(slot, slot + count);
    outcome.chances({ boat: world.boat, part: check.part ?? '', at: world.at, read: world.read }, row);
    return slot + count;
  }

  private boatOf(hypothesis: number, u: Float64Array): Boat {
    const boat = boatAt(this.description, this.ownUnknowns(u));
    const chosen = this.hypotheses[hypothesis];
    if (chosen === undefined || chosen.members.length === 0) return boat;
    const [first = 0, presence = 0, second = 0] = u.subarray(this.dimensions - 3);
    applyHypothesis(chosen, boat, [normalCumulative(first), normalCumulative(second)]);
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
