/** What a run in time knows of a moment, in place of what a single operating point assumes. */
import type { BatteryState } from '../physics/battery.ts';
import type { Gates } from './gates.ts';

export interface HeldState {
  /** In the order of the boat's batteries; the circuit is solved `elapsed` seconds after they stood so. */
  readonly batteries: readonly BatteryState[];
  readonly elapsed: number;
  /** Currents that the batteries' charge supposes at that time [A]. */
  readonly predicted?: readonly number[];
  /** Temperatures of the batteries then [K], in their order; the boat's own when absent. */
  readonly batteryTemperatures?: readonly number[];
  /** Winding temperatures [K], in the order of the alternators. */
  readonly windings: readonly number[];
  /** Temperatures of the engine spaces [K], in the order of the engines. */
  readonly spaces: readonly number[];
  /** Share of its speed that each engine has lost to its load, in the order of the engines; none when absent.
   *  To `Moments`: what to begin with. */
  readonly engineDrops?: readonly number[];
  /** Engines that their alternators have stalled, in the order of the engines; none when absent. */
  readonly stalled?: readonly boolean[];
  /** What the stage adds to each regulator's set-point [V], in the order of the regulators. */
  readonly setpointShifts: readonly number[];
  /** Which relays are closed, in the order of the relays. */
  readonly relays: readonly boolean[];
  /** What protection switches stop, in the order of the batteries; nothing when absent. */
  readonly gates?: Gates;
  /** Which machines are awake, in the order of the alternators; found anew when absent. */
  readonly awake?: readonly boolean[];
}
