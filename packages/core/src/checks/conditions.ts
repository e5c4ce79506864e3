/** The conditions that checks are done under. */
import { partsOfKind, type BoatDescription } from '../boat/index.ts';
import { asFound, type Condition } from '../operate/index.ts';

const RPM = (2 * Math.PI) / 60;
/** Engine speed of "1500 rpm" checks, and of those that a field is fed by hand at [rad/s]. */
export const fastSpeed = 1500 * RPM;
export const steadySpeed = 1200 * RPM;
const usualIdle = 800 * RPM;

/** Engine off for a night, loads and other chargers as the boat is found. */
export const off: Condition = { ...asFound, otherSources: 'as-found' };
export const keyOn: Condition = { ...off, engine: 'key-on' };
export const cranking: Condition = { ...off, engine: 'cranking' };
/** Loads and chargers off and ten minutes' rest. */
export const openCircuit: Condition = { ...asFound, loads: 'off', rested: 600, otherSources: 'off' };
/** Engine off, every other charger switched off. */
export const chargersOff: Condition = { ...off, otherSources: 'off' };

/** A bank that a charger filled since the last visit, rested, by itself. */
export const filled: Condition = { ...openCircuit, rested: 8 * 3600, filled: true };

/** Running at a speed, so long after the start. */
export function running(engineSpeed: number, sinceStart: number, other: Partial<Condition> = {}): Condition {
  return { ...off, engine: 'running', engineSpeed, sinceStart, ...other };
}

/** Idle speed of the boat's engine as told, or the usual one [rad/s]. */
export function idleSpeed(description: BoatDescription): number {
  return partsOfKind(description, 'engine')[0]?.quantities.idle_speed?.value ?? usualIdle;
}

export const idling = (description: BoatDescription): Condition => running(idleSpeed(description), 180);
/** The same, once revved: a lamp-excited machine may need that to wake, and whether it did is another check's question. */
export const idlingAwake = (description: BoatDescription): Condition =>
  running(idleSpeed(description), 180, { revved: true });
export const fast: Condition = running(fastSpeed, 300);
/** Running with banks that a charger filled first. */
export const fastFilled: Condition = running(fastSpeed, 300, { filled: true });

/** A test load at the posts of a bank, so large that the machine gives all it can: the classic output test. */
export const loaded = (testBank: string, testLoad: number): Condition => ({
  ...running(fastSpeed, 320),
  loads: 'test',
  testLoad,
  testBank,
});
