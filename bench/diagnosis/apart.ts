/** Which states no check can tell apart, whatever is asked: physics, or a missing check?
 *
 *  On the median boat of each template, state a at a severity against state b at the severity nearest to it:
 *    D = min over b's severity of  Σ over checks of  ½ (Δ / σ)²  for a number,  Σ p ln(p / q)  for answers      [nat]
 *  the evidence of all checks together if the rest of the boat were known; averaged over a's severities.
 *  Below about 1 nat the two are one state to any technician; below about 3 they need luck.
 *  Physics or a missing check: the volts of every terminal against the first bank's negative, under every condition that a
 *  check asks for. Where none differs by more than three errors of a voltage (0.1 V at 12 V), the circuit itself is the same.
 */
import {
  boatAt,
  boatFromTemplate,
  cloneBoat,
  templateIds,
  type Boat,
  type BoatDescription,
  type Terminal,
  type TenFacts,
} from '../../packages/core/src/boat/index.ts';
import { placedChecks, type PlacedCheck } from '../../packages/core/src/checks/index.ts';
import {
  keepOrdinary,
  placedFaults,
  sameRepair,
  type PlacedFault,
} from '../../packages/core/src/faults/index.ts';
import {
  conditionKey,
  Operator,
  readProbe,
  type Condition,
  type OperatingPoint,
  type Probe,
} from '../../packages/core/src/operate/index.ts';

export interface Alike {
  readonly boat: string;
  readonly one: string;
  readonly other: string;
  /** Evidence of all checks together [nat]. */
  readonly evidence: number;
  /** Checks that tell most. */
  readonly best: readonly string[];
  /** Terminal and state of the engine at which the volts differ most, and by how much [V at 12 V]; severities matched as well as may be. */
  readonly unread: { readonly where: string; readonly volts: number };
}

/** Volts that a check would have to find, at 12 V; below it the circuit counts as the same. */
export const NOTICEABLE = 0.3;

const SEVERITIES = [0.1, 0.3, 0.5, 0.7, 0.9];
const variants: readonly (readonly [string, TenFacts])[] = [
  ['', {}],
  [', outside regulator', { regulatorPlace: 'outside', excitation: 'ignition' }],
];

/** Pairs below a limit of evidence that are not the same repair, least told apart first. */
export function alikeStates(limit: number): Alike[] {
  const found: Alike[] = [];
  for (const template of templateIds) {
    for (const [words, facts] of variants) {
      if (template === 'two-alternators' && words === '') continue;
      const description = boatFromTemplate(template, facts);
      found.push(...alikeOn(template + words, description, limit));
    }
  }
  return found.sort((a, b) => a.evidence - b.evidence);
}

function alikeOn(boat: string, description: BoatDescription, limit: number): Alike[] {
  const operator = new Operator(boatAt(description));
  const checks = placedChecks(description);
  const faults = placedFaults(description);
  const columns = faults.map((placed) =>
    SEVERITIES.map((severity) => columnOf(operator, description, checks, placed, severity)),
  );
  const everywhere = placesOf(description, checks);
  const volts = new Map<PlacedFault, readonly Float64Array[]>();
  const voltsOf = (placed: PlacedFault): readonly Float64Array[] => {
    const known =
      volts.get(placed) ??
      SEVERITIES.map((severity) => voltsAt(operator, description, everywhere, placed, severity));
    volts.set(placed, known);
    return known;
  };
  const found: Alike[] = [];
  faults.forEach((one, a) => {
    faults.forEach((other, b) => {
      if (a >= b || sameRepair(one, other)) return;
      const [forward, best] = evidence(columns[a]!, columns[b]!, checks);
      const [backward] = evidence(columns[b]!, columns[a]!, checks);
      const least = Math.min(forward, backward);
      if (least < limit)
        found.push({
          boat,
          one: one.id,
          other: other.id,
          evidence: least,
          best,
          unread: farthest(voltsOf(one), voltsOf(other), everywhere),
        });
    });
  });
  return found;
}

function boatIn(description: BoatDescription, placed: PlacedFault, severity: number): Boat {
  const boat = cloneBoat(boatAt(description));
  keepOrdinary(boat, [placed]);
  placed.fault.apply(boat, placed.part, severity);
  return boat;
}

/** Points of the world that the operator is set to, each solved once. */
function pointsOf(operator: Operator): (condition: Condition) => OperatingPoint {
  const points = new Map<string, OperatingPoint>();
  return (condition) => {
    const key = conditionKey(condition);
    const point = points.get(key) ?? operator.at(condition);
    points.set(key, point);
    return point;
  };
}

