/** A simulated boat whose truth is hidden: what it really is, what is told of it, and what a check on it brings.
 *
 *  True numbers are drawn wider than the tool assumes, computed with the rival battery and the rival (tabulated) alternator, and read with
 *  meters whose errors are not the tool's either. Two readings in a hundred are slips of the hand; some checks cannot be done.
 *  The truth of an answer in words is drawn from the check's chances in the true world, after those were bent.
 */
import {
  boatAt,
  boatFromTemplate,
  cloneBoat,
  templateIds,
  unknownsOf,
  type Boat,
  type BoatDescription,
  type TemplateId,
} from '../../packages/core/src/boat/index.ts';
import {
  idleSpeed,
  placedChecks,
  type PlacedCheck,
  type View,
} from '../../packages/core/src/checks/index.ts';
import {
  isOrdinary,
  keepOrdinary,
  placedFaults,
  type PlacedFault,
} from '../../packages/core/src/faults/index.ts';
import {
  asFound,
  conditionKey,
  Operator,
  readProbe,
  type Condition,
  type Models,
  type OperatingPoint,
} from '../../packages/core/src/operate/index.ts';
import { prepareBattery, restedState } from '../../packages/core/src/physics/battery.ts';
import type { Outcome } from '../../packages/core/src/readings/index.ts';
import { facts, toldParts, withSource } from './facts.ts';
import { randomFrom, seedOf, type Random } from './random.ts';

/** How the hidden fault is drawn: by its prior, evenly over the catalogue, or two of them by prior. */
export type Draw = 'prior' | 'uniform' | 'pairs';

export interface Truth {
  readonly index: number;
  readonly template: TemplateId;
  /** What the tool is told. */
  readonly told: BoatDescription;
  /** The hidden faults: one, or two of a pair. */
  readonly faults: readonly PlacedFault[];
  readonly severity: number;
  /** An intermittent fault may not show on the day of the visit. */
  readonly present: boolean;
  readonly checks: readonly PlacedCheck[];
  /** What comes of a check, the `again`-th time. */
  readonly outcome: (check: PlacedCheck, again?: number) => Outcome;
  /** The boat once some of its faults are put right, on the same day and in the same hands. */
  readonly mended: (faults: readonly PlacedFault[]) => Pick<Truth, 'outcome'>;
  /** What the check would bring without any error, for studying misses. */
  readonly exact: (check: PlacedCheck) => number | Float64Array;
  /** The same without any error on the same boat, faults and all, as the tool's own laws and fixed values have it. */
  readonly expected: (check: PlacedCheck) => number | Float64Array;
}

const RIVAL: Models = { battery: 'rival', alternator: 'rival' };
/** How much wider true parameters are spread than the tool assumes. */
const WIDER = 1.25;
/** What a lead bank of the rival law takes, in what the tool's law takes: median over random boats. */
const ACCEPTANCE_OF_RIVAL = 5.5;
const SLIP = 0.02;
const RPM = (2 * Math.PI) / 60;

