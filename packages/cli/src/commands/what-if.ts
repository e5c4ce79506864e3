/** What-ifs of a boat: which are asked for, side by side as JSON and as text, and a job with one of them kept. */
import {
  comparedText,
  findUnit,
  nearestNames,
  parseQuantity,
  proposedVariants,
  variantIds,
  variantOf,
  type BoatDescription,
  type ComparedRow,
  type Comparison,
  type Variant,
  type VariantId,
} from '@ampwright/core';
import { boatChanged, serialiseJob, z } from '@ampwright/jobs';
import { WrongUse } from '../files.ts';
import { described, list, text } from '../outputs.ts';
import { plain, wrapped } from '../say.ts';
import type { Work } from '../work.ts';
import { figuresShape, shapeOfFigures } from './run-figures.ts';

const words = list(text);

export const whatIfShape = list(
  z.strictObject({
    id: text,
    name: text,
    part: text,
    changes: words,
    removes: words,
    asks: words,
    figures: figuresShape,
    gains: described(words, 'Against the boat as it is'),
    costs: words,
    cautions: described(words, 'Rules that it breaks and the boat as it is does not'),
  }),
);

export function shapeOfWhatIf({ variants }: Comparison): z.infer<typeof whatIfShape> {
  return variants.map(({ variant, figures, gains, costs, newCautions }) => ({
    id: variant.id,
    name: variant.name,
    part: variant.part,
    changes: [...variant.changes],
    removes: [...variant.removes],
    asks: [...variant.asks],
    figures: shapeOfFigures(figures),
    gains: [...gains],
    costs: [...costs],
    cautions: cautionsOf(newCautions),
  }));
}

/** Those named, or all that apply.  Errors: WrongUse for an unknown name, a size that cannot be, or one that does not apply */
export function variantsOf(description: BoatDescription, named: readonly string[]): readonly Variant[] {
  return named.length === 0
    ? proposedVariants(description)
    : named.map((one) => variantNamed(description, one));
}

/** The job with a what-if made real, as text; without the visits, whose readings are those of the boat as it was.
 *  Errors: WrongUse */
export function keptJob(work: Work, named: string): string {
  const { description } = variantNamed(work.description, named);
  return serialiseJob({
    ...work.job,
    visits: [],
    boat: boatChanged(work.job.boat, work.description, description),
  });
}

/** `larger-alternator`, `larger-alternator=150A`. */
function variantNamed(description: BoatDescription, named: string): Variant {
  const [name = '', figure] = named.split('=');
  const id = variantIds.find((one) => one === name);
  if (id === undefined) {
    const nearest = nearestNames(name, variantIds)[0];
    throw new WrongUse(
      `There is no what-if "${plain(name)}"; there are ${variantIds.join(', ')}.${nearest === undefined ? '' : ` Did you mean ${nearest}?`}`,
    );
  }
  const result = variantOf(description, id);
  if (figure === undefined) {
    if (result.kind === 'variant') return result.variant;
    throw new WrongUse(`${id} is not for this boat: ${plain(result.why)}`);
  }
  const sized = withSize(description, id, figure);
  if (sized.kind === 'variant') return sized.variant;
  throw new WrongUse(`${id} is not for this boat: ${plain(sized.why)}`);
}

/** Unit meant where a size is a bare number. */
const usualUnits: Readonly<Record<string, string>> = {
  current: 'A',
  charge: 'Ah',
  area: 'mm2',
  temperature: 'degC',
};

function withSize(description: BoatDescription, id: VariantId, figure: string): ReturnType<typeof variantOf> {
  const dimension = dimensionOf[id];
  if (dimension === undefined) throw new WrongUse(`${id} has no size; write it as ${id}.`);
  const unit = usualUnits[dimension];
  const usual = unit !== undefined && findUnit(unit, dimension) !== undefined ? unit : undefined;
  const parsed = dimension === 'ratio' ? undefined : parseQuantity(figure, dimension, usual);
  const value = parsed === undefined ? Number(figure) : parsed.kind === 'ok' ? parsed.value : NaN;
  if (!Number.isFinite(value))
    throw new WrongUse(
      `${id}=${plain(figure)}: write a number${usual === undefined ? '' : ` and a unit, such as 100${usual}`}.`,
    );
  try {
    return variantOf(description, id, value);
  } catch (error) {
    if (error instanceof RangeError) throw new WrongUse(`${id}=${plain(figure)}: no boat has that.`);
    throw error;
  }
}

const dimensionOf: Readonly<
  Partial<Record<VariantId, 'current' | 'charge' | 'area' | 'temperature' | 'ratio'>>
> = {
  'larger-alternator': 'current',
  'faster-pulley': 'ratio',
  'external-regulator': 'temperature',
  'lithium-bank': 'charge',
  'second-alternator': 'current',
  'thicker-cable': 'area',
  'better-ventilation': 'temperature',
  'fewer-loads': 'current',
};

const LABEL = 30;
const COLUMN = 12;
const PER_BLOCK = 3;

export function whatIfText(comparison: Comparison): string {
  const { variants, rows } = comparison;
  const lines = ['What if:'];
  variants.forEach(({ variant }, k) =>
    lines.push(wrapped(variant.name, `${(k + 1).toString().padStart(3)}  `)),
  );
  for (let first = 0; first < variants.length; first += PER_BLOCK) {
    const shown = variants.slice(first, first + PER_BLOCK).map((_, k) => first + k);
    lines.push(
      '',
      `${''.padEnd(LABEL)}${'now'.padStart(COLUMN)}${shown.map((k) => (k + 1).toString().padStart(COLUMN)).join('')}`,
      ...rows.map((row) => tableRow(row, shown)),
    );
  }
  variants.forEach(({ variant, gains, costs, newCautions }, k) => {
    lines.push('', wrapped(`${k + 1}  ${variant.name}`, '', '   '));
    for (const change of variant.changes) lines.push(wrapped(change, '   '));
    for (const gain of gains) lines.push(wrapped(gain, '   + '));
    for (const cost of costs) lines.push(wrapped(cost, '   - '));
    for (const asked of variant.asks) lines.push(wrapped(asked, '   asks: '));
    for (const caution of cautionsOf(newCautions)) lines.push(wrapped(caution, '   caution: '));
  });
  lines.push(
    '',
    wrapped(
      'Fuel is an estimate from common practice, without propeller. Sizes are proposals: the makers and the standard in force where the boat is come first. Keep one with --keep NAME --out FILE.',
    ),
  );
  return lines.join('\n');
}

const tableRow = (row: ComparedRow, shown: readonly number[]): string =>
  `${row.words.slice(0, LABEL - 1).padEnd(LABEL)}${[row.base, ...shown.map((k) => row.values[k])]
    .map((value) => comparedText(row, value).padStart(COLUMN))
    .join('')}`;

const cautionsOf = (cautions: Comparison['base']['cautions']): string[] =>
  cautions.map(({ says, advice }) => (advice === undefined ? says : `${says} ${advice}`));
