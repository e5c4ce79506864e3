/** Alternator against belt, bank, set-point, idle speed and engine. */
import {
  boatAt,
  chargingPaths,
  partsOfKind,
  type BoatDescription,
  type ChargingPath,
  type Chemistry,
  type PartDescription,
} from '../boat/index.ts';
import {
  alternatorCaseLimit,
  alternatorRatingForBank,
  beltDeflection,
  beltElectricalPowerLimit,
  beltForOutput,
  beltPractice,
  beltSection,
  chargingSetPoints,
  engineShareForOutput,
  type Answer,
  type BeltSectionName,
} from '../handbook/index.ts';
import { asFound, Operator } from '../operate/index.ts';
import { availablePower, wrapShare } from '../physics/index.ts';
import { formatQuantity } from '../units/index.ts';
import { amps, judged, percent, unjudged, type RuleResult } from './rule.ts';

/** Usual voltage of a 12 V alternator under load [V]; common practice. */
const LOADED_VOLTS = 14;
/** Shares of the engine's power at idle that it can spare with ease, and at most; estimates of ours. */
const IDLE_SHARE = { easy: 0.25, most: 0.5 } as const;
/** Shaft speed at idle over the speed at which output begins; estimates of ours. */
const CUT_IN_MARGIN = { least: 1.1, good: 1.4 } as const;

/** What a V-belt pulls with this wrap against half a turn, at the same tension. */
const pullAt = (wrap: number): number => wrapShare('v-13', wrap) / wrapShare('v-13', Math.PI);

const BELT_CARE =
  `Tension: it gives ${(1000 * beltDeflection(1).value).toFixed(0)} mm for each metre of its span when pressed in the middle. ` +
  `Wrap: round a third of the small pulley it pulls ${percent(pullAt((2 * Math.PI) / 3))} of what it does round half. ` +
  'A V-belt out of line wears to dust that clogs the alternator.';

/** Rules of each alternator. */
/** What a wrong set-point does to a bank in a season; common practice. */
function season(chemistry: Chemistry, low: boolean): string {
  if (chemistry === 'lifepo4')
    return low
      ? 'Over a season it stays short of full, which does little harm.'
      : 'Its protection will open under charge, and an alternator that loses its bank loses its diodes.';
  return low
    ? 'Kept so for a season the bank is never full: it sulphates and loses capacity for good.'
    : chemistry === 'flooded'
      ? 'Kept so for a season the bank gasses, loses its water and corrodes.'
      : 'Kept so for a season the bank dries out, and what is lost cannot be refilled.';
}

export function machineRules(description: BoatDescription): readonly RuleResult[] {
  return chargingPaths(description).flatMap((path) => [
    ...beltRule(description, path),
    ...bankRules(description, path),
    ...setPointRule(description, path),
    ...idleRules(description, path),
  ]);
}

const rating = (description: BoatDescription, id: string): number | undefined =>
  partsOfKind(description, 'alternator').find((part) => part.id === id)?.quantities.rated_current?.value;

function beltRule(description: BoatDescription, path: ChargingPath): RuleResult[] {
  const belt = partsOfKind(description, 'belt').find(({ id }) => id === path.belt);
  if (belt === undefined) return [];
  const words = 'Belt against what the alternator can give';
  const section = belt.choices.section as BeltSectionName | undefined;
  const rated = rating(description, path.alternator);
  const missing = [
    ...(rated === undefined ? ["the alternator's amps"] : []),
    ...(section === undefined ? ["the belt's section"] : []),
  ];
  if (rated === undefined || section === undefined)
    return [unjudged('belt', belt.id, 'lasting', words, missing)];
  const power = rated * LOADED_VOLTS * (description.nominalVoltage / 12);
  const limit = beltLimit(belt, section);
  const found = beltForOutput(section, beltDemand(belt, section, power));
  const enough = found.enough.map((name) => beltSection(name).words);
  const standing = found.verdict === 'within' ? 'kept' : found.verdict === 'near' ? 'near' : 'broken';
  return [
    judged({
      rule: 'belt',
      part: belt.id,
      question: 'lasting',
      words,
      standing,
      answer: {
        ...limit,
        inputs: [...limit.inputs, { name: 'output at full load', value: power, dimension: 'power' }],
        margin: found.margin,
      },
      says: `${formatQuantity(power, 'power')} at full output; a ${beltSection(section).words}${wrapWords(belt)} carries about ${formatQuantity(limit.value, 'power')}. ${BELT_CARE}`,
      advice:
        standing === 'kept'
          ? undefined
          : enough.length === 0
            ? 'No single listed section carries it: two belts or two alternators.'
            : `Fit ${enough.join(' or ')}, with pulleys to suit.`,
    }),
  ];
}

