/** An operating point: a boat under a condition, solved. Plain data; voltages are against the first engine's block. */
import type { Condition } from './condition.ts';

export interface AlternatorPoint {
  readonly id: string;
  readonly speed: number; // rad/s of its shaft
  readonly slip: number; // share of belt speed lost
  readonly beltHeat: number; // W that the slip makes in the belt
  readonly excited: boolean;
  readonly duty: number;
  readonly fieldCurrent: number; // A
  readonly output: number; // A out of the stud
  readonly voltage: number; // V, stud against case
  readonly temperature: number; // K, windings
  readonly space: number; // K, the air around it
  readonly shaftPower: number; // W
  readonly torque: number; // N·m
  readonly heat: number; // W left inside the machine
  readonly bridgeHeat: number; // W, the part of it that the bridge makes
  readonly airHeat: number; // W that the fan leaves in the air
}

export interface BatteryPoint {
  readonly id: string;
  readonly current: number; // A, charging positive
  readonly voltage: number; // V at its own posts
}

export interface LampPoint {
  readonly id: string;
  /** Share of its nominal voltage, 0 dark; a filament glows whichever way the current flows. */
  readonly glow: number;
}

export interface OperatingPoint {
  readonly condition: Condition;
  readonly converged: boolean;
  /** Largest error of a node's current [A]. */
  readonly residual: number;
  readonly engineSpeed: number; // rad/s, true
  readonly voltages: Float64Array;
  readonly alternators: readonly AlternatorPoint[];
  readonly batteries: readonly BatteryPoint[];
  readonly lamps: readonly LampPoint[];
  readonly relaysClosed: readonly boolean[];
  /** Circuit solutions that the point took. */
  readonly solves: number;
}
