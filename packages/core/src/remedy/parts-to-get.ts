/** Parts that a remedy buys, each with its size where the rules give one. */
import { chargingPaths, partsOfKind, type BoatDescription } from '../boat/index.ts';
import { priceTable, type Fault, type PriceTable } from '../faults/index.ts';
import { beltForOutput, beltSection, fuseWindow, type BeltSectionName } from '../handbook/index.ts';
import { formatQuantity } from '../units/index.ts';
import type { PartToGet } from './remedy.ts';
import type { RuleResult } from './rule.ts';
import { ampacityOf, chargeCableFor, sizesOf } from './wiring-rules.ts';

/** Parts of a fault's remedy on a boat's part, and those that the broken rules ask for. */
export function partsToGet(
  description: BoatDescription,
  fault: Fault,
  part: string,
  rules: readonly RuleResult[],
  prices: PriceTable = priceTable,
): readonly PartToGet[] {
  const alternator = alternatorBeside(description, part);
  const fromRules = rules.flatMap(({ rule, standing }) =>
    standing === 'broken' ? (rulePart[rule] ?? []) : [],
  );
  const keys = [...new Set([...fault.buys, ...fromRules])];
  return keys.flatMap((key) => {
    const price = prices.parts[key] ?? priceTable.parts[key];
    if (price === undefined) return [];
    return [
      {
        key,
        words: price.words,
        size: sizeOf(description, key, alternator),
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

function sizeOf(
  description: BoatDescription,
  key: string,
  alternator: string | undefined,
): string | undefined {
  if (alternator === undefined) return undefined;
  const machine = partsOfKind(description, 'alternator').find(({ id }) => id === alternator);
  const rated = machine?.quantities.rated_current?.value;
  if (rated === undefined) return undefined;
  const times = description.nominalVoltage / 12;
  switch (key) {
    case 'charge-cable': {
      const answer = chargeCableFor(description, alternator);
      return answer === undefined ? undefined : sizesOf(answer);
    }
    case 'fuse': {
      const answer = chargeCableFor(description, alternator);
      const side = answer?.metric.kind === 'ok' ? answer.metric : answer?.awg;
      const chosen = side?.kind === 'ok' ? (side.choiceKeepingDropHot ?? side.choice) : undefined;
      const carried = chosen === undefined ? undefined : ampacityOf(chosen.area);
      if (carried === undefined) return undefined;
      const window = fuseWindow({ loadCurrent: rated, ampacity: carried.value, hotSpace: true });
      return window.kind === 'ok'
        ? `${formatQuantity(window.rating.value, 'current')}, for the cable named here`
        : undefined;
    }
    case 'belt': {
      const known = partsOfKind(description, 'belt').find(({ serves }) => serves === alternator);
      const section = (known?.choices.section ?? 'v-10') as BeltSectionName;
      const power = rated * 14 * times;
      const { verdict, enough } = beltForOutput(section, power);
      if (verdict === 'within' && known?.choices.section !== undefined)
        return `${beltSection(section).words}, as fitted`;
      return enough.length === 0
        ? 'more than any single section listed carries'
        : enough.map((name) => beltSection(name).words).join(' or ');
    }
    case 'isolator':
    case 'relay':
      return `rated above ${formatQuantity(rated, 'current')}`;
    case 'alternator':
      return `${formatQuantity(rated, 'current')} as fitted, same bracket, pulley and excitation`;
    default:
      return undefined;
  }
}