/** Electrical power that a belt's section carries with the belt's own wrap, where it is known [W]. */
function beltLimit(belt: PartDescription<'belt'>, section: BeltSectionName): Answer {
  const limit = beltElectricalPowerLimit(section);
  const wrap = belt.quantities.wrap_angle?.value;
  if (wrap === undefined) return limit;
  return {
    ...limit,
    value: limit.value * wrapShare(section, wrap),
    formula: `${limit.formula} · tanh(k · wrap) / tanh(k · usual wrap)`,
    inputs: [
      ...limit.inputs,
      { name: 'wrap round the alternator pulley', value: wrap, dimension: 'angle' },
      { name: 'usual wrap', value: beltPractice.usualWrap, dimension: 'angle' },
    ],
  };
}

/** Electrical power that asks as much of a belt of the usual wrap as `power` asks of this one [W]. */
export function beltDemand(belt: PartDescription<'belt'>, section: BeltSectionName, power: number): number {
  const wrap = belt.quantities.wrap_angle?.value;
  return wrap === undefined ? power : power / wrapShare(section, wrap);
}

const wrapWords = (belt: PartDescription<'belt'>): string =>
  belt.quantities.wrap_angle === undefined
    ? ''
    : ` with ${formatQuantity(belt.quantities.wrap_angle.value, 'angle')} of wrap`;

function bankRules(description: BoatDescription, path: ChargingPath): RuleResult[] {
  const battery = partsOfKind(description, 'battery').find(({ id }) => id === path.battery);
  if (battery === undefined) return [];
  const words = 'Alternator against the size of the bank';
  const rated = rating(description, path.alternator);
  const capacity = battery.quantities.capacity?.value;
  const chemistry = battery.choices.chemistry as Chemistry | undefined;
  const missing = [
    ...(rated === undefined ? ["the alternator's amps"] : []),
    ...(capacity === undefined ? ["the bank's capacity"] : []),
    ...(chemistry === undefined ? ["the bank's chemistry"] : []),
  ];
  if (rated === undefined || capacity === undefined || chemistry === undefined)
    return [unjudged('bank-share', battery.id, 'enough', words, missing)];
  const loads = partsOfKind(description, 'load').reduce(
    (sum, load) => sum + (load.quantities.current?.value ?? 0),
    0,
  );
  const { least, most } = alternatorRatingForBank({ chemistry, capacity, loads });
  const share = (rated * 3600) / capacity;
  const standing = rated >= least.value ? 'kept' : rated >= 0.7 * least.value ? 'near' : 'broken';
  const results = [
    judged({
      rule: 'bank-share',
      part: battery.id,
      question: 'enough',
      words,
      standing,
      answer: { ...least, margin: (rated - least.value) / least.value },
      says: `${amps(rated)} on ${formatQuantity(capacity, 'charge')} is ${percent(share)} of it; ${amps(least.value)} to ${amps(most.value)} is usual for this chemistry with these loads.`,
      advice:
        standing === 'kept'
          ? undefined
          : `Run longer, use another source, or fit ${amps(least.value)} or more with belt, cable and fuse to suit.`,
    }),
  ];
  if (chemistry === 'lifepo4') results.push(lithiumRule(description, path, rated, capacity));
  return results;
}

