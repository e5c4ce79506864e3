/** Charge runs of a job, in the worker: what a plan does to its banks, and what a changed boat would do instead. */
import {
  boatAt,
  chargeRun,
  compareRuns,
  eventCaution,
  eventWords,
  proposedVariants,
  runBands,
  variantOf,
  type ChargeRun,
  type Phase,
  type RunBands,
} from '@ampwright/core';
import { boatChanged, descriptionOf } from '@ampwright/jobs';
import type { ComparedRow, Job, JobBoat, VariantId } from './contract.ts';

/** Boats drawn for the bands: enough for a tenth on each side, in about a second. */
const draws = 24;

export interface ChargeAsk {
  readonly plan: readonly Phase[];
  /** State of charge at the start, by bank; a bank that is left out starts as the boat is thought to stand. */
  readonly start: Readonly<Record<string, number>>;
}

/** A stretch in which a regulator keeps one stage [s]. */
export interface StageSpan {
  readonly alternator: string;
  readonly stage: 'bulk' | 'absorption' | 'float';
  readonly from: number;
  readonly to: number;
}

/** What happens in a run and can do harm. */
export interface RunWarning {
  readonly part: string;
  readonly at: number; // s, the first time
  readonly words: string;
  readonly caution: string;
}

export interface ChargeView {
  readonly bands: RunBands;
  /** Of the median boat. */
  readonly stages: readonly StageSpan[];
  readonly emptied: boolean;
  /** Of the median boat, each kind of event once for each part. */
  readonly warnings: readonly RunWarning[];
}

export interface VariantView {
  readonly id: VariantId;
  readonly name: string;
  readonly changes: readonly string[];
}

export interface WhatIfLine {
  /** Undefined for the boat as it is. */
  readonly variant: VariantId | undefined;
  readonly name: string;
  /** Of the main bank; times [s]. */
  readonly times: readonly number[];
  readonly charge: readonly number[];
  readonly gains: readonly string[];
  readonly costs: readonly string[];
  readonly asks: readonly string[];
  /** Rules that it would break and the boat as it is does not. */
  readonly cautions: readonly string[];
}

export interface WhatIfView {
  readonly lines: readonly WhatIfLine[];
  readonly rows: readonly ComparedRow[];
}

export type Progress = (share: number) => void;

export function chargeOf(job: Job, { plan, start }: ChargeAsk, progress: Progress): ChargeView {
  const description = descriptionOf(job);
  const bands = runBands(description, plan, {
    stateOfCharge: start,
    draws,
    onProgress: (share) => {
      progress(share);
      return true;
    },
  });
  const run = chargeRun(boatAt(description), plan, { stateOfCharge: start });
  return {
    bands,
    emptied: run.ended === 'bank-empty',
    warnings: warningsOf(run),
    stages: run.alternators.flatMap(({ id, stage }) => spansOf(id, stage, run.times, run.running)),
  };
}

function warningsOf({ events }: ChargeRun): RunWarning[] {
  return events.flatMap((event, at): RunWarning[] => {
    const caution = eventCaution(event.kind);
    const first = events.findIndex(({ part, kind }) => part === event.part && kind === event.kind);
    if (caution === undefined || first !== at) return [];
    return [{ part: event.part, at: event.time, words: eventWords(event), caution }];
  });
}

export function variantsOf(job: Job): readonly VariantView[] {
  return proposedVariants(descriptionOf(job)).map(({ id, name, changes }) => ({ id, name, changes }));
}

export function whatIfOf(
  job: Job,
  { plan, start }: ChargeAsk,
  chosen: readonly VariantId[],
  progress: Progress,
): WhatIfView {
  const description = descriptionOf(job);
  const variants = proposedVariants(description).filter(({ id }) => chosen.includes(id));
  const options = {
    stateOfCharge: start,
    onProgress: (share: number) => {
      progress(share);
      return true;
    },
  };
  const { base, variants: compared, rows } = compareRuns(description, plan, variants, options);
  const lineOf = ({ run, figures }: typeof base) => ({
    times: run.times,
    charge: run.batteries[figures.main]?.stateOfCharge ?? [],
  });
  return {
    rows,
    lines: [
      { variant: undefined, name: 'As it is', ...lineOf(base), gains: [], costs: [], asks: [], cautions: [] },
      ...compared.map((one) => ({
        variant: one.variant.id,
        name: one.variant.name,
        ...lineOf(one),
        gains: one.gains,
        costs: one.costs,
        asks: one.variant.asks,
        cautions: one.newCautions.map(({ says, advice }) => [says, advice].filter(Boolean).join(' ')),
      })),
    ],
  };
}

/** The job's boat with a what-if made real. Parts that it leaves alone stay as they were written.
 *  Undefined when it no longer applies. */
export function boatWith(job: Job, id: VariantId): JobBoat | undefined {
  const before = descriptionOf(job);
  const result = variantOf(before, id);
  if (result.kind !== 'variant') return undefined;
  return boatChanged(job.boat, before, result.variant.description);
}

function spansOf(
  alternator: string,
  stages: readonly StageSpan['stage'][],
  times: readonly number[],
  running: readonly boolean[],
): StageSpan[] {
  const spans: { alternator: string; stage: StageSpan['stage']; from: number; to: number }[] = [];
  let open = false;
  for (let at = 1; at < times.length; at++) {
    const stage = stages[at];
    const last = spans.at(-1);
    if (running[at] !== true || stage === undefined) {
      open = false;
      continue;
    }
    if (open && last?.stage === stage) last.to = times[at] ?? last.to;
    else spans.push({ alternator, stage, from: times[at - 1] ?? 0, to: times[at] ?? 0 });
    open = true;
  }
  return spans;
}
