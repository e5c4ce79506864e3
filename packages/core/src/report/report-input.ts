/** What a report is made from. */
import type { BoatDescription } from '../boat/index.ts';
import type { PlacedCheck } from '../checks/index.ts';
import type { Band, LoopChart, RiseChart, Verdict } from '../diagnosis/index.ts';
import type { Reading } from '../readings/index.ts';
import type { Remedy, RuleResult } from '../remedy/index.ts';
import type { UnitPreference } from '../units/index.ts';

export interface ReportVisit {
  readonly date?: string;
  readonly note?: string;
  /** Readings taken when all was well. */
  readonly baseline?: boolean;
  /** Placed faults that were put right before its readings. */
  readonly repairs?: readonly string[];
  readonly readings: readonly Reading[];
}

export interface ReportInput {
  readonly title: string;
  readonly complaint?: string;
  readonly description: BoatDescription;
  /** Oldest first; the verdict is on the last one. */
  readonly visits: readonly ReportVisit[];
  readonly verdict: Verdict;
  readonly remedy: Remedy;
  readonly checks: readonly PlacedCheck[];
  /** Healthy bands by placed check. */
  readonly bands?: ReadonlyMap<string, Band>;
  /** Every rule judged (`systemRules`); only the remedy's failing ones are shown when absent. */
  readonly rules?: readonly RuleResult[];
  readonly rise?: RiseChart;
  readonly loop?: LoopChart;
  /** As it is to stand on the report. */
  readonly date?: string;
  readonly preference?: UnitPreference;
}