/** A lithium bank takes full output for hours; only a machine that is kept cool gives it for hours. */
function lithiumRule(
  description: BoatDescription,
  path: ChargingPath,
  rated: number,
  capacity: number,
): RuleResult {
  const regulator = partsOfKind(description, 'regulator').find(({ id }) => id === path.regulator);
  const limited = regulator?.quantities.temperature_limit !== undefined;
  const hours = capacity / (0.75 * rated) / 3600;
  return judged({
    rule: 'lithium-load',
    part: path.alternator,
    question: 'lasting',
    words: 'Alternator protected from the long full load of a lithium bank',
    standing: limited ? 'kept' : 'broken',
    answer: {
      name: 'hours at full output for an empty bank',
      value: hours * 3600,
      dimension: 'time',
      formula: 'hours = capacity / (hot share · rated amps)',
      inputs: [
        { name: 'capacity', value: capacity, dimension: 'charge' },
        { name: 'rated amps', value: rated, dimension: 'current' },
        { name: 'hot share of the rating', value: 0.75, dimension: 'ratio' },
      ],
      citation: alternatorCaseLimit.citation,
    },
    says: limited
      ? `It would run at full output for ${formatQuantity(hours * 3600, 'time')}; its regulator limits its temperature.`
      : `It would run at full output for ${formatQuantity(hours * 3600, 'time')}, and nothing known limits its temperature.`,
    advice: limited
      ? undefined
      : `Fit a regulator that holds the case below ${formatQuantity(alternatorCaseLimit.low, 'temperature')} to ${formatQuantity(alternatorCaseLimit.high, 'temperature')}, and a way for the charge to go when the bank's protection opens.`,
  });
}

function setPointRule(description: BoatDescription, path: ChargingPath): RuleResult[] {
  const regulator = partsOfKind(description, 'regulator').find(({ id }) => id === path.regulator);
  const battery = partsOfKind(description, 'battery').find(({ id }) => id === path.battery);
  if (regulator === undefined || battery === undefined) return [];
  const words = 'Charging voltage against the chemistry of the bank';
  const set = regulator.quantities.setpoint?.value;
  const chemistry = battery.choices.chemistry as Chemistry | undefined;
  const missing = [
    ...(set === undefined ? ['the charging voltage that the regulator holds'] : []),
    ...(chemistry === undefined ? ["the bank's chemistry"] : []),
  ];
  if (set === undefined || chemistry === undefined)
    return [unjudged('set-point', regulator.id, 'lasting', words, missing)];
  const times = description.nominalVoltage / 12;
  const table = chargingSetPoints(chemistry);
  const low = table.absorption[0] * times;
  const high = table.absorption[1] * times;
  const outside = Math.max(low - set, set - high);
  const standing = outside <= 0 ? 'kept' : outside <= 0.2 * times ? 'near' : 'broken';
  const volts = (value: number): string => formatQuantity(value, 'voltage');
  return [
    judged({
      rule: 'set-point',
      part: regulator.id,
      question: set < low ? 'enough' : 'lasting',
      words,
      standing,
      answer: {
        name: 'charging voltage at 25 °C',
        value: set,
        dimension: 'voltage',
        formula: 'low ≤ set ≤ high, for the chemistry at 25 °C',
        inputs: [
          { name: 'low', value: low, dimension: 'voltage' },
          { name: 'high', value: high, dimension: 'voltage' },
        ],
        citation: {
          source: 'COMMON',
          clause: table.source,
          edition: '',
          seen: 'C',
          note: "The battery maker's figures rule.",
        },
        margin: -outside / set,
      },
      says: `Set to ${volts(set)}; ${volts(low)} to ${volts(high)} is usual at 25 °C.${outside <= 0 ? '' : ` ${season(chemistry, set < low)}`}`,
      advice:
        outside <= 0
          ? undefined
          : `Set ${volts(low)} to ${volts(high)} at 25 °C, or what the maker of the batteries asks for.`,
    }),
  ];
}

