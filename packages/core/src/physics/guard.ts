/** Argument checks shared by the parts: a caller's mistake throws and says which. */

/** Throws RangeError unless low ≤ value ≤ high (both finite or infinite as given). */
export function requireWithin(
  where: string,
  name: string,
  value: number,
  unit: string,
  low: number,
  high: number,
): void {
  if (!(value >= low && value <= high)) {
    throw new RangeError(`${where}: ${name} = ${value} ${unit} must lie between ${low} and ${high} ${unit}`);
  }
}

/** Throws RangeError unless value is finite and > 0. */
export function requirePositive(where: string, name: string, value: number, unit: string): void {
  if (!(value > 0 && Number.isFinite(value))) {
    throw new RangeError(`${where}: ${name} = ${value} ${unit} must be finite and above 0 ${unit}`);
  }
}
