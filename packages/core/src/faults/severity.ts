/** From a severity, uniform in 0..1, to a physical spread. */

/** low at 0, high at 1, even in between. */
export const linear = (low: number, high: number, severity: number): number => low + (high - low) * severity;

/** low at 0, high at 1, even in the logarithm: for resistances, which spread over decades. */
export const logarithmic = (low: number, high: number, severity: number): number =>
  low * (high / low) ** severity;

/** The part of this id.   Errors: RangeError when the list has none. */
export function partOf<T extends { readonly id: string }>(list: readonly T[], id: string): T {
  const part = list.find((candidate) => candidate.id === id);
  if (part !== undefined) return part;
  const known = list.map((candidate) => candidate.id).join(', ') || 'none';
  throw new RangeError(`partOf: this boat has no part "${id}" of the kind asked for; it has ${known}`);
}

/** Resistance of a broken lead or a blown fuse [Ω]. */
export const OPEN = Infinity;
