/** Plain data behind the two charts of a job: the rise of the battery, and the potential along the loop. */
import type { Band } from './verdict.ts';

/** Battery voltage against time since the engine started. */
export interface RiseChart {
  readonly battery: string;
  /** Stated engine speed [rad/s]. */
  readonly engineSpeed: number;
  /** Seconds since start; the first is 0, the engine still off. */
  readonly times: readonly number[];
  /** Where it would lie if all were well. */
  readonly healthy: readonly Band[];
  /** Where the first suspects put it. */
  readonly suspects: readonly {
    readonly id: string;
    readonly words: string;
    readonly bands: readonly Band[];
  }[];
  readonly points: readonly {
    readonly sinceStart: number;
    readonly value: number;
    readonly reading: string;
  }[];
}

/** Potential from the alternator's stud through every conductor to the battery and back, the engine running at speed. */
export interface LoopChart {
  readonly alternator: string;
  readonly battery: string;
  /** Stations in order along the loop; potentials against the battery's negative post [V]. */
  readonly stations: readonly {
    readonly terminal: string;
    readonly words: string;
    readonly healthy: Band;
    readonly now: Band;
    readonly measured: number | undefined;
  }[];
}
