/** Parts that a remedy buys, each with its size where the rules give one. */
import { chargingPaths, partsOfKind, type BoatDescription } from '../boat/index.ts';
import { priceTable, type Fault, type PriceTable } from '../faults/index.ts';
import {
  beltElectricalPowerLimit,
  beltForOutput,
  beltSection,
  fuseWindow,
  type Answer,
  type BeltSectionName,
} from '../handbook/index.ts';
import { formatQuantity } from '../units/index.ts';
import { beltDemand } from './machine-rules.ts';
import type { PartToGet } from './remedy.ts';
import type { RuleResult } from './rule.ts';
import { chargeCableFor, chosenCable, sizesOf } from './wiring-rules.ts';

/** Parts of a fault's remedy on a boat's part, and those that the broken rules ask for. */
export function partsToGet(
  description: BoatDescription,
  fault: Fault,
  part: string,
  rules: readonly RuleResult[],
  prices: PriceTable = priceTable,
  also: readonly string[] = [],
): readonly PartToGet[] {
  const alternator = alternatorBeside(description, part);
  const fromRules = rules.flatMap(({ rule, standing }) =>
    standing === 'broken' ? (rulePart[rule] ?? []) : [],
  );
  const keys = [...new Set([...fault.buys, ...also, ...fromRules])];
  return keys.flatMap((key) => {
    const price = prices.parts[key] ?? priceTable.parts[key];
    if (price === undefined) return [];
    return [
      {
        key,
        words: price.words,
        ...sizeOf(description, key, alternator),
        rules: rules.filter(({ rule }) => rulePart[rule]?.includes(key)),
        price: { low: price.low, high: price.high },
      },
    ];
  });
}

const rulePart: Readonly<Partial<Record<string, readonly string[]>>> = {
  'charge-cable-drop': ['charge-cable'],
  'charge-cable-ampacity': ['charge-cable'],
  fuse: ['fuse'],
  belt: ['belt'],
};

function alternatorBeside(description: BoatDescription, part: string): string | undefined {
  const paths = chargingPaths(description);
  const own = paths.find((path) =>
    [path.alternator, path.belt, path.regulator, path.battery, path.engine].includes(part),
  );
  const along = paths.find((path) => path.outward.some((terminal) => terminal.startsWith(`${part}.`)));
  return (own ?? along ?? paths[0])?.alternator;
}

interface Sized {
  readonly size: string | undefined;
  readonly sizing: readonly Answer[];
}

const unsized: Sized = { size: undefined, sizing: [] };
const sized = (size: string, sizing: readonly Answer[] = []): Sized => ({ size, sizing });

function sizeOf(description: BoatDescription, key: string, alternator: string | undefined): Sized {
  const machine = partsOfKind(description, 'alternator').find(({ id }) => id === alternator);
  const rated = machine?.quantities.rated_current?.value;
  if (alternator === undefined || rated === undefined) return unsized;
  switch (key) {
    case 'charge-cable':
      return cableSize(description, alternator);
    case 'fuse':
      return fuseSize(description, alternator, rated);
    case 'belt':
      return beltSize(description, alternator, rated);
    case 'isolator':
    case 'relay':
      return sized(`rated above ${formatQuantity(rated, 'current')}`);
    case 'alternator':
      return sized(`${formatQuantity(rated, 'current')} as fitted, same bracket, pulley and excitation`);
    default:
      return unsized;
  }
}

function cableSize(description: BoatDescription, alternator: string): Sized {
  const answer = chargeCableFor(description, alternator);
  const choice = answer && chosenCable(answer);
  if (answer === undefined) return unsized;
  const steps = choice === undefined ? [] : [choice.ampacity, choice.dropHot];
  return sized(sizesOf(answer), [answer.areaByDrop, ...steps]);
}

/** A fuse for the cable worked out above, which is why it may differ from one for the old cable. */
function fuseSize(description: BoatDescription, alternator: string, rated: number): Sized {
  const answer = chargeCableFor(description, alternator);
  const choice = answer && chosenCable(answer);
  if (choice === undefined) return unsized;
  const window = fuseWindow({ loadCurrent: rated, ampacity: choice.ampacity.value, hotSpace: true });
  if (window.kind !== 'ok') return unsized;
  return sized(`${formatQuantity(window.rating.value, 'current')}, for ${choice.label}`, [window.rating]);
}

function beltSize(description: BoatDescription, alternator: string, rated: number): Sized {
  const belt = partsOfKind(description, 'belt').find(({ serves }) => serves === alternator);
  const known = belt?.choices.section as BeltSectionName | undefined;
  const section = known ?? 'v-10';
  const power = rated * 14 * (description.nominalVoltage / 12);
  const demand = belt === undefined ? power : beltDemand(belt, section, power);
  const { verdict, enough } = beltForOutput(section, demand);
  const best = verdict === 'within' && known !== undefined ? [section] : enough;
  if (best.length === 0) return sized('more than any single section listed carries');
  return sized(
    best.map((name) => beltSection(name).words).join(' or '),
    best.slice(0, 1).map(beltElectricalPowerLimit),
  );
}
