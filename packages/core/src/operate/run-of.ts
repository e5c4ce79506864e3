/** A charge run of a boat as described: the median boat, each regulator minding the bank that its alternator charges. */
import { boatAt, chargingPaths, type BoatDescription } from '../boat/index.ts';
import { chargeRun } from './run.ts';
import type { ChargeRun, Phase, RunOptions } from './run-plan.ts';

/** `coordinates` of the boat's unknowns (see `boatAt`): the median boat when absent. */
export function chargeRunOf(
  description: BoatDescription,
  plan: readonly Phase[],
  options: RunOptions & { readonly coordinates?: Float64Array } = {},
): ChargeRun {
  const { coordinates, ...rest } = options;
  const boat = boatAt(description, coordinates);
  const serves = new Map(
    chargingPaths(description).flatMap(({ alternator, battery }) => {
      const at = boat.batteries.findIndex(({ id }) => id === battery);
      return at < 0 ? [] : [[alternator, at] as const];
    }),
  );
  return chargeRun(boat, plan, { ...rest, serves });
}
