/** What-ifs of alternator, pulley, regulator and engine space. */
import {
  boatAt,
  chargingPaths,
  partsOfKind,
  type Boat,
  type BoatDescription,
  type ChargingPath,
} from '../boat/index.ts';
import {
  alternatorCaseLimit,
  alternatorRatingForBank,
  beltForOutput,
  beltSection,
  chargingSetPoints,
  ventilationAirFlow,
  type BeltSectionName,
  type Citation,
} from '../handbook/index.ts';
import { beltDemand } from '../remedy/machine-rules.ts';
import { chargeCableFor, chosenCable, leavesStud } from '../remedy/wiring-rules.ts';
import { formatQuantity } from '../units/index.ts';
import { bought, freeId, part, partNamed, withChange, withPart, withParts, withoutParts } from './change.ts';
import { notForThisBoat, variantWords, type Variant, type VariantId, type VariantResult } from './variant.ts';

/** Ratings that alternators are sold in [A]; common practice. */
const RATINGS = [35, 45, 55, 70, 80, 90, 100, 110, 120, 140, 150, 165, 180, 200, 220, 250, 300, 350];
/** Shaft speed that a usual rotor stands for long, and the largest usual ratio; common practice, from memory. */
const ROTOR_LIMIT = (15_000 * 2 * Math.PI) / 60;
const LARGEST_RATIO = 3.2;
const LOADED_VOLTS = 14;

const practice = (clause: string, note?: string): Citation => ({
  source: 'COMMON',
  clause,
  edition: '',
  seen: 'C',
  ...(note === undefined ? {} : { note }),
});

/** The alternator that charges the bank which the loads live on; the largest where several do. */
export function mainPath(description: BoatDescription, boat: Boat): ChargingPath | undefined {
  const start = (id: string | undefined): boolean =>
    boat.batteries.find((battery) => battery.id === id)?.duty === 'start';
  const rank = (path: ChargingPath): number =>
    (boat.alternators.find(({ id }) => id === path.alternator)?.ratedCurrent ?? 0) -
    (path.battery === undefined || start(path.battery) ? 1e6 : 0);
  return [...chargingPaths(description)].sort((a, b) => rank(b) - rank(a))[0];
}

export function largerAlternator(description: BoatDescription, size?: number): VariantResult {
  const id = 'larger-alternator';
  const boat = boatAt(description);
  const path = mainPath(description, boat);
  const machine = boat.alternators.find((one) => one.id === path?.alternator);
  const bank = boat.batteries.find((one) => one.id === path?.battery);
  if (path === undefined || machine === undefined || bank === undefined)
    return notForThisBoat(id, 'No alternator of this boat reaches a bank.');
  const now = machine.ratedCurrent;
  const loads = boat.loads.reduce((sum, { current }) => sum + current, 0);
  const { least, most, citation } = alternatorRatingForBank({
    chemistry: bank.chemistry,
    capacity: bank.capacity,
    loads,
  });
  const wanted = Math.max(least.value, 1.25 * now);
  const value = size ?? RATINGS.find((rating) => rating >= wanted - 1) ?? RATINGS.at(-1) ?? wanted;
  if (size === undefined && (now >= most.value || value <= now))
    return notForThisBoat(
      id,
      `${formatQuantity(now, 'current')} is as much as this bank can use (${formatQuantity(most.value, 'current')}).`,
    );
  const fitted = withLargerMachine(description, path, value);
  return {
    kind: 'variant',
    variant: {
      id,
      name: `${variantWords[id]}: ${formatQuantity(value, 'current')}`,
      part: path.alternator,
      changes: [
        `${path.alternator}: ${formatQuantity(now, 'current')} becomes ${formatQuantity(value, 'current')} on the nameplate.`,
        ...fitted.changes,
      ],
      removes: [],
      asks: [
        'Bracket, pulley and belt to suit the new frame; the same field side and excitation, or a regulator to match.',
        `Shaft power at full output: about ${formatQuantity((LOADED_VOLTS * (description.nominalVoltage / 12) * value) / 0.5, 'power')}.`,
        ...(bank.chemistry === 'lifepo4'
          ? ['A lithium bank holds it at full output for hours: a temperature limit is needed.']
          : []),
      ],
      size: {
        words: 'amps on the nameplate',
        dimension: 'current',
        value,
        now,
        low: 10,
        high: 600,
      },
      sources: [citation],
      description: withChange(fitted.description, 'alternator-uprated'),
    },
  };
}

