/** The job file as data: one boat, what is known of it, and the visits with their readings.
 *  Quantities keep the unit they were written in; `description.ts` turns them to SI. Absent means unknown.
 */
import type { Change, Origin, PartKindId, Quantity, Skill, TemplateId } from '@ampwright/core';

export const jobFormat = 'ampwright-job';
/** Version of the format that this program writes. */
export const jobVersion = 1;
/** What stands as the writer of a file. */
export const jobWriter = 'ampwright 0.1.0';

/** A number as a person wrote it, and where it came from; `told` when the origin is absent. */
export interface JobQuantity extends Quantity {
  readonly origin?: Origin;
}

export interface JobPart {
  readonly id: string;
  readonly kind: PartKindId;
  readonly label?: string;
  /** Cables and gauges: the terminals (`part.terminal`) that the ends are on. */
  readonly from?: string;
  readonly to?: string;
  /** Engine that turns an alternator; alternator that a regulator or belt serves. */
  readonly serves?: string;
  readonly quantities: Readonly<Record<string, JobQuantity>>;
  readonly choices: Readonly<Record<string, string>>;
}

export interface JobBoat {
  readonly name?: string;
  readonly nominal_voltage?: JobQuantity;
  /** The template that the parts came from. */
  readonly template?: TemplateId;
  readonly changed: readonly Change[];
  readonly parts: readonly JobPart[];
}

/** The ten facts as they stand in the short form of a job file. */
export interface JobFacts {
  readonly nominal_voltage?: JobQuantity;
  readonly alternator_current?: JobQuantity;
  readonly regulator_place?: string;
  readonly excitation?: string;
  readonly bank_capacity?: JobQuantity;
  readonly bank_chemistry?: string;
  readonly cable_area?: JobQuantity;
  readonly cable_length?: JobQuantity;
  readonly belt_section?: string;
  readonly idle_speed?: JobQuantity;
  readonly loads_current?: JobQuantity;
  readonly changed?: readonly Change[];
}

/** One reading: a value, an answer, or that it could not be taken. */
export interface JobReading {
  readonly id: string;
  /** Id of the check as placed on this boat: `battery-volts-rest@house`. */
  readonly check: string;
  readonly value?: number;
  /** Unit of `value`; the check's own unit when absent. */
  readonly unit?: string;
  readonly answer?: string;
  readonly could_not?: boolean;
  /** Where the condition differed from the check's own. */
  readonly engine_speed?: JobQuantity;
  readonly since_start?: JobQuantity;
  /** Name of the meter: readings of one meter share its error. */
  readonly meter?: string;
  readonly taken_at?: string;
  readonly note?: string;
  /** References to photos kept beside the file. */
  readonly photos: readonly string[];
}

/** How the engine stands during a visit, kept so that it is entered once. */
export interface JobEngineState {
  readonly state?: 'off' | 'key-on' | 'cranking' | 'running';
  readonly speed?: JobQuantity;
  readonly started_at?: string;
}

/** What was concluded at the end of a visit. */
export interface JobVerdict {
  readonly conclusion: string;
  readonly words?: string;
  readonly suspects?: readonly {
    readonly id: string;
    readonly words?: string;
    readonly probability: number;
  }[];
}

export interface JobVisit {
  readonly id: string;
  readonly date?: string;
  readonly note?: string;
  readonly engine?: JobEngineState;
  /** Faults (`fault@part`) that were put right before its readings: the visit goes on with those of the visit before. */
  readonly repairs?: readonly string[];
  readonly readings: readonly JobReading[];
  /** Readings taken when all was well. */
  readonly baseline: boolean;
  readonly verdict?: JobVerdict;
}

/** Prices that replace the usual ones, by key of the price table. */
export interface JobPrices {
  readonly currency?: string;
  readonly labour_hour?: number;
  readonly items?: Readonly<Record<string, number>>;
}

export interface Job {
  readonly format: typeof jobFormat;
  readonly version: number;
  readonly writer?: string;
  readonly id: string;
  readonly title?: string;
  readonly complaint?: string;
  /** Skill of whoever does the checks: none beyond it is proposed. */
  readonly skill?: Skill;
  readonly created?: string;
  readonly boat: JobBoat;
  readonly visits: readonly JobVisit[];
  readonly prices?: JobPrices;
}
