/** Fuses in a run: one that carries too much uses up its life, and opens when that is over.
 *    ∫ dt / t_melt(I) = 1          t_melt the longest time that its standard allows (contact.ts)
 *  Up to its rating, and as far as the standard lets it carry on for ever, it never melts; a real one may go sooner. The
 *  rate runs straight from one end of a step to the other; a step in which that matters is made shorter.
 *  Leaves out: cooling in between, which gives life back; a warm place, which takes it. A rating that nobody told is what
 *  the conductor rule of the handbook allows for the fuse's cable (overcurrent.ts), laid as usual. */
import type { Boat } from '../boat/index.ts';
import { ampacityOf, largestFuse } from '../handbook/index.ts';
import { fuseMeltingTime } from '../physics/contact.ts';
import { OPEN, type Plant } from './plant.ts';

/** Above this a fuse was open before the run [Ω]. */
const WHOLE = 1;
/** Share of life that a step may be wrong by, and by which a fuse may melt late. */
const LIFE_TOLERANCE = 0.01;

export interface FuseKeeper {
  readonly index: number;
  readonly id: string;
  readonly rating: number;
  /** Nobody told its rating. */
  readonly assumed: boolean;
  /** Life used up, 0 to 1. */
  spent: number;
  melted: boolean;
}

export function fuseKeepers({ fuses, conductors }: Boat): FuseKeeper[] {
  return fuses.flatMap(({ id, rating: told, resistance }, index) => {
    const assumed = !Number.isFinite(told);
    const rating = assumed ? usualRating(id, conductors) : told;
    if (rating === undefined || resistance >= WHOLE) return [];
    return [{ index, id, rating, assumed, spent: 0, melted: false }];
  });
}

/** Largest rating that protects the cable of a fuse [A]: the thickest at each of its terminals, since thin leads beside it have
 *  fuses of their own, and the thinner of both. Undefined where there is none, or no rating fits. */
function usualRating(fuse: string, conductors: Boat['conductors']): number | undefined {
  const sides = [`${fuse}.a`, `${fuse}.b`].flatMap((terminal) => {
    const areas = conductors.flatMap(({ from, to, area }) =>
      from === terminal || to === terminal ? [area] : [],
    );
    return areas.length === 0 ? [] : [Math.max(...areas)];
  });
  const carried = sides.length === 0 ? undefined : ampacityOf(Math.min(...sides));
  const rating = carried === undefined ? 0 : largestFuse(carried.value);
  return rating > 0 ? rating : undefined;
}

/** Currents of all fuses as the plant stands [A]. */
export function fuseCurrents({ wiring, solution }: Plant): number[] {
  const { voltages } = solution;
  return wiring.fuses.map(({ terminals: [a, b], resistance }) =>
    Math.abs(((voltages[a] ?? 0) - (voltages[b] ?? 0)) / resistance),
  );
}

/** Life that goes in a second [1/s]. */
const rate = ({ index, rating, melted }: FuseKeeper, currents: readonly number[]): number =>
  melted ? 0 : 1 / fuseMeltingTime(rating, currents[index] ?? 0).most;

/** Time until a fuse melts at these currents [s]. */
export function untilMelted(keepers: readonly FuseKeeper[], currents: readonly number[]): number {
  let until = Infinity;
  for (const keeper of keepers) {
    const now = rate(keeper, currents);
    if (now > 0) until = Math.min(until, Math.max(1 - keeper.spent, LIFE_TOLERANCE) / now);
  }
  return until;
}

/** A shorter step where the rate of a fuse changes too much within this one; undefined when none does. */
export function stepToMelting(
  keepers: readonly FuseKeeper[],
  from: readonly number[],
  to: readonly number[],
  step: number,
): number | undefined {
  let shorter: number | undefined;
  for (const keeper of keepers) {
    const change = (Math.abs(rate(keeper, to) - rate(keeper, from)) * step) / 2;
    if (!(change > LIFE_TOLERANCE)) continue;
    const fits = step * Math.max(0.2, (0.8 * LIFE_TOLERANCE) / change);
    shorter = Math.min(shorter ?? Infinity, fits);
  }
  return shorter;
}

/** Uses up life through a step; those that melted in it are open from now on. */
export function advanceFuses(
  keepers: readonly FuseKeeper[],
  { wiring }: Plant,
  from: readonly number[],
  to: readonly number[],
  step: number,
): FuseKeeper[] {
  return keepers.filter((keeper) => {
    keeper.spent += ((rate(keeper, from) + rate(keeper, to)) * step) / 2;
    if (keeper.melted || keeper.spent < 1 - 1e-9) return false;
    keeper.melted = true;
    const fuse = wiring.fuses[keeper.index];
    if (fuse) fuse.resistance = OPEN;
    return true;
  });
}