interface Place {
  readonly condition: Condition;
  readonly probe: Probe;
  readonly words: string;
}

/** Every terminal under every condition of a check. */
function placesOf(description: BoatDescription, checks: readonly PlacedCheck[]): readonly Place[] {
  const terminals = new Set(description.parts.flatMap(({ from, to }) => [from, to]));
  const back = `${description.parts.find(({ kind }) => kind === 'battery')?.id ?? ''}.-` as Terminal;
  const conditions = new Map(checks.map(({ condition }) => [conditionKey(condition), condition]));
  return [...conditions.values()].flatMap((condition) =>
    [...terminals].flatMap((terminal) =>
      terminal === undefined || terminal === back
        ? []
        : [
            {
              condition,
              probe: { kind: 'dc-volts', plus: terminal, minus: back },
              words: `${terminal}, engine ${condition.engine}`,
            },
          ],
    ),
  );
}

function voltsAt(
  operator: Operator,
  description: BoatDescription,
  places: readonly Place[],
  placed: PlacedFault,
  severity: number,
): Float64Array {
  const boat = boatIn(description, placed, severity);
  operator.set(boat);
  const at = pointsOf(operator);
  return Float64Array.from(
    places,
    ({ condition, probe }) => readProbe(operator, boat, at(condition), probe) / (boat.nominalVoltage / 12),
  );
}

/** The largest difference of volts between two states, at the severities that bring them nearest to each other. */
function farthest(
  one: readonly Float64Array[],
  other: readonly Float64Array[],
  places: readonly Place[],
): Alike['unread'] {
  let least = { where: '', volts: Infinity };
  for (const a of one)
    for (const b of other) {
      let most = { where: '', volts: 0 };
      a.forEach((value, k) => {
        const volts = Math.abs(value - b[k]!);
        if (volts > most.volts) most = { where: places[k]!.words, volts };
      });
      if (most.volts < least.volts) least = most;
    }
  return least;
}

type Column = readonly (number | Float64Array)[];

function columnOf(
  operator: Operator,
  description: BoatDescription,
  checks: readonly PlacedCheck[],
  placed: PlacedFault,
  severity: number,
): Column {
  const boat = boatIn(description, placed, severity);
  operator.set(boat);
  const at = pointsOf(operator);
  return checks.map(({ outcome, condition, part }) => {
    if (outcome.kind === 'number') return readProbe(operator, boat, at(condition), outcome.probe);
    const chances = new Float64Array(outcome.answers.length);
    const read = (point: OperatingPoint, probe: Parameters<typeof readProbe>[3]): number =>
      readProbe(operator, boat, point, probe);
    outcome.chances({ boat, part: part ?? '', at, read }, chances);
    return chances;
  });
}

function evidence(
  from: readonly Column[],
  to: readonly Column[],
  checks: readonly PlacedCheck[],
): [nats: number, best: string[]] {
  let sum = 0;
  const gains = new Float64Array(checks.length);
  for (const own of from) {
    let least = Infinity;
    let parts = gains;
    for (const other of to) {
      const nats = Float64Array.from(checks, (check, k) => between(check, own[k]!, other[k]!));
      const whole = nats.reduce((total, one) => total + one, 0);
      if (whole < least) [least, parts] = [whole, nats];
    }
    sum += least / from.length;
    parts.forEach((gain, k) => (gains[k]! += gain / from.length));
  }
  const best = [...gains.keys()]
    .sort((a, b) => gains[b]! - gains[a]!)
    .slice(0, 2)
    .map((k) => `${checks[k]?.id ?? ''} ${gains[k]!.toFixed(1)}`);
  return [sum, best];
}

/** A slip of the hand bounds what one check can tell. */
const MOST = 4;

function between(check: PlacedCheck, own: number | Float64Array, other: number | Float64Array): number {
  const { outcome } = check;
  if (outcome.kind === 'number' && typeof own === 'number' && typeof other === 'number') {
    if (!Number.isFinite(own) || !Number.isFinite(other)) return 0;
    const sigma = Math.hypot(outcome.meterSigma(own), outcome.modelSigma(own));
    return Math.min(MOST, 0.5 * ((own - other) / sigma) ** 2);
  }
  if (typeof own === 'number' || typeof other === 'number') return 0;
  return Math.min(
    MOST,
    own.reduce((sum, p, k) => sum + p * Math.log(p / (other[k] ?? p)), 0),
  );
}
