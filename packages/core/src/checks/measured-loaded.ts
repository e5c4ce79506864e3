/** What is read while the machine gives all it can: 1500 rpm, a test load at the bank's posts as large as the machine's rating.
 *  At the usual loads a bank takes what it takes, and a weak machine, a slipping belt or a poor joint has nothing to show. */
import type { BoatDescription, ChargingPath } from '../boat/index.ts';
import type { Condition } from '../operate/index.ts';
import type { CheckOutcome, Placement } from './check.ts';
import { loaded } from './conditions.ts';
import { amps, drop, ripple, slip, volts } from './outcomes.ts';
import { forEachPath } from './placing.ts';
import { machineTestLoad } from './test-load.ts';

/** Bank volts while the machine, not the regulator, sets them: what both laws may be off by [V at 12 V]. */
const VOLTS_AT_FULL_OUTPUT = 0.35;

/** A check of each path that ends at a bank, the test load at that bank. */
const underLoad = (
  outcome: (
    description: BoatDescription,
    path: ChargingPath & { battery: string },
  ) => CheckOutcome | undefined,
): Placement =>
  forEachPath((description, path) => {
    const { battery, alternator } = path;
    if (battery === undefined) return undefined;
    const condition: Condition = loaded(battery, machineTestLoad(description, alternator));
    const found = outcome(description, { ...path, battery });
    return found && { condition, outcome: found };
  });

export const measuredLoaded: Readonly<Record<string, Placement>> = {
  'output-amps': underLoad((_, { alternator }) => amps({ kind: 'alternator-amps', alternator }, 500)),
  'output-volts': underLoad((description, { alternator }) =>
    volts(description, `${alternator}.B+`, `${alternator}.case`, VOLTS_AT_FULL_OUTPUT),
  ),
  'drop-positive-loaded': underLoad((description, { alternator, battery }) =>
    drop(description, `${alternator}.B+`, `${battery}.+`),
  ),
  'drop-return-loaded': underLoad((description, { alternator, battery }) =>
    drop(description, `${battery}.-`, `${alternator}.case`),
  ),
  'ripple-loaded': underLoad((description, { alternator }) => ripple(description, alternator)),
  'belt-slip-loaded': underLoad((_, { alternator, belt }) =>
    belt === undefined ? undefined : slip(alternator),
  ),
};