/** The machine with the belt and the cable that carry it, where those known do not. */
function withLargerMachine(
  description: BoatDescription,
  path: ChargingPath,
  rating: number,
): { readonly description: BoatDescription; readonly changes: readonly string[] } {
  const changes: string[] = [];
  let fitted = withPart(description, path.alternator, {
    quantities: {
      rated_current: bought(rating),
      low_speed_current: undefined,
      middle_speed_current: undefined,
      cut_in_speed: undefined,
      field_resistance: undefined,
    },
  });
  const belt = partsOfKind(fitted, 'belt').find((one) => one.id === path.belt);
  const section = belt?.choices.section;
  if (belt !== undefined && section !== undefined) {
    const power = rating * LOADED_VOLTS * (description.nominalVoltage / 12);
    const found = beltForOutput(
      section as BeltSectionName,
      beltDemand(belt, section as BeltSectionName, power),
    );
    const enough = found.enough[0];
    if (found.verdict === 'beyond' && enough !== undefined) {
      fitted = withPart(fitted, belt.id, { choices: { section: enough } });
      changes.push(`${belt.id}: ${beltSection(enough).words}, with pulleys to suit.`);
    }
  }
  const cable = partsOfKind(fitted, 'cable').find((one) => leavesStud(one, path.alternator));
  const area = cable?.quantities.area?.value;
  const answer = chargeCableFor(fitted, path.alternator);
  const choice = answer && chosenCable(answer);
  if (cable !== undefined && area !== undefined && choice !== undefined && area < 0.99 * choice.area) {
    fitted = withPart(fitted, cable.id, {
      quantities: { area: bought(choice.area), resistance: undefined },
    });
    changes.push(`${cable.id}: ${choice.label}, with a fuse to suit.`);
  }
  return { description: fitted, changes };
}

export function fasterPulley(description: BoatDescription, size?: number): VariantResult {
  const id = 'faster-pulley';
  const boat = boatAt(description);
  const path = mainPath(description, boat);
  const machine = boat.alternators.find((one) => one.id === path?.alternator);
  const engine = boat.engines.find((one) => one.id === machine?.engine);
  if (machine === undefined || engine === undefined)
    return notForThisBoat(id, 'No alternator of this boat is driven by a known engine.');
  const now = machine.pulleyRatio;
  const most = Math.min(LARGEST_RATIO, ROTOR_LIMIT / engine.ratedSpeed);
  const value = size ?? Math.min(Math.round(now * 1.25 * 20) / 20, Math.floor(most * 20) / 20);
  if (size === undefined && value < 1.05 * now)
    return notForThisBoat(
      id,
      `${now.toFixed(2)} : 1 is near the most that rotor and pulley stand (${most.toFixed(1)} : 1).`,
    );
  const top = (engine.ratedSpeed * value * 60) / (2 * Math.PI);
  return {
    kind: 'variant',
    variant: {
      id,
      name: `${variantWords[id]}: ${value.toFixed(2)} : 1`,
      part: machine.id,
      changes: [`${machine.id}: ${value.toFixed(2)} turns for each of the engine, ${now.toFixed(2)} before.`],
      removes: [],
      asks: [
        `At full throttle its shaft turns ${(Math.round(top / 100) * 100).toString()} rpm: hold that against the maker's limit.`,
        'A smaller pulley wraps less belt: see the least diameter of the section and set the tension anew.',
        'A tachometer fed from the alternator must be set anew.',
      ],
      size: {
        words: 'alternator turns for each engine turn',
        dimension: 'ratio',
        value,
        now,
        low: 0.8,
        high: 6,
      },
      sources: [
        practice('rotor to 15 000 rpm, ratio to about 3.2 : 1', "From memory; the maker's limit rules."),
      ],
      description: withPart(description, machine.id, {
        quantities: { pulley_ratio: { value, origin: 'nameplate' } },
      }),
    },
  };
}

export function externalRegulator(description: BoatDescription, size?: number): VariantResult {
  const id = 'external-regulator';
  const boat = boatAt(description);
  const path = mainPath(description, boat);
  const known = partsOfKind(description, 'regulator').find((one) => one.id === path?.regulator);
  const alternator = path && partNamed(description, path.alternator);
  if (path === undefined || alternator === undefined || path.battery === undefined)
    return notForThisBoat(id, 'No alternator of this boat reaches a bank.');
  const outside = known?.choices.place === 'outside';
  if (outside && known.quantities.temperature_limit !== undefined && size === undefined)
    return notForThisBoat(id, 'Its regulator is outside already and limits the temperature.');
  const value = size ?? alternatorCaseLimit.high;
  const bank = boat.batteries.find((one) => one.id === path.battery);
  const chemistry = bank?.chemistry ?? 'flooded';
  const volts = description.nominalVoltage / 12;
  const table = chargingSetPoints(chemistry);
  const setpoint = ((table.absorption[0] + table.absorption[1]) / 2) * volts;
  const settings = {
    temperature_limit: bought(value),
    setpoint: bought(setpoint),
    compensation: bought(table.compensationPerCell * (bank?.cells ?? 6)),
  };
  const fitted = outside
    ? withPart(description, known.id, { quantities: settings })
    : withOutsideRegulator(description, path, settings);
  if (fitted === undefined)
    return notForThisBoat(id, 'No ignition key is known that could switch a regulator on.');
  return {
    kind: 'variant',
    variant: {
      id,
      name: `${variantWords[id]}: ${formatQuantity(value, 'temperature')}`,
      part: path.regulator ?? path.alternator,
      changes: [
        outside
          ? `${known.id}: holds the alternator to ${formatQuantity(value, 'temperature')}.`
          : `The regulator of ${path.alternator} moves outside: bulk, absorption and float, sensed at the bank.`,
        `It holds ${formatQuantity(setpoint, 'voltage')} at 25 °C in absorption, the middle of the usual band of the chemistry.`,
      ],
      removes: outside ? [] : ['The regulator inside, or it is bypassed; the charge lamp as exciter.'],
      asks: [
        'The field lead must be brought out of the alternator; its side (positive or negative) must fit the regulator.',
        'A temperature sensor on the alternator and one on the bank; a fused sense lead to the bank.',
      ],
      size: {
        words: 'alternator temperature it allows',
        dimension: 'temperature',
        value,
        now: known?.quantities.temperature_limit?.value,
        low: 313.15,
        high: 473.15,
      },
      sources: [alternatorCaseLimit.citation, practice(table.source)],
      description: withChange(fitted, 'regulator-changed'),
    },
  };
}