/** What happens at idle, from an operating point of the boat with a half empty bank. */
function idleRules(description: BoatDescription, path: ChargingPath): RuleResult[] {
  const alternator = partsOfKind(description, 'alternator').find(({ id }) => id === path.alternator);
  const engine = partsOfKind(description, 'engine').find(({ id }) => id === path.engine);
  if (alternator === undefined || engine === undefined) return [];
  const boat = boatAt(description);
  for (const battery of boat.batteries) battery.stateOfCharge = Math.min(battery.stateOfCharge, 0.5);
  const machine = boat.alternators.find(({ id }) => id === alternator.id);
  const drive = boat.engines.find(({ id }) => id === engine.id);
  if (machine === undefined || drive === undefined) return [];
  const results: RuleResult[] = [];
  const ratio = alternator.quantities.pulley_ratio?.value;
  const cutInWords = 'Alternator turns fast enough at idle';
  if (ratio === undefined || engine.quantities.idle_speed === undefined) {
    results.push(
      unjudged('idle-cut-in', alternator.id, 'enough', cutInWords, [
        ...(ratio === undefined ? ['the pulley ratio'] : []),
        ...(engine.quantities.idle_speed === undefined ? ['the idle speed'] : []),
      ]),
    );
  } else {
    const times = (drive.idleSpeed * ratio) / machine.cutInSpeed;
    results.push(
      judged({
        rule: 'idle-cut-in',
        part: alternator.id,
        question: 'enough',
        words: cutInWords,
        standing: times >= CUT_IN_MARGIN.good ? 'kept' : times >= CUT_IN_MARGIN.least ? 'near' : 'broken',
        answer: {
          name: 'shaft speed at idle over the speed at which output begins',
          value: times,
          dimension: 'ratio',
          formula: 'idle speed · pulley ratio / cut-in speed',
          inputs: [
            { name: 'idle speed', value: drive.idleSpeed, dimension: 'speed' },
            { name: 'cut-in speed', value: machine.cutInSpeed, dimension: 'speed' },
          ],
          citation: { source: 'COMMON', clause: 'estimate of ours', edition: '', seen: 'C' },
          margin: (times - CUT_IN_MARGIN.good) / CUT_IN_MARGIN.good,
        },
        says: `At idle its shaft turns ${times.toFixed(2)} times as fast as it must to begin charging; ${CUT_IN_MARGIN.good} times and more gives useful amps.`,
        advice:
          times >= CUT_IN_MARGIN.good
            ? undefined
            : `Charge at ${formatQuantity((CUT_IN_MARGIN.good * machine.cutInSpeed) / ratio, 'speed')} of the engine or more, or fit a smaller pulley after working out the top speed.`,
      }),
    );
  }
  results.push(engineShareRule(description, path, boat));
  return results;
}

function engineShareRule(
  description: BoatDescription,
  path: ChargingPath,
  boat: ReturnType<typeof boatAt>,
): RuleResult {
  const words = 'Share of the engine that the alternator takes at idle';
  const engine = partsOfKind(description, 'engine').find(({ id }) => id === path.engine);
  const known = engine?.quantities;
  const missing = [
    ...(known?.rated_power === undefined ? ["the engine's rated power"] : []),
    ...(known?.idle_speed === undefined ? ['the idle speed'] : []),
    ...(rating(description, path.alternator) === undefined ? ["the alternator's amps"] : []),
  ];
  const drive = boat.engines.find(({ id }) => id === path.engine);
  if (missing.length > 0 || drive === undefined)
    return unjudged('engine-share', path.engine, 'lasting', words, missing);
  const point = new Operator(boat).at({
    ...asFound,
    engine: 'running',
    engineSpeed: drive.idleSpeed,
    sinceStart: 300,
  });
  const machine = point.alternators.find(({ id }) => id === path.alternator);
  const voltage = LOADED_VOLTS * (description.nominalVoltage / 12);
  const available = availablePower(drive, drive.idleSpeed);
  const output = Math.max(machine?.output ?? 0, 1e-3);
  const shaft = Math.max(machine?.shaftPower ?? 0, 1e-3);
  const answer = engineShareForOutput({
    current: output,
    voltage,
    powerAvailable: available,
    efficiency: Math.min(1, (output * voltage) / shaft),
  });
  const share = answer.value;
  return judged({
    rule: 'engine-share',
    part: path.engine,
    question: 'lasting',
    words,
    standing: share <= IDLE_SHARE.easy ? 'kept' : share <= IDLE_SHARE.most ? 'near' : 'broken',
    answer: { ...answer, margin: (IDLE_SHARE.most - share) / IDLE_SHARE.most },
    says: `${amps(output)} at idle takes ${formatQuantity(shaft, 'power')}, ${percent(share)} of what the engine can give there; up to ${percent(IDLE_SHARE.easy)} is easy, ${percent(IDLE_SHARE.most)} the most (estimates of ours).`,
    advice:
      share <= IDLE_SHARE.easy
        ? undefined
        : 'Raise the idle speed, limit the field at idle, or lengthen start delay and ramp.',
  });
}
