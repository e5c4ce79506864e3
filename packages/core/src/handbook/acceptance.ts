/** Limits that a test reading is held against, each with its condition. data/handbook/acceptance.json
 *  Limits of a joint or cable do not depend on the system voltage; those marked `scales` double on 24 V. */
import table from '../../data/handbook/acceptance.json' with { type: 'json' };
import { dimensions, type Dimension } from '../units/index.ts';
import { citationOf, requireNumber, type Citation } from './citation.ts';

export interface AcceptanceLimit {
  readonly id: string;
  readonly words: string;
  /** How the reading is to be taken. */
  readonly condition: string;
  readonly dimension: Dimension;
  /** SI; undefined: no limit on that side. */
  readonly least: number | undefined;
  readonly most: number | undefined;
  /** True where the 24 V figure is twice the one printed for 12 V. */
  readonly scales: boolean;
  readonly caution: string | undefined;
  readonly citation: Citation;
}

export const acceptanceIds: readonly string[] = table.limits.map((row) => row.id);

/** A limit for a system of 12 or 24 V.  Errors: RangeError for an unknown id or another voltage */
export function acceptanceLimit(id: string, nominalVoltage: 12 | 24): AcceptanceLimit {
  if (![12, 24].includes(nominalVoltage))
    throw new RangeError(`acceptanceLimit: nominalVoltage ${String(nominalVoltage)} V must be 12 or 24`);
  const row = table.limits.find((entry) => entry.id === id);
  if (!row) throw new RangeError(`acceptanceLimit: id "${id}" is not one of ${acceptanceIds.join(', ')}`);
  if (!(row.dimension in dimensions))
    throw new RangeError(`acceptanceLimit: dimension "${row.dimension}" of ${id} is unknown`);
  const factor = row.scales ? nominalVoltage / 12 : 1;
  return {
    id,
    words: row.words,
    condition: row.condition,
    dimension: row.dimension as Dimension,
    least: (nominalVoltage === 24 ? row.least_at_24_V : null) ?? scaled(row.least, factor),
    most: (nominalVoltage === 24 ? row.most_at_24_V : null) ?? scaled(row.most, factor),
    scales: row.scales,
    caution: row.caution ?? undefined,
    // Doubling a figure read in a source is our arithmetic, so it may not pass for read.
    citation: citationOf(factor !== 1 && row.seen !== 'C' ? { ...row, seen: 'D' } : row),
  };
}

export type Acceptance =
  | { readonly kind: 'within'; readonly limit: AcceptanceLimit; readonly margin: number }
  | { readonly kind: 'above'; readonly limit: AcceptanceLimit; readonly margin: number }
  | { readonly kind: 'below'; readonly limit: AcceptanceLimit; readonly margin: number };

/** A reading in SI held against a limit; margin is the spare share of the nearer limit, negative beyond it. */
export function acceptanceOf(id: string, reading: number, nominalVoltage: 12 | 24): Acceptance {
  if (!Number.isFinite(reading)) requireNumber('acceptanceOf', 'reading', reading, 'SI', 'positive');
  const limit = acceptanceLimit(id, nominalVoltage);
  const spareAbove = limit.most === undefined ? Infinity : spare(limit.most - reading, limit.most);
  const spareBelow = limit.least === undefined ? Infinity : spare(reading - limit.least, limit.least);
  const margin = Math.min(spareAbove, spareBelow);
  if (spareAbove < 0) return { kind: 'above', limit, margin };
  return { kind: spareBelow < 0 ? 'below' : 'within', limit, margin };
}

function scaled(printed: number | null, factor: number): number | undefined {
  return printed === null ? undefined : printed * factor;
}

function spare(distance: number, limit: number): number {
  return limit === 0 ? distance : distance / Math.abs(limit);
}