/** Internal regulator and charge lamp off, a regulator outside with its leads on; undefined without an ignition key. */
export function withOutsideRegulator(
  description: BoatDescription,
  path: ChargingPath,
  quantities: Readonly<Record<string, ReturnType<typeof bought>>>,
): BoatDescription | undefined {
  const key =
    partsOfKind(description, 'key').find(({ serves }) => serves === path.engine) ??
    partsOfKind(description, 'key')[0];
  if (key === undefined) return undefined;
  const regulator = path.regulator ?? freeId(description, `regulator-${path.alternator}`);
  const lamp = path.lamp;
  let fitted = lamp === undefined ? description : withoutParts(description, new Set([lamp]));
  fitted = {
    ...fitted,
    parts: fitted.parts.filter(
      ({ kind, from, to }) =>
        kind !== 'cable' ||
        ![from, to].some((end) => end === `${path.alternator}.D+` || end?.startsWith(`${regulator}.`)),
    ),
  };
  if (path.regulator === undefined)
    fitted = withParts(fitted, [part('regulator', regulator, { serves: path.alternator })]);
  fitted = withPart(fitted, regulator, { quantities, choices: { place: 'outside' } });
  fitted = withPart(fitted, path.alternator, { choices: { excitation: 'ignition' } });
  const lead = {
    area: { value: 1.5e-6, origin: 'assumed' },
    length: { value: 2, origin: 'assumed' },
  } as const;
  const suffix = path.alternator.startsWith('alternator') ? path.alternator.slice(10) : `-${path.alternator}`;
  const wire = (name: string, from: string, to: string) =>
    part('cable', freeId(fitted, `${name}${suffix}`), {
      from: from as `${string}.${string}`,
      to: to as `${string}.${string}`,
      quantities: lead,
    });
  return withParts(fitted, [
    wire('regulator-supply', `${path.alternator}.B+`, `${regulator}.supply`),
    wire('field-lead', `${regulator}.F`, `${path.alternator}.F`),
    wire(
      'sense-lead',
      path.battery === undefined ? `${path.alternator}.B+` : `${path.battery}.+`,
      `${regulator}.sense`,
    ),
    wire('enable-lead', `${key.id}.out`, `${regulator}.enable`),
    wire('regulator-ground', `${regulator}.ground`, `${path.engine}.block`),
  ]);
}

export function betterVentilation(description: BoatDescription, size?: number): VariantResult {
  const id: VariantId = 'better-ventilation';
  const boat = boatAt(description);
  const engine = boat.engines[0];
  if (engine === undefined) return notForThisBoat(id, 'No engine is known.');
  const now = engine.spaceTemperature;
  const rise = now - boat.ambient;
  if (size === undefined && rise < 6)
    return notForThisBoat(id, 'The engine space is nearly as cool as outside.');
  const value = size ?? boat.ambient + rise / 2;
  const wanted = Math.max(value - boat.ambient, 1);
  const flow = ventilationAirFlow({ heat: 1000, rise: wanted, inletTemperature: boat.ambient });
  const variant: Variant = {
    id,
    name: `${variantWords[id]}: ${formatQuantity(value, 'temperature')}`,
    part: engine.id,
    changes: [
      `Engine space: ${formatQuantity(value, 'temperature')} after an hour of running, ${formatQuantity(now, 'temperature')} before.`,
    ],
    removes: [],
    asks: [
      `Air: about ${formatQuantity(flow.value, 'volumeFlow')} for each kilowatt of heat that engine and alternator leave in the space.`,
      'A blower and ducts that bring cool air to the alternator; ignition-protected where there is petrol.',
    ],
    size: {
      words: 'engine space after an hour of running',
      dimension: 'temperature',
      value,
      now,
      low: 253.15,
      high: 393.15,
    },
    sources: [flow.citation],
    description: boat.engines.reduce(
      (fitted, one) =>
        withPart(fitted, one.id, { quantities: { space_temperature: { value, origin: 'told' } } }),
      description,
    ),
  };
  return { kind: 'variant', variant };
}
