/** A boat with every number filled in: one possible world. Parts hold what they are and the state they are in,
 *  so that a fault is a change to a boat. SI throughout; a plain mutable record, cloned before a fault changes it.
 */
import type { Chemistry } from './kinds.ts';

export interface Engine {
  id: string;
  idleSpeed: number; // rad/s
  cruiseSpeed: number; // rad/s
  ratedSpeed: number; // rad/s
  ratedPower: number; // W
  /** True speed against the stated one. */
  speedError: number;
  spaceTemperature: number; // K, engine space when warm
  /** Air through the engine space [m³/s]; undefined when nobody told. */
  ventilation: number | undefined;
}

export type WindingFault = 'none' | 'diode-open' | 'diode-shorted' | 'phase-open' | 'turns-shorted';

export interface Alternator {
  id: string;
  engine: string;
  ratedCurrent: number; // A at 6000 rpm of its own shaft
  cutInSpeed: number; // rad/s of its own shaft
  cutInTold: boolean; // or drawn
  /** Told points of its full-field curve by rising speed: own shaft [rad/s], share of rated current. */
  curve: readonly { readonly speed: number; readonly share: number }[];
  pulleyRatio: number;
  /** Share of nameplate output that this machine really gives, all else right (age, tolerance). */
  health: number;
  fieldResistance: number; // Ω at 20 °C
  /** Extra resistance of brushes and slip rings [Ω]; very large when the brushes no longer touch. */
  brushResistance: number;
  excitation: 'lamp' | 'ignition' | 'none';
  fieldSwitching: 'positive' | 'negative';
  /** Share of the usual residual magnetism: 1 healthy, 0 lost. */
  residual: number;
  windingFault: WindingFault;
  /** Share of turns shorted, or depth of the fault, 0 to 1. */
  windingSeverity: number;
  /** Field turns shorted: lowers the field resistance and the flux. */
  rotorShortedShare: number;
  /** Diodes that feed the field from the machine itself. */
  fieldDiodes: 'good' | 'open';
  /** Thermal resistance against a clean machine: 1 clean, more when dusty or badly ventilated. */
  heatFactor: number;
}

export interface Regulator {
  id: string;
  alternator: string;
  place: 'inside' | 'outside';
  state: 'good' | 'dead' | 'stuck-full';
  setpoint: number; // V at 25 °C
  compensation: number; // V/K for the whole bank
  gain: number; // duty per volt
  startDelay: number; // s
  ramp: number; // s, from first drive to full
  fieldCap: number; // greatest duty
  temperatureLimit: number; // K of the alternator; Infinity: none
  /** Its own temperature above which it drives less [K]; Infinity: none. */
  ownTemperatureLimit: number;
}

export interface Belt {
  id: string;
  alternator: string;
  section: 'v-10' | 'v-13' | 'two-v-13' | 'ribbed-6' | 'ribbed-8';
  wrap: number; // rad, round the alternator's pulley
  /** Torque the belt can pass on against a well-tensioned one of its section and wrap: 1 good, 0 broken. */
  grip: number;
  /** Belt dust on everything: 0 none, 1 heavy. */
  dust: number;
  misaligned: boolean;
}

export interface Battery {
  id: string;
  chemistry: Chemistry;
  duty: 'house' | 'start' | 'both';
  cells: number;
  capacity: number; // C, 20-hour rating when new
  /** Share of the rated capacity that is left. */
  health: number;
  stateOfCharge: number;
  temperature: number; // K
  resistanceFactor: number;
  /** Charging current that it takes at a voltage, against its law. */
  acceptance: number;
  sulphation: number; // 0 none, 1 hard
  shortedCells: number;
  protection: 'closed' | 'open';
  /** Most current that its protection lets through either way [A]; undefined when nobody told. */
  chargeLimit: number | undefined;
  dischargeLimit: number | undefined;
  /** Charge between its fullest and its emptiest cell [C]; undefined when nobody told. */
  cellSpread: number | undefined;
  /** Voltage left on the plates by earlier charging or discharging, per 12 V [V]. */
  surfaceVoltage: number;
}

export interface Conductor {
  id: string;
  from: string;
  to: string;
  resistance: number; // Ω at 20 °C, copper
  joints: number; // Ω of both ends
  area: number; // m²
  length: number; // m
  /** Somebody said or read its size. */
  sized: boolean;
  /** Ground fault: from its far end through chafed insulation or damp to the engine or hull [Ω]; Infinity when sound. */
  leakage: number;
}

export interface Selector {
  id: string;
  position: 'off' | 'one' | 'two' | 'both';
  contact: number; // Ω
}

export interface Isolator {
  id: string;
  type: 'diode' | 'fet';
  legOne: 'good' | 'open';
  legTwo: 'good' | 'open';
}

export interface Relay {
  id: string;
  closeVoltage: number;
  openVoltage: number;
  closeDelay: number;
  contact: number;
  state: 'good' | 'never-closes' | 'always-closed';
}

export interface Fuse {
  id: string;
  rating: number; // A; Infinity when nobody told
  resistance: number; // Ω, very large when blown
}

export interface Load {
  id: string;
  current: number; // A at nominal voltage, usual
  always: boolean;
}

export interface Source {
  id: string;
  current: number;
  setpoint: number;
  on: boolean;
}

export interface Starter {
  id: string;
  engine: string;
  resistance: number; // Ω while cranking
}

export interface Lamp {
  id: string;
  power: number; // W at nominal voltage
  state: 'good' | 'open';
}

export interface Key {
  id: string;
  engine: string;
  contact: number; // Ω
}

export interface Gauge {
  id: string;
  plus: string;
  minus: string;
  /** Its own error [V]. */
  error: number;
}

/** What a person can hear of or see, and that no meter shows. */
export interface Traits {
  /** Chance on a given start that the fault is present: 1 for a steady fault. */
  presence: number;
  /** What the owner would tell: months ago that the trouble began, and how. */
  onset: 'sudden' | 'slow' | 'always' | 'none';
  heatSmell: boolean;
  /** Engine whose tachometer is dead though its alternator gives a signal; empty: none. */
  deadTachometer: string;
}

export interface Boat {
  nominalVoltage: 12 | 24;
  engines: Engine[];
  alternators: Alternator[];
  regulators: Regulator[];
  belts: Belt[];
  batteries: Battery[];
  conductors: Conductor[];
  selectors: Selector[];
  isolators: Isolator[];
  relays: Relay[];
  fuses: Fuse[];
  loads: Load[];
  sources: Source[];
  starters: Starter[];
  lamps: Lamp[];
  keys: Key[];
  gauges: Gauge[];
  ambient: number; // K
  traits: Traits;
}

const copies = <T extends object>(list: readonly T[]): T[] => list.map((item) => ({ ...item }));

/** A copy that may be changed without touching the original. */
export function cloneBoat(boat: Boat): Boat {
  return {
    nominalVoltage: boat.nominalVoltage,
    engines: copies(boat.engines),
    alternators: copies(boat.alternators),
    regulators: copies(boat.regulators),
    belts: copies(boat.belts),
    batteries: copies(boat.batteries),
    conductors: copies(boat.conductors),
    selectors: copies(boat.selectors),
    isolators: copies(boat.isolators),
    relays: copies(boat.relays),
    fuses: copies(boat.fuses),
    loads: copies(boat.loads),
    sources: copies(boat.sources),
    starters: copies(boat.starters),
    lamps: copies(boat.lamps),
    keys: copies(boat.keys),
    gauges: copies(boat.gauges),
    ambient: boat.ambient,
    traits: { ...boat.traits },
  };
}
