/** The condition under which a boat is looked at or measured. SI. */
export interface Condition {
  readonly engine: 'off' | 'key-on' | 'cranking' | 'running';
  /** Which engine the condition speaks of; all engines when absent. */
  readonly engineId?: string;
  /** Speed of the engine as its tachometer tells [rad/s]; 0 unless running. */
  readonly engineSpeed: number;
  /** Time since the engine was started [s]; 0 unless running. */
  readonly sinceStart: number;
  /** Time since anything charged the batteries, before this visit [s]. */
  readonly rested: number;
  /** Loads: off, the usual ones, or the usual ones and a heavy test load of `testLoad`. */
  readonly loads: 'off' | 'usual' | 'test';
  /** Test load [A], for `loads: 'test'`. */
  readonly testLoad: number;
  /** Bank at whose posts the test load hangs; beside the usual loads when absent. */
  readonly testBank?: string;
  /** Field as the regulator drives it, or fed in full by hand past the regulator. */
  readonly field: 'regulated' | 'full';
  /** Excitation as wired, or the ignition or lamp lead fed by hand from battery positive. */
  readonly excitation: 'as-wired' | 'jumpered';
  /** The engine was revved to 2500 rpm once before the reading. */
  readonly revved: boolean;
  /** Shore charger, solar and the like: as found, or switched off. */
  readonly otherSources: 'as-found' | 'off';
  /** The banks were filled by a charger since they were found. */
  readonly filled?: true;
}

const RPM = (2 * Math.PI) / 60;
/** Engine speed of "revved once" [rad/s]. */
export const revvedSpeed = 2500 * RPM;

/** Engine off, loads as usual, rested a night: the condition in which a boat is found. */
export const asFound: Condition = {
  engine: 'off',
  engineSpeed: 0,
  sinceStart: 0,
  rested: 8 * 3600,
  loads: 'usual',
  testLoad: 0,
  field: 'regulated',
  excitation: 'as-wired',
  revved: false,
  otherSources: 'off',
};

/** A key that is equal for equal conditions, so that one operating point serves every probe under it. Hot: kept by object. */
export function conditionKey(condition: Condition): string {
  let key = keys.get(condition);
  if (key === undefined) {
    key = keyOf(condition);
    keys.set(condition, key);
  }
  return key;
}

const keys = new WeakMap<Condition, string>();

function keyOf(c: Condition): string {
  return [
    c.engine,
    c.engineId ?? '*',
    c.engineSpeed.toFixed(2),
    c.sinceStart,
    c.rested,
    c.loads,
    c.testLoad,
    c.testBank ?? '',
    c.field,
    c.excitation,
    c.revved,
    c.otherSources,
    c.filled ?? false,
  ].join('|');
}
