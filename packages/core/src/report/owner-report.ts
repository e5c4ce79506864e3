/** The report of a job: one page for the owner in plain words, and an appendix for the next electrician. */
import type { BoatDescription } from '../boat/index.ts';
import type { PlacedCheck } from '../checks/index.ts';
import type { Band, LoopChart, RiseChart, Verdict } from '../diagnosis/index.ts';
import type { Reading } from '../readings/index.ts';
import type { Remedy, RuleResult } from '../remedy/index.ts';
import type { UnitPreference } from '../units/index.ts';
import { appendix } from './appendix.ts';
import { ownerPage } from './owner-page.ts';
import type { Report } from './report.ts';

export interface ReportVisit {
  readonly date?: string;
  readonly note?: string;
  /** Readings taken when all was well. */
  readonly baseline?: boolean;
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

export function ownerReport(input: ReportInput): Report {
  const visits = input.visits.length;
  return {
    title: input.title,
    subtitle: [
      'Charging report',
      ...(input.date === undefined ? [] : [input.date]),
      `${input.description.nominalVoltage} V`,
      ...(visits > 1 ? [`visit ${visits}`] : []),
    ].join(' · '),
    owner: ownerPage(input),
    appendix: appendix(input),
  };
}
