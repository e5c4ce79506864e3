/** Engines that their alternators stall in a run: asked more than an engine can give at the speed that was set, it stops, and
 *  stands until it is started anew.
 *    P(n) > P_available(n_set)                physics/engine.ts
 *  The change is located within its step.
 *  Leaves out: a hand on the throttle, a flywheel that carries it over a short load, the propeller. */
import type { Boat } from '../boat/index.ts';

/** A stall is located within this [s]. */
const LOCATED_WITHIN = 2;

export interface EngineKeeper {
  readonly index: number;
  readonly id: string;
  stalled: boolean;
}

export const engineKeepers = ({ engines }: Boat): EngineKeeper[] =>
  engines.map(({ id }, index) => ({ index, id, stalled: false }));

const stalls = ({ index, stalled }: EngineKeeper, shares: readonly number[]): boolean =>
  !stalled && (shares[index] ?? 0) > 1;

/** A shorter step that ends just after an engine stalls; undefined when none does, or the stall is located. `shares`: of what
 *  each engine can give. */
export function stepToStall(
  keepers: readonly EngineKeeper[],
  from: readonly number[],
  to: readonly number[],
  step: number,
): number | undefined {
  if (step <= LOCATED_WITHIN) return undefined;
  let shorter: number | undefined;
  for (const keeper of keepers) {
    const [start = 0, end = 0] = [from[keeper.index], to[keeper.index]];
    if (!stalls(keeper, to) || stalls(keeper, from)) continue;
    const reached = (step * (1 - start)) / (end - start);
    if (step - reached > LOCATED_WITHIN)
      shorter = Math.min(shorter ?? Infinity, Math.max(reached + LOCATED_WITHIN / 4, step / 10));
  }
  return shorter;
}

/** Stops the engines that are asked too much; those that stall now. */
export function advanceEngines(keepers: readonly EngineKeeper[], shares: readonly number[]): EngineKeeper[] {
  return keepers.filter((keeper) => {
    if (!stalls(keeper, shares)) return false;
    keeper.stalled = true;
    return true;
  });
}
