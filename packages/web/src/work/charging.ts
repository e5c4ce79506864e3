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
  type RunEvent,
} from '@ampwright/core';
import { boatChanged, descriptionOf } from '@ampwright/jobs';
import type { ComparedRow, Job, JobBoat, VariantId } from './contract.ts';

/** Boats drawn for the bands: enough for a tenth on each side, in about a second. */
const draws = 24;

/** More than ever happens on one boat. */
const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

export interface ChargeAsk {
  readonly plan: readonly Phase[];
  /** State of charge at the start, by bank; a bank that is left out starts as the boat is thought to stand. */
  readonly start: Readonly<Record<string, number>>;
}

/** What happens in a run to one part, once or again. */
export interface RunMark {
  /** Stands for it in the charts. */
  readonly letter: string;
  readonly part: string;
  readonly words: string;
  readonly times: readonly number[]; // s
  /** What to mind where it can do harm. */
  readonly caution: string | undefined;
}

export interface ChargeView {
  readonly bands: RunBands;
  readonly emptied: boolean;
  /** Of the median boat, in the order of their first time. */
  readonly marks: readonly RunMark[];
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
    marks: marksOf(run),
  };
}

/** Engine starts and stops are the plan's own, and left out. */
function marksOf({ events }: ChargeRun): RunMark[] {
  const sorts = new Map<string, RunEvent[]>();
  for (const event of events) {
    if (event.kind === 'engine-started' || event.kind === 'engine-stopped') continue;
    const sort = `${event.part} ${event.kind}`;
    sorts.set(sort, [...(sorts.get(sort) ?? []), event]);
  }
  return [...sorts.values()].flatMap((alike, index): RunMark[] => {
    const [first] = alike;
    const letter = letters[index];
    if (first === undefined || letter === undefined) return [];
    const times = alike.map(({ time }) => time);
    return [{ letter, part: first.part, words: eventWords(first), times, caution: eventCaution(first.kind) }];
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