export function truthOf(
  seedSet: string,
  index: number,
  draw: Draw,
  templates: readonly TemplateId[] = templateIds,
): Truth {
  const random = randomFrom(seedOf(`${seedSet} boat`, index));
  const template = random.pick(templates);
  const { description, toldBoat, faults, severity, wide, plain } = deserving(template, draw, random);
  // What was told may be wrong: a check that the real boat has no place for fails.
  const feasible = new Set(placedChecks(description).map(({ id }) => id));
  const faulty = withFaults(wide, faults, severity);
  const present = faulty.traits.presence >= 1 || random.chance(faulty.traits.presence);
  const today = onDay(wide, faulty, present);
  restAsTabled(today, random);
  const hands = handsOf(random);
  const idle = { told: idleSpeed(toldBoat), real: idleSpeed(description) };
  const exact = readerOf(today, idle, RIVAL);
  const outcomeBy =
    (read: Truth['exact'], visit: string): Truth['outcome'] =>
    (check, again = 0) => {
      if (!feasible.has(check.id)) return { kind: 'could-not' };
      const own = randomFrom(seedOf(`${seedSet} ${check.id} ${again}${visit}`, index));
      return outcomeOf(check, read(check), hands, own, randomFrom(seedOf(`${seedSet} ${check.id}`, index)));
    };
  return {
    index,
    template,
    told: toldBoat,
    faults,
    severity,
    present,
    checks: placedChecks(toldBoat),
    exact,
    expected: readerOf(onDay(plain, withFaults(plain, faults, severity), present), idle),
    outcome: outcomeBy(exact, ''),
    mended: (right) => {
      const left = onDay(wide, withFaults(wide, faults, severity, right), present);
      for (const [k, battery] of left.batteries.entries())
        battery.surfaceVoltage = today.batteries[k]?.surfaceVoltage ?? 0;
      return {
        outcome: outcomeBy(readerOf(left, idle, RIVAL), ` mended ${right.map(({ id }) => id).join()}`),
      };
    },
  };
}

interface Deserving extends Drawn {
  readonly description: BoatDescription;
  readonly toldBoat: BoatDescription;
  readonly faults: readonly PlacedFault[];
  readonly severity: number;
}

/** A boat that deserves its label: told and drawn anew until it is in no normal state but the one hidden in it, by the definitions of
 *  faults/ordinary.ts, and, with the fault away, each machine charges at idle once it was revved, and at speed. A boat drawn
 *  otherwise has a state of its own, and no other label would be right for it. */
function deserving(template: TemplateId, draw: Draw, random: Random): Deserving {
  for (let tries = 0; tries < 200; tries++) {
    const { real, told } = facts(random);
    const description = withSource(boatFromTemplate(template, real), random);
    const toldBoat = { ...boatFromTemplate(template, told), parts: toldParts(description, template, told) };
    // What was told may be wrong: a state that the real boat cannot have is not hidden in it.
    const possible = new Set(placedFaults(description).map(({ id }) => id));
    const placed = placedFaults(toldBoat).filter(({ id }) => possible.has(id));
    const faults = drawFaults(placed, draw, random);
    const severity = random.uniform();
    for (let again = 0; again < 10; again++) {
      const boats = drawnBoat(description, random);
      sizedAsTold(boats, toldBoat);
      if (isOrdinary(boats.wide, faults) && charges(boats.wide)) {
        return { description, toldBoat, faults, severity, ...boats };
      }
    }
  }
  throw new Error('deserving: no boat of two thousand deserves its label');
}

/** Of a cable that nobody read the size of it is not known that it is thick: it can be too thin, whatever the real boat's facts say. */
function sizedAsTold({ wide, plain }: Drawn, toldBoat: BoatDescription): void {
  const read = new Set(boatAt(toldBoat).conductors.flatMap(({ id, sized }) => (sized ? [id] : [])));
  for (const cable of [...wide.conductors, ...plain.conductors]) cable.sized = read.has(cable.id);
}

function charges(boat: Boat): boolean {
  const operator = new Operator(boat, RIVAL);
  const idle = boat.engines[0]?.idleSpeed ?? 800 * RPM;
  return [idle, 1500 * RPM].every((engineSpeed) =>
    operator
      .at({ ...asFound, engine: 'running', engineSpeed, sinceStart: 400, revved: true })
      .alternators.every(({ output }) => output > 0.5),
  );
}

/** A boat that was found with some faults, once those of `mended` are put right. */
function withFaults(
  healthy: Boat,
  faults: readonly PlacedFault[],
  severity: number,
  mended: readonly PlacedFault[] = [],
): Boat {
  const boat = cloneBoat(healthy);
  keepOrdinary(boat, faults);
  for (const one of faults) if (!mended.includes(one)) one.fault.apply(boat, one.part, severity);
  return boat;
}

/** The boat on the day of the visit. */
const onDay = (healthy: Boat, faulty: Boat, present: boolean): Boat =>
  present
    ? faulty
    : { ...healthy, traits: { ...faulty.traits, deadTachometer: healthy.traits.deadTachometer } };

