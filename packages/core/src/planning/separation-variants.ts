/** What-ifs of how two banks are charged: a second alternator, a combining relay or a diode isolator. */
import {
  boatAt,
  chargingPaths,
  partInside,
  type BoatDescription,
  type Fact,
  type Terminal,
} from '../boat/index.ts';
import {
  alternatorCaseLimit,
  alternatorRatingForBank,
  beltForOutput,
  beltSection,
  beltSectionNames,
  chargingSetPoints,
  type Citation,
} from '../handbook/index.ts';
import { availablePower } from '../physics/index.ts';
import { chargeCableFor, chosenCable } from '../remedy/wiring-rules.ts';
import { formatQuantity } from '../units/index.ts';
import { banksApart, type BanksApart } from './banks-apart.ts';
import { bought, freeId, part, withChange, withPart, withParts } from './change.ts';
import { withOutsideRegulator } from './machine-variants.ts';
import { notForThisBoat, variantWords, type VariantResult } from './variant.ts';

const RATINGS = [55, 70, 80, 90, 100, 110, 120, 140, 150, 165, 180, 200, 220, 250, 300, 350];
const LOADED_VOLTS = 14;

const assumed = (value: number): Fact => ({ value, origin: 'assumed' });
const practice = (clause: string): Citation => ({ source: 'COMMON', clause, edition: '', seen: 'C' });
/** Diode isolator, loss at charging current [V]; common practice. */
const DIODE_LOSS = '0.7 to 1 V';

const gainsOfRemoving: Readonly<Record<BanksApart['joint'], readonly string[]>> = {
  selector: ['The battery switch as a charging part: nobody turns it, and none can open it while charging.'],
  relay: ['The combining relay, its thresholds and delay, and the drop at its contacts and cables.'],
  isolator: [`The isolator and the ${DIODE_LOSS} that its diodes lose.`],
  'second-alternator': [],
};

const whatGoes = ({ removed, joint }: BanksApart): readonly string[] => [
  `The ${removed.join(', ')} is out.`,
  ...gainsOfRemoving[joint],
];

/** A new alternator for the house bank with a regulator outside; the old one charges the start bank alone. */
export function secondAlternator(description: BoatDescription, size?: number): VariantResult {
  const inWords = (part: string): string => partInside(description, part);
  const id = 'second-alternator';
  const apart = banksApart(description);
  if (apart.kind === 'cannot') return notForThisBoat(id, apart.why);
  if (apart.joint === 'second-alternator') return notForThisBoat(id, 'It has two alternators already.');
  const boat = boatAt(description);
  const bank = boat.batteries.find((one) => one.id === apart.house);
  const engine = boat.engines[0];
  const path = chargingPaths(description).find(({ alternator }) => alternator === apart.alternator);
  if (bank === undefined || engine === undefined || path === undefined)
    return notForThisBoat(id, 'House bank, engine or alternator is not known.');
  const loads = boat.loads.reduce((sum, { current }) => sum + current, 0);
  const { chemistry, capacity } = bank;
  const { least, most, citation } = alternatorRatingForBank({ chemistry, capacity, loads });
  const value = size ?? RATINGS.find((rating) => rating >= Math.min(1.15 * least.value, most.value)) ?? 350;
  const volts = description.nominalVoltage / 12;
  const power = value * LOADED_VOLTS * volts;
  const section = beltSectionNames.find((name) => beltForOutput(name, power).verdict === 'within');
  const machine = freeId(apart.description, 'alternator-house');
  const engineId = path.engine;
  const charge = { ...apart.cable, quantities: {} };
  let fitted = withParts(apart.description, [
    part('alternator', machine, {
      serves: engineId,
      quantities: { rated_current: bought(value) },
      choices: { excitation: 'ignition' },
    }),
    part('belt', freeId(apart.description, 'belt-house'), {
      serves: machine,
      choices: { section: section ?? 'ribbed-8' },
    }),
    part('cable', freeId(apart.description, 'alternator-return-house'), {
      from: `${machine}.case`,
      to: `${engineId}.block`,
      quantities: { length: assumed(0) },
    }),
    { ...apart.cable, ...endsOf(apart, apart.cableEnd ?? apart.startSide) },
    {
      ...charge,
      id: freeId(apart.description, 'charge-cable-house'),
      from: `${machine}.B+`,
      to: apart.houseSide,
      quantities: { length: apart.cable.quantities.length ?? assumed(1.5) },
    },
  ]);
  const cable = chargeCableFor(fitted, machine);
  const choice = cable && chosenCable(cable);
  if (choice !== undefined)
    fitted = withPart(fitted, freeId(apart.description, 'charge-cable-house'), {
      quantities: { area: bought(choice.area) },
    });
  const table = chargingSetPoints(chemistry);
  const newPath = chargingPaths(fitted).find(({ alternator }) => alternator === machine);
  const regulated =
    newPath &&
    withOutsideRegulator(fitted, newPath, {
      temperature_limit: bought(alternatorCaseLimit.high),
      setpoint: bought(((table.absorption[0] + table.absorption[1]) / 2) * volts),
      compensation: bought(table.compensationPerCell * bank.cells),
    });
  if (regulated === undefined)
    return notForThisBoat(id, 'No ignition key is known that could switch a regulator on.');
  const shaft = power / 0.5;
  const idle = availablePower(engine, engine.idleSpeed);
  return {
    kind: 'variant',
    variant: {
      id,
      name: `${variantWords[id]}: ${formatQuantity(value, 'current')}`,
      part: machine,
      changes: [
        `A second alternator of ${formatQuantity(value, 'current')} for the ${inWords(apart.house)} alone, its regulator outside with a temperature limit.`,
        `The ${inWords(apart.alternator)} charges the ${inWords(apart.start)} alone.`,
        ...(choice === undefined ? [] : [`Its cable: ${choice.label}.`]),
      ],
      removes: whatGoes(apart),
      asks: [
        `Engine: up to ${formatQuantity(shaft, 'power')} more at the shaft, against ${formatQuantity(idle, 'power')} that it can give at idle; a slow ramp or a field cap helps.`,
        section === undefined
          ? 'Belt: no single listed section carries it; two belts.'
          : `Belt: a ${beltSection(section).words} of its own, with a pulley on the crankshaft or water pump and its side load within what the engine maker allows.`,
        'Space: bracket and room beside the engine, and cool air for a second machine.',
        'A switch, normally open, that joins the banks by hand in an emergency.',
      ],
      size: {
        words: 'amps on the nameplate',
        dimension: 'current',
        value,
        now: undefined,
        low: 10,
        high: 600,
      },
      sources: [citation],
      description: withChange(withChange(regulated, 'alternator-uprated'), 'wiring-altered'),
    },
  };
}

