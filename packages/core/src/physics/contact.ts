/** Fuses and switch contacts.
 *    R_fuse = 0.06 V / rating           cold, sound
 *  rating [A]. About 60 mV at rated current for blade and bolt-in fuses (common practice, 45–100 mV).
 *  Melting time of a blade fuse against load [ISO8820 part 3, from memory]:
 *      current / rating   1.1        1.35        1.6        2.0        3.5       6.0
 *      least [s]          360000     0.75        0.25       0.15       0.04      0.02
 *      most [s]           never      600         50         5          0.5       0.1
 *  between the points on straight lines of log time against log current.
 *  Leaves out: ambient temperature, which shortens the times in an engine space; other fuse types. */
import { requirePositive } from './guard.ts';

const LOADS = [1.1, 1.35, 1.6, 2, 3.5, 6];
const LEAST = [360000, 0.75, 0.25, 0.15, 0.04, 0.02];
const MOST = [Infinity, 600, 50, 5, 0.5, 0.1];

/** Contact of a sound battery switch [Ω]. Common practice: 0.1–0.3 mΩ. */
export const SOUND_SWITCH_RESISTANCE = 2e-4;

/** Resistance of a sound fuse [Ω]. */
export function fuseResistance(rating: number): number {
  requirePositive('fuseResistance', 'rating', rating, 'A');
  return 0.06 / rating;
}

/** Shortest and longest time to melt [s]; Infinity when it need not melt. */
export function fuseMeltingTime(
  rating: number,
  current: number,
): { readonly least: number; readonly most: number } {
  requirePositive('fuseMeltingTime', 'rating', rating, 'A');
  const load = Math.abs(current) / rating;
  if (load < LOADS[0]!) return { least: Infinity, most: Infinity };
  return { least: logInterpolate(LEAST, load), most: logInterpolate(MOST, load) };
}

function logInterpolate(times: readonly number[], load: number): number {
  const last = LOADS.length - 1;
  if (load >= LOADS[last]!) return times[last]!;
  let k = 0;
  while (load >= LOADS[k + 1]!) k++;
  if (times[k] === Infinity) return Infinity;
  const t = Math.log(load / LOADS[k]!) / Math.log(LOADS[k + 1]! / LOADS[k]!);
  return times[k]! * (times[k + 1]! / times[k]!) ** t;
}
