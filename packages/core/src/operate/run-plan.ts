/** What a charge run is asked, and what it answers. Plain data, SI. */
import type { ChargeStage } from '../physics/index.ts';
import type { ProtectionState } from '../physics/lithium.ts';

/** A stretch of time in which engine, loads and other sources stay as they are. */
export interface Phase {
  readonly duration: number; // s
  readonly engine: 'off' | 'running';
  /** Stated engine speed before its alternators load it [rad/s]; the boat's cruising speed when absent. */
  readonly engineSpeed?: number;
  /** Loads against the usual ones, 1 when absent. */
  readonly loads?: number;
  /** Shore charger, solar and the like: off when absent. */
  readonly otherSources?: 'as-found' | 'off';
}

export interface RunOptions {
  /** State of charge at the start by battery id; the boat's own when absent. */
  readonly stateOfCharge?: Readonly<Record<string, number>>;
  /** Error allowed in each step, as a share of a bank's charge. */
  readonly tolerance?: number;
  readonly longestStep?: number; // s
  /** Windings, engine space and banks warm up; or stay as they are, to compare with what knows no heat. */
  readonly heat?: 'moving' | 'held';
  /** Called after each step with the share done; false cancels. */
  readonly onStep?: (done: number) => boolean | undefined;
}

export interface BatterySeries {
  readonly id: string;
  readonly voltage: number[]; // V at the posts
  readonly current: number[]; // A, charging positive
  readonly stateOfCharge: number[];
  readonly temperature: number[]; // K
}

export interface AlternatorSeries {
  readonly id: string;
  readonly output: number[]; // A
  readonly voltage: number[]; // V, stud against its own case
  readonly temperature: number[]; // K, windings
  readonly bridge: number[]; // K, rectifier
  readonly shaftPower: number[]; // W
  /** Share of what the engine can give at that speed. */
  readonly engineShare: number[];
  readonly stage: ChargeStage[];
}

export interface SpaceSeries {
  readonly engine: string;
  readonly temperature: number[]; // K
}

export interface EngineSeries {
  readonly id: string;
  readonly speed: number[]; // rad/s, true, loaded
  /** By which it would run faster without its alternators: what is heard when they start to work [rad/s]. */
  readonly speedDrop: number[];
}

/** Heat over the whole run [J]: made = kept + given off to the outside. */
export interface RunHeatBooks {
  readonly made: number;
  readonly kept: number;
  readonly given: number;
}

export interface RunEvent {
  readonly time: number; // s
  readonly part: string;
  readonly kind: RunEventKind;
  /** Why a protection opened. */
  readonly reason?: ProtectionState['reason'];
  /** What a machine gave when it lost its bank, or without one; what a fuse or a protection carried when it opened [A]. */
  readonly current?: number;
  /** Most that it lets through, where nobody told: what the cable of a fuse allows, what is usual for a bank [A]. */
  readonly assumedLimit?: number;
  /** Of the power that an engine can give at its speed: what its alternators asked when it stalled. */
  readonly share?: number;
}

/** `engine-stalls`: its alternators ask more than it can give; it stands from then on, until the plan starts it anew.
 *  `charging-` and `discharging-`: by the protection switch of a lithium bank. `load-dump`: a charging machine was left
 *  without a bank
 *  that takes its charge; `without-bank`: one has come to work so. */
export type RunEventKind =
  | 'engine-started'
  | 'engine-stopped'
  | 'engine-stalls'
  | 'relay-closed'
  | 'relay-opened'
  | 'charging-opened'
  | 'charging-closed'
  | 'discharging-opened'
  | 'discharging-closed'
  | 'load-dump'
  | 'without-bank'
  | 'fuse-melted'
  | ChargeStage;

/** Where the energy went over the whole run [J]; all but `stored` and `batteryLoss` summed at the circuit's side. */
export interface RunEnergy {
  readonly shaft: number;
  readonly alternators: number; // out of the studs, less the fields
  readonly sources: number;
  readonly loads: number;
  readonly wires: number; // conductors, joints, switches, lamps, regulators
  /** Into the banks by their own account: charge at rest voltage, and what was lost inside. */
  readonly stored: number;
  readonly batteryLoss: number;
  readonly gassing: number;
  /** (in − out) over what went in and came from the banks: the numerical error of the run. */
  readonly imbalance: number;
}

export interface ChargeRun {
  /** `did-not-converge`: no solution could be found there, and nothing after it is known. */
  readonly ended: 'plan-done' | 'bank-empty' | 'did-not-converge' | 'cancelled';
  readonly times: number[]; // s
  /** Whether the engine runs, from the time before to this one. */
  readonly running: boolean[];
  readonly batteries: readonly BatterySeries[];
  readonly alternators: readonly AlternatorSeries[];
  readonly spaces: readonly SpaceSeries[];
  readonly engines: readonly EngineSeries[];
  readonly events: readonly RunEvent[];
  readonly energy: RunEnergy;
  /** Of machines and engines in their spaces, and of the banks in theirs. */
  readonly heat: RunHeatBooks;
  readonly bankHeat: RunHeatBooks;
  /** By battery: charge in at the posts, kept, and lost to gas or past full [C]. */
  readonly charge: readonly {
    readonly id: string;
    readonly into: number;
    readonly kept: number;
    readonly lost: number;
  }[];
  readonly engineSeconds: number;
  /** Angle that the engine turned through [rad], as its tachometer would count. */
  readonly engineAngle: number;
  readonly steps: number;
  readonly refused: number;
  readonly solves: number;
  readonly notConverged: number;
}

/** Time at which a bank first reaches a state of charge [s], straight between points; undefined when it never does. */
export function timeToCharge(run: ChargeRun, battery: string, stateOfCharge: number): number | undefined {
  const series = run.batteries.find(({ id }) => id === battery);
  if (series === undefined) {
    const known = run.batteries.map(({ id }) => id).join(', ');
    throw new RangeError(`timeToCharge: no battery "${battery}"; the run has ${known}`);
  }
  const at = series.stateOfCharge.findIndex((value) => value >= stateOfCharge);
  if (at < 0) return undefined;
  const after = series.stateOfCharge[at] ?? 0;
  const before = series.stateOfCharge[at - 1] ?? after;
  const end = run.times[at] ?? 0;
  const start = run.times[at - 1] ?? end;
  return after === before ? end : start + ((end - start) * (stateOfCharge - before)) / (after - before);
}

/** Errors: RangeError for a phase without time, or numbers out of range. */
export function requirePlan(plan: readonly Phase[]): void {
  plan.forEach(({ duration, engineSpeed = 1, loads = 1 }, index) => {
    const refuse = (name: string, value: number, unit: string, range: string): never => {
      throw new RangeError(`chargeRun: phase ${index}: ${name} ${value} ${unit} must be ${range}`);
    };
    if (!(duration > 0 && duration <= 3.2e8))
      refuse('duration', duration, 's', 'above 0 and at most ten years');
    if (!(engineSpeed > 0 && engineSpeed < 1000)) refuse('engineSpeed', engineSpeed, 'rad/s', '0 to 1000');
    if (!(loads >= 0 && loads <= 1000)) refuse('loads', loads, '', '0 to 1000');
  });
}
