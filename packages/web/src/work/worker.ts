/** Where the page computes: reading of files, diagnosis and charts, away from the hand on the screen. */
import {
  chargingPairs,
  createSession,
  loopChart,
  ownerReport,
  placedChecks,
  placedFaults,
  remedyFor,
  riseChart,
  systemRules,
  type Session,
} from '@ampwright/core';
import {
  baselineVisits,
  descriptionOf,
  evidenceOf,
  newJob,
  parseJob,
  pricesOf,
  readingsOf,
  serialiseJob,
} from '@ampwright/jobs';
import type { NewJobOptions, ParsedJob } from '@ampwright/jobs';
import { expose } from 'comlink';
import type { BoatReview } from './boat-review.ts';
import { bundleOf, jobsOfFile } from './bundle.ts';
import {
  boatWith,
  chargeOf,
  variantsOf,
  whatIfOf,
  type ChargeAsk,
  type ChargeView,
  type Progress,
  type VariantView,
  type WhatIfView,
} from './charging.ts';
import { viewOf, type CheckView } from './check-view.ts';
import type {
  Band,
  Job,
  JobBoat,
  LoopChart,
  Reading,
  Remedy,
  Report,
  RiseChart,
  UnitPreference,
  VariantId,
  Verdict,
} from './contract.ts';

export interface ChargingPair {
  readonly alternator: string;
  readonly battery: string;
}

export interface Thinking {
  newJob(options: NewJobOptions): Job;
  readFile(text: string): readonly ParsedJob[];
  writeFile(job: Job): string;
  writeFiles(jobs: readonly Job[]): string;
  /** What does not hold together in the job's description. */
  review(job: Job): BoatReview;
  checks(job: Job): readonly CheckView[];
  /** What each fault that this boat can have is called. */
  faultNames(job: Job): ReadonlyMap<string, string>;
  diagnose(job: Job): Verdict;
  /** Where each check would read if all were well. */
  bands(job: Job): ReadonlyMap<string, Band>;
  remedy(job: Job): Remedy;
  /** What a plan does to the banks, over everything unknown of the boat. */
  charge(job: Job, ask: ChargeAsk, progress: Progress): ChargeView;
  variants(job: Job): readonly VariantView[];
  whatIf(job: Job, ask: ChargeAsk, chosen: readonly VariantId[], progress: Progress): WhatIfView;
  boatWith(job: Job, variant: VariantId): JobBoat | undefined;
  report(job: Job, units: UnitPreference): Report;
  /** The report as a PDF file. */
  pdf(job: Job, units: UnitPreference): Promise<Uint8Array>;
  /** Of one bank; of the first when none is named or the boat has no such bank. */
  rise(job: Job, battery?: string): RiseChart | undefined;
  loop(job: Job, alternator?: string, battery?: string): LoopChart | undefined;
  /** Alternators and banks that the wiring joins. */
  pairs(job: Job): readonly ChargingPair[];
}

const thinking: Thinking = {
  newJob,
  readFile: jobsOfFile,
  writeFile: serialiseJob,
  writeFiles: bundleOf,
  review: (job) => {
    const parsed = parseJob(serialiseJob(job));
    return parsed.kind === 'job'
      ? { problems: [], notes: parsed.notes }
      : { problems: parsed.problems, notes: [] };
  },
  checks: (job) => placedChecks(descriptionOf(job)).map(viewOf),
  faultNames: (job) => new Map(placedFaults(descriptionOf(job)).map(({ id, fault }) => [id, fault.words])),
  diagnose: (job) => sessionOf(job).diagnose(presentReadings(job)),
  bands: (job) => sessionOf(job).predict(presentReadings(job)),
  remedy: remedyOf,
  charge: chargeOf,
  variants: variantsOf,
  whatIf: whatIfOf,
  boatWith,
  report: reportOf,
  pdf: async (job, units) => {
    // Layout and fonts weigh more than the whole page and few visits want them: they come when asked for.
    const [{ reportPdf }, { readFont }] = await Promise.all([
      import('@ampwright/pdf'),
      import('./pdf-fonts.ts'),
    ]);
    return reportPdf(reportOf(job, units), readFont);
  },
  rise: (job, battery) => {
    if (!canCharge(job)) return undefined;
    const known = job.boat.parts.some(({ id, kind }) => kind === 'battery' && id === battery);
    const options = battery !== undefined && known ? { battery } : {};
    return riseChart(sessionOf(job), presentReadings(job), options);
  },
  loop: (job, alternator, battery) => {
    if (!canCharge(job)) return undefined;
    const options = {
      ...(alternator === undefined ? {} : { alternator }),
      ...(battery === undefined ? {} : { battery }),
    };
    return loopChart(sessionOf(job), presentReadings(job), options);
  },
  pairs: (job) =>
    chargingPairs(descriptionOf(job)).flatMap(({ alternator, battery }) =>
      battery === undefined ? [] : [{ alternator, battery }],
    ),
};

expose(thinking);

/** The session of the boat last spoken of: what is drawn for one boat serves all its readings. */
let kept: { readonly boat: string; readonly session: Session } | undefined;

function sessionOf(job: Job): Session {
  const description = descriptionOf(job);
  const checks = placedChecks(description);
  const visit = job.visits.at(-1);
  const baseline = visit ? baselineVisits(job, visit).flatMap((earlier) => readingsOf(earlier, checks)) : [];
  const repaired = visit ? evidenceOf(job, visit, checks).repaired : [];
  const boat = JSON.stringify([description, job.skill, baseline, repaired, job.prices]);
  if (kept?.boat !== boat) {
    const prices = pricesOf(job.prices);
    const options = { baseline, repaired, prices, ...(job.skill === undefined ? {} : { skill: job.skill }) };
    kept = { boat, session: createSession(description, options) };
  }
  return kept.session;
}

/** Readings of the present visit, and of those that it goes on with after repairs. */
function presentReadings(job: Job): readonly Reading[] {
  const visit = job.visits.at(-1);
  return visit ? evidenceOf(job, visit, placedChecks(descriptionOf(job))).readings : [];
}

function canCharge(job: Job): boolean {
  const has = (kind: string) => job.boat.parts.some((part) => part.kind === kind);
  return has('alternator') && has('battery');
}

function remedyOf(job: Job): Remedy {
  const session = sessionOf(job);
  const readings = presentReadings(job);
  return remedyFor(session.description, session.diagnose(readings), {
    bands: session.predict(readings),
    readings,
    prices: pricesOf(job.prices),
    checks: session.checks,
  });
}

function reportOf(job: Job, units: UnitPreference): Report {
  const session = sessionOf(job);
  const { description, checks } = session;
  const readings = presentReadings(job);
  const date = job.visits.at(-1)?.date;
  const rise = thinking.rise(job);
  const loop = thinking.loop(job);
  return ownerReport({
    title: job.title ?? 'Untitled job',
    ...(job.complaint === undefined ? {} : { complaint: job.complaint }),
    description,
    visits: job.visits.map((visit) => ({
      ...(visit.date === undefined ? {} : { date: visit.date }),
      ...(visit.note === undefined ? {} : { note: visit.note }),
      baseline: visit.baseline,
      repairs: visit.repairs ?? [],
      readings: readingsOf(visit, checks),
    })),
    verdict: session.diagnose(readings),
    remedy: remedyOf(job),
    checks,
    bands: session.predict(readings),
    rules: systemRules(description),
    ...(rise ? { rise } : {}),
    ...(loop ? { loop } : {}),
    ...(date === undefined ? {} : { date: date.slice(0, 10) }),
    preference: units,
  });
}
