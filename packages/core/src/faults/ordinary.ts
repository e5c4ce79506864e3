/** What each normal state means, in numbers, and how a boat is kept out of those that are not its own.
 *    other-source-hides         a source that is on holds more than any regulator of the boat asks for
 *    idle-too-slow              shaft speed at idle below 1.1 of cut-in
 *    regulator-start-delay      waits a minute or longer before it drives the field
 *    loads-too-high             one load takes more than 0.6 of the strongest alternator's rated amps
 *    alternator-small-for-bank  rated amps below the chemistry's least charging share of the bank's ampere-hours
 *    battery-flat               bank below 0.4 of full, and none of the above
 *    all-well                   none of the above
 *  In none of them does a heavy cable have a joint that counts as bad: that is a fault, and has a name.
 *  A boat without a fault is in the first that holds: what holds a bank down explains it better than that it is down. A boat with a
 *  fault has the fault's name, whatever else it is, save that it charges at idle and starts in time when the fault is away;
 *  a bank behind a fault may stand at any charge.
 *  Source: shares, handbook; the other limits are estimates of ours.
 */
import {
  chargingShare,
  leastShare,
  strongest,
  type Alternator,
  type Battery,
  type Boat,
  type Engine,
} from '../boat/index.ts';
import type { PlacedFault } from './fault.ts';

/** State of charge below which a bank is flat. */
export const FLAT = 0.4;
/** Shaft speed at idle over cut-in speed below which an engine idles too slowly. */
export const IDLE_MARGIN = 1.1;
/** Longest wait that nobody takes for a fault [s]. */
export const PATIENCE = 60;
/** Share of the strongest alternator that a single load may take. */
export const LOAD_SHARE = 0.6;

/** Least resistance of both ends of a heavy cable that counts as a bad joint [Ω]; 0.2 V at 50 A. Estimate of ours. */
export const LEAST_BAD_JOINT = 0.004;
/** Least section of a heavy cable [m²]. */
const HEAVY = 5e-6;

/** Bank that serves the boat's loads, as against the starter only. */
export const serves = (battery: Battery): boolean => battery.duty !== 'start';

export const highestSetpoint = (boat: Boat): number =>
  Math.max(0, ...boat.regulators.map((regulator) => regulator.setpoint));

/** The engine that turns an alternator. */
export const engineOf = (boat: Boat, alternator: Alternator): Engine | undefined =>
  boat.engines.find((one) => one.id === alternator.engine) ?? boat.engines[0];

/** Shaft speed at idle over cut-in speed. */
export function idleMargin(boat: Boat, alternator: Alternator): number {
  const engine = engineOf(boat, alternator);
  if (engine === undefined) return Infinity;
  return (engine.idleSpeed * engine.speedError * alternator.pulleyRatio) / alternator.cutInSpeed;
}

/** A boat that was brought to the edge of a state stands outside it, whatever the last digit. */
const EDGE = 1 - 1e-9;

interface NormalState {
  readonly fault: string;
  /** Kept out of even where something is broken. */
  readonly always: boolean;
  /** Parts of the boat that are in the state, each with how it is brought to the edge of it. */
  readonly found: (boat: Boat) => readonly { readonly part: string; readonly avoid: () => void }[];
}

const states: readonly NormalState[] = [
  {
    fault: 'other-source-hides',
    always: false,
    found: (boat) =>
      boat.sources
        .filter(({ on, setpoint }) => on && setpoint > highestSetpoint(boat))
        .map((source) => ({
          part: source.id,
          avoid: () => (source.setpoint = highestSetpoint(boat)),
        })),
  },
  {
    fault: 'idle-too-slow',
    always: true,
    found: (boat) =>
      boat.alternators
        .filter((alternator) => idleMargin(boat, alternator) < EDGE * IDLE_MARGIN)
        .map((alternator) => ({
          part: alternator.id,
          avoid: () => (alternator.cutInSpeed *= idleMargin(boat, alternator) / IDLE_MARGIN),
        })),
  },
  {
    fault: 'regulator-start-delay',
    always: true,
    found: (boat) =>
      boat.regulators
        .filter(({ startDelay }) => startDelay > PATIENCE)
        .map((regulator) => ({ part: regulator.id, avoid: () => (regulator.startDelay = PATIENCE) })),
  },
  {
    fault: 'loads-too-high',
    always: false,
    found: (boat) =>
      boat.loads
        .filter(({ current }) => current > LOAD_SHARE * strongest(boat))
        .map((load) => ({ part: load.id, avoid: () => (load.current = LOAD_SHARE * strongest(boat)) })),
  },
  {
    fault: 'alternator-small-for-bank',
    always: false,
    found: (boat) =>
      boat.batteries
        .filter((battery) => serves(battery) && chargingShare(boat, battery) < EDGE * leastShare(battery))
        .map((battery) => ({
          part: battery.id,
          avoid: () => (battery.capacity = (strongest(boat) * 3600) / leastShare(battery)),
        })),
  },
];

/** Brings a boat that a state is about to be put on to where it is in no other normal state.
 *  Charge is squeezed into what is left of it, in the same order; all else stops at the edge. */
export function keepOrdinary(boat: Boat, members: readonly PlacedFault[]): void {
  for (const { avoid } of strange(boat, members)) avoid();
  for (const battery of boat.batteries) {
    if (!members.some((member) => setsCharge(member, battery))) {
      battery.stateOfCharge = FLAT + (1 - FLAT) * battery.stateOfCharge;
    }
  }
}

/** Whether a boat, before the states are put on it, is in no normal state but those, the charge of its banks left out. */
export const isOrdinary = (boat: Boat, members: readonly PlacedFault[]): boolean =>
  strange(boat, members).length === 0;

function strange(boat: Boat, members: readonly PlacedFault[]): { readonly avoid: () => void }[] {
  const broken = members.some(isBroken);
  return [
    ...badJoints(boat),
    ...states
      .filter(({ always }) => always || !broken)
      .flatMap((state) =>
        state
          .found(boat)
          .filter(
            ({ part }) => !members.some((member) => member.fault.id === state.fault && member.part === part),
          ),
      ),
  ];
}

const badJoints = (boat: Boat): readonly { readonly avoid: () => void }[] =>
  boat.conductors
    .filter(({ area, joints }) => area >= HEAVY && joints > LEAST_BAD_JOINT)
    .map((cable) => ({ avoid: () => (cable.joints = LEAST_BAD_JOINT) }));

/** What only shows wrongly is no reason for a bank to be low. */
const isBroken = ({ fault }: PlacedFault): boolean =>
  fault.nature === 'fault' && fault.family !== 'indication';

/** States that run down the banks that serve. */
const RUNS_DOWN = new Set([
  'idle-too-slow',
  'loads-too-high',
  'alternator-small-for-bank',
  'regulator-thermal-limit',
]);

/** Whether a state says itself how full a bank is, or explains any charge. */
const setsCharge = (member: PlacedFault, battery: Battery): boolean =>
  isBroken(member) ||
  member.fault.id === 'all-well' ||
  (member.fault.id === 'battery-flat' && member.part === battery.id) ||
  (RUNS_DOWN.has(member.fault.id) && serves(battery));