export function combiningRelay(description: BoatDescription): VariantResult {
  const inWords = (part: string): string => partInside(description, part);
  const id = 'combining-relay';
  const apart = banksApart(description);
  if (apart.kind === 'cannot') return notForThisBoat(id, apart.why);
  if (apart.joint === 'relay') return notForThisBoat(id, 'It has a combining relay already.');
  const relay = freeId(apart.description, 'relay');
  const lead = { area: assumed(25e-6), length: assumed(1) };
  const fitted = withParts(apart.description, [
    part('relay', relay),
    { ...apart.cable, ...endsOf(apart, apart.cableEnd ?? apart.houseSide) },
    part('cable', freeId(apart.description, 'relay-start-cable'), {
      from: apart.startSide,
      to: `${relay}.a`,
      quantities: lead,
    }),
    part('cable', freeId(apart.description, 'relay-house-cable'), {
      from: `${relay}.b`,
      to: apart.houseSide,
      quantities: lead,
    }),
  ]);
  return {
    kind: 'variant',
    variant: {
      id,
      name: variantWords[id],
      part: relay,
      changes: [
        `A combining relay joins the ${inWords(apart.start)} and the ${inWords(apart.house)} while either is charged.`,
      ],
      removes: whatGoes(apart),
      asks: [
        'A relay that carries the whole output of the alternator, fused at both banks.',
        'Both banks get one charging voltage: the same chemistry, or settings that suit both.',
      ],
      size: undefined,
      sources: [practice('closes at 13.3 V, opens at 12.8 V; cables 25 mm²')],
      description: withChange(fitted, 'wiring-altered'),
    },
  };
}

export function diodeIsolator(description: BoatDescription): VariantResult {
  const inWords = (part: string): string => partInside(description, part);
  const id = 'diode-isolator';
  const apart = banksApart(description);
  if (apart.kind === 'cannot') return notForThisBoat(id, apart.why);
  if (apart.joint === 'isolator') return notForThisBoat(id, 'It has an isolator already.');
  const isolator = freeId(apart.description, 'isolator');
  const lead = { area: assumed(25e-6), length: assumed(1.5) };
  const fitted = withParts(apart.description, [
    part('isolator', isolator, { choices: { type: 'diode' } }),
    { ...apart.cable, ...endsOf(apart, `${isolator}.in`) },
    part('cable', freeId(apart.description, 'isolator-house-cable'), {
      from: `${isolator}.one`,
      to: apart.houseSide,
      quantities: lead,
    }),
    part('cable', freeId(apart.description, 'isolator-start-cable'), {
      from: `${isolator}.two`,
      to: apart.startSide,
      quantities: lead,
    }),
  ]);
  return {
    kind: 'variant',
    variant: {
      id,
      name: variantWords[id],
      part: isolator,
      changes: [
        `An isolator shares the alternator between the ${inWords(apart.house)} and the ${inWords(apart.start)}.`,
      ],
      removes: whatGoes(apart),
      asks: [
        `Its diodes lose ${DIODE_LOSS}: the regulator must sense at the bank, or be set that much higher.`,
        'A heat sink in moving air.',
      ],
      size: undefined,
      sources: [practice(`diode loss ${DIODE_LOSS}; cables 25 mm²`)],
      description: withChange(fitted, 'wiring-altered'),
    },
  };
}

/** The old charging cable, from the alternator's stud to somewhere else. */
const endsOf = ({ alternator }: BanksApart, to: Terminal): { from: Terminal; to: Terminal } => ({
  from: `${alternator}.B+`,
  to,
});