/** What checks bring on a boat without any error; a condition is solved once. */
function readerOf(
  boat: Boat,
  idle: { readonly told: number; readonly real: number },
  models?: Models,
): (check: PlacedCheck) => number | Float64Array {
  const operator = new Operator(boat, models);
  const points = new Map<string, OperatingPoint>();
  // Whatever idle speed was told, a reading at idle is taken at the boat's own.
  const real = (condition: Condition): Condition =>
    condition.engine === 'running' && condition.engineSpeed === idle.told
      ? { ...condition, engineSpeed: idle.real }
      : condition;
  const at = (condition: Condition): OperatingPoint => {
    const key = conditionKey(condition);
    const known = points.get(key) ?? operator.at(real(condition));
    points.set(key, known);
    return known;
  };
  const read: View['read'] = (point, probe) => readProbe(operator, boat, point, probe);
  return ({ outcome, condition, part = '' }) => {
    if (outcome.kind === 'number') {
      const point = at(condition);
      return point.converged ? read(point, outcome.probe) : NaN;
    }
    const chances = new Float64Array(outcome.answers.length);
    outcome.chances({ boat, part, at, read }, chances);
    return chances;
  };
}

function drawFaults(placed: readonly PlacedFault[], draw: Draw, random: Random): readonly PlacedFault[] {
  const one = (list: readonly PlacedFault[]): PlacedFault => {
    if (draw !== 'uniform') return list[random.index(list.map(({ prior }) => prior))]!;
    const fault = random.pick([...new Set(list.map(({ fault }) => fault.id))]);
    return random.pick(list.filter((placed) => placed.fault.id === fault));
  };
  if (draw !== 'pairs') return [one(placed)];
  const broken = placed.filter(({ fault }) => fault.nature === 'fault');
  const first = one(broken);
  const second = one(broken.filter(({ part, fault }) => part !== first.part && fault.id !== first.fault.id));
  return [first, second];
}

interface Drawn {
  /** Drawn wider than the tool assumes, and off in what the tool takes for fixed. */
  readonly wide: Boat;
  /** The same unknowns, what the tool takes for fixed as it takes it. */
  readonly plain: Boat;
}

function drawnBoat(description: BoatDescription, random: Random): Drawn {
  const count = unknownsOf(description).length;
  const unknowns = Float64Array.from({ length: count }, () =>
    Math.max(-3, Math.min(3, WIDER * random.normal())),
  );
  const boat = boatAt(description, unknowns);
  const off = (spread: number): number => Math.exp(spread * random.normal());
  for (const cable of boat.conductors) {
    cable.joints *= off(0.4);
    cable.resistance *= off(0.08);
  }
  for (const regulator of boat.regulators) {
    regulator.gain *= off(0.3);
    regulator.compensation *= off(0.4);
    regulator.ramp *= off(0.4);
  }
  for (const alternator of boat.alternators) {
    alternator.brushResistance *= off(0.4);
    // Another shape of the output curve than the tool's fit through two points, where the machine allows it.
    if (random.chance(0.6)) alternator.curve = [{ speed: 1800 * RPM, share: 0.42 * off(0.15) }];
  }
  for (const belt of boat.belts) {
    belt.grip *= Math.exp(-0.12 * Math.abs(random.normal()));
    belt.dust = 0.15 * random.uniform();
  }
  for (const battery of boat.batteries) battery.temperature += 3 * random.normal();
  for (const relay of boat.relays) {
    const shift = 0.12 * random.normal() * (boat.nominalVoltage / 12);
    relay.closeVoltage += shift;
    relay.openVoltage += shift;
    relay.contact *= off(0.5);
  }
  for (const selector of boat.selectors) selector.contact *= off(0.5);
  for (const fuse of boat.fuses) fuse.resistance *= off(0.4);
  for (const lamp of boat.lamps) lamp.power *= off(0.2);
  for (const key of boat.keys) key.contact *= off(0.6);
  for (const source of boat.sources) source.setpoint += 0.2 * random.normal() * (boat.nominalVoltage / 12);
  const plain = boatAt(description, unknowns);
  // As much as the rival law takes: how much a bank takes is an unknown of the boat, not an error of the law.
  for (const battery of plain.batteries)
    if (battery.chemistry !== 'lifepo4') battery.acceptance = ACCEPTANCE_OF_RIVAL;
  return { wide: boat, plain };
}

