/** The report of a job: one page for the owner in plain words, and an appendix for the next electrician. */
import { appendix } from './appendix.ts';
import { ownerPage } from './owner-page.ts';
import type { ReportInput } from './report-input.ts';
import type { Report } from './report.ts';

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
