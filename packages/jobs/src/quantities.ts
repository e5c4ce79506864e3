/** Between the quantities of a job file and the core's facts. */
import { fromSI, nearestNames, toSI } from '@ampwright/core';
import type { Dimension, Fact, QuantityKind } from '@ampwright/core';
import type { JobQuantity } from './job.ts';
import { placeOf, pointerOf, shown, type Path, type Problem } from './problem.ts';

/** Unit in which a file is written, by dimension, where nobody chose one. */
const writtenUnit: Partial<Record<Dimension, string>> = {
  voltage: 'V',
  current: 'A',
  resistance: 'ohm',
  charge: 'Ah',
  power: 'kW',
  length: 'm',
  area: 'mm2',
  temperature: 'degC',
  speed: 'rpm',
  time: 's',
  ratio: '1',
  angle: 'deg',
  voltagePerKelvin: 'mV/K',
};

/** A fact of the core as a file has it.  Rounded to twelve digits, so that 50 mm² stays 50. */
export function quantityOf(fact: Fact, dimension: Dimension): JobQuantity {
  const { value, unit } = fromSI(fact.value, writtenUnit[dimension] ?? 'SI', dimension);
  return { value: Number(value.toPrecision(12)), unit, origin: fact.origin };
}

/** The SI fact of a quantity that was judged good.  Errors: RangeError naming the quantity otherwise */
export function factOf(quantity: JobQuantity, dimension: Dimension): Fact {
  const result = toSI(quantity, dimension);
  if (result.kind !== 'ok') {
    throw new RangeError(`factOf: ${quantity.value} ${quantity.unit} is no ${dimension} (${result.kind})`);
  }
  return { value: result.value, origin: quantity.origin ?? 'told' };
}

/** What is wrong with a quantity at a place of the file; undefined when nothing is. */
export function quantityProblem(
  root: unknown,
  path: Path,
  quantity: { readonly value: number; readonly unit: string },
  kind: Pick<QuantityKind, 'dimension' | 'low' | 'high'>,
): Problem | undefined {
  const result = toSI(quantity, kind.dimension);
  const written = `${quantity.value} ${quantity.unit}`;
  if (result.kind === 'unknown-unit') {
    const unitPath = [...path, 'unit'];
    const nearest = result.nearest.length > 0 ? result.nearest : nearestNames(quantity.unit, result.allowed);
    return {
      kind: 'unknown-unit',
      pointer: pointerOf(unitPath),
      place: placeOf(root, unitPath),
      value: shown(quantity.unit),
      allowed: result.allowed.join(', '),
      advice: nearest[0] === undefined ? 'Use one of these units.' : `Did you mean ${nearest[0]}?`,
      nearest,
    };
  }
  const inside =
    result.kind === 'ok' && result.value >= kind.low - slack(kind) && result.value <= kind.high + slack(kind);
  if (inside) return undefined;
  return {
    kind: 'out-of-range',
    pointer: pointerOf(path),
    place: placeOf(root, path),
    value: shown(written).replaceAll('"', ''),
    allowed: rangeWords(kind, quantity.unit),
    advice: 'Check the number and its unit; write null for what is unknown.',
  };
}

/** "0.3 to 300 mm2": the range in the unit the person used. */
export function rangeWords(kind: Pick<QuantityKind, 'dimension' | 'low' | 'high'>, unit: string): string {
  const ends = [kind.low, kind.high].map((end) =>
    Number(fromSI(end, unit, kind.dimension).value.toPrecision(3)),
  );
  const [low, high] = kind.dimension === 'area' && unit.toUpperCase() === 'AWG' ? [ends[1], ends[0]] : ends;
  return `${low} to ${high} ${unit}`;
}

/** Rounding of a unit conversion must not push a value over the edge of its range. */
const slack = (kind: Pick<QuantityKind, 'low' | 'high'>): number =>
  1e-9 * Math.max(Math.abs(kind.low), Math.abs(kind.high));