/** The rival lead-acid set is that of one strong electrolyte: it rests some 0.3 V above the published tables that
 *  all trade uses. Only its rest voltage is brought back to them, 0.07 V more or less; how it behaves under current stays.
 */
function restAsTabled(boat: Boat, random: Random): void {
  for (const battery of boat.batteries) {
    const miss = 0.07 * random.normal() * (boat.nominalVoltage / 12);
    if (battery.chemistry === 'lifepo4') continue;
    const law = {
      chemistry: battery.chemistry,
      cells: battery.cells,
      capacity: battery.capacity * battery.health,
      resistanceFactor: battery.resistanceFactor,
      sulphation: battery.sulphation,
      shortedCells: battery.shortedCells,
      temperature: battery.temperature,
    };
    const rest = restedState(battery.stateOfCharge);
    const tabled = prepareBattery(law, rest).emf;
    battery.surfaceVoltage += tabled - prepareBattery({ ...law, family: 'rival' }, rest).emf + miss;
  }
}

interface Hands {
  readonly voltGain: number;
  readonly ampGain: number;
  readonly ampZero: number;
}

const handsOf = (random: Random): Hands => ({
  voltGain: 1 + 0.004 * random.normal(),
  ampGain: 1 + 0.025 * random.normal(),
  ampZero: 0.4 * random.normal(),
});

function outcomeOf(
  check: PlacedCheck,
  exact: number | Float64Array,
  hands: Hands,
  now: Random,
  always: Random,
): Outcome {
  const { outcome, text } = check;
  const hindered = text.way === 'measure' || text.way === 'intervene' ? 0.08 : 0.02;
  if (always.chance(hindered)) return { kind: 'could-not' };
  const slips = now.chance(SLIP);
  if (outcome.kind === 'number') {
    if (typeof exact !== 'number' || !Number.isFinite(exact)) return { kind: 'could-not' };
    const [low, high] = outcome.range;
    if (slips) {
      const kind = now.uniform();
      if (kind < 0.4) return { kind: 'number', value: low + (high - low) * now.uniform() };
      if (kind < 0.7) return { kind: 'number', value: exact + (now.chance(0.5) ? 1 : -1) };
      return { kind: 'number', value: kind < 0.85 ? -exact : exact / 10 };
    }
    const { probe } = outcome;
    const amps = probe.kind.endsWith('amps');
    const gain = amps ? hands.ampGain : probe.kind === 'dc-volts' ? hands.voltGain : 1;
    const noise = outcome.meterSigma(exact) * 0.8 * now.normal();
    const value = exact * gain + (amps ? hands.ampZero : 0) + noise;
    const digit = amps ? 0.1 : outcome.dimension === 'voltage' ? 0.01 : 0;
    return { kind: 'number', value: digit > 0 ? Math.round(value / digit) * digit : value };
  }
  if (typeof exact === 'number') return { kind: 'could-not' };
  // People differ from the tool's chances: flattened, each bent by a factor, and mixed with a guess.
  const bent = Array.from(exact, (chance) => chance ** 0.85 * Math.exp(0.35 * always.normal()));
  const sum = bent.reduce((whole, chance) => whole + chance, 0);
  const chances = bent.map((chance) => (0.96 * chance) / sum + 0.04 / bent.length);
  const index = slips ? Math.floor(now.uniform() * bent.length) : now.index(chances);
  return { kind: 'answer', answer: outcome.answers[index]?.id ?? '' };
}
