/** `report JOB`: the owner's report, with its appendix for the next electrician. */
import { loopChart, ownerReport, reportHtml, reportText, riseChart, systemRules } from '@ampwright/core';
import type { ReportVisit } from '@ampwright/core';
import { readingsOf, type JobVisit } from '@ampwright/jobs';
import { remedyOf } from '../remedy.ts';
import { plain } from '../say.ts';
import type { Work } from '../work.ts';
import { diagnosisOf } from './diagnose.ts';
import type { Result } from './result.ts';

export interface ReportResult extends Result {
  readonly html: () => string;
  readonly pdf: () => Promise<Uint8Array>;
}

/** The report on the visit of the work and those before it; `json` is the diagnosis behind it. */
export function report(work: Work): ReportResult {
  const { job, description, session, readings, checks, visit } = work;
  const verdict = work.diagnose(readings);
  const remedy = remedyOf(work, verdict, readings);
  const loop = loopChart(session, readings);
  const until = visit === undefined ? [] : job.visits.slice(0, job.visits.indexOf(visit) + 1);
  const made = ownerReport({
    title: job.title ?? job.id,
    ...(job.complaint === undefined ? {} : { complaint: job.complaint }),
    description,
    visits: until.map((one) => visitOf(one, work)),
    verdict,
    remedy,
    checks,
    bands: session.predict(readings),
    rules: systemRules(description),
    rise: riseChart(session, readings),
    ...(loop === undefined ? {} : { loop }),
    ...(visit?.date === undefined ? {} : { date: visit.date.slice(0, 10) }),
  });
  return {
    json: diagnosisOf(work, verdict, remedy),
    text: reportText(made).trimEnd().split('\n').map(plain).join('\n'),
    code: 0,
    html: () => reportHtml(made),
    pdf: async () => {
      // Layout is large and few commands want it.
      const [{ reportPdf }, { readFont }] = await Promise.all([
        import('@ampwright/pdf'),
        import('../fonts.ts'),
      ]);
      return reportPdf(made, (file) => Promise.resolve(readFont(file)));
    },
  };
}

function visitOf(visit: JobVisit, { checks }: Work): ReportVisit {
  return {
    ...(visit.date === undefined ? {} : { date: visit.date }),
    ...(visit.note === undefined ? {} : { note: visit.note }),
    baseline: visit.baseline,
    repairs: visit.repairs ?? [],
    readings: readingsOf(visit, checks),
  };
}
