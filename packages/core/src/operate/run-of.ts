/** A charge run of a boat as described. */
import { boatAt, type BoatDescription } from '../boat/index.ts';
import { chargeRun } from './run.ts';
import type { ChargeRun, Phase, RunOptions } from './run-plan.ts';

/** `coordinates` of the boat's unknowns (see `boatAt`): the median boat when absent. */
export function chargeRunOf(
  description: BoatDescription,
  plan: readonly Phase[],
  options: RunOptions & { readonly coordinates?: Float64Array } = {},
): ChargeRun {
  const { coordinates, ...rest } = options;
  return chargeRun(boatAt(description, coordinates), plan, rest);
}
