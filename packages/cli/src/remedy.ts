/** What to do about what was found, in the published shape. */
import { remedyFor } from '@ampwright/core';
import type { PlacedCheck, Reading, Remedy, Verdict } from '@ampwright/core';
import { pricesOf } from '@ampwright/jobs';
import type { RemedyShape } from './outputs.ts';
import { shapeOfBand, share } from './shapes.ts';
import type { Work } from './work.ts';

/** The remedy of a verdict on these readings, and what the repaired boat must read. */
export function remedyOf(work: Work, verdict: Verdict, readings: readonly Reading[]): Remedy {
  const bands = work.session.predict(readings);
  return remedyFor(work.description, verdict, {
    bands,
    readings,
    checks: work.checks,
    prices: pricesOf(work.job.prices),
  });
}

export function shapeOfRemedy(remedy: Remedy, checks: readonly PlacedCheck[]): RemedyShape {
  return {
    kind: remedy.kind,
    suspect: remedy.suspect ?? null,
    words: remedy.words,
    cautions: [...remedy.cautions],
    work: remedy.work.map(({ act, words, because }) => ({ act, words, because })),
    why_it_failed: [...remedy.whyItFailed],
    look_also: remedy.behind.map(({ fault, words, checks }) => ({
      fault,
      words,
      checks: checks.map(({ check }) => check),
    })),
    parts: remedy.parts.map(({ key, words, size, price }) => ({
      key,
      words,
      size: size ?? null,
      price: { low: price.low, high: price.high },
    })),
    cost:
      remedy.cost === undefined
        ? null
        : {
            low: remedy.cost.low,
            high: remedy.cost.high,
            currency: remedy.cost.currency,
            status: remedy.cost.status,
          },
    otherwise: remedy.otherwise.map(({ suspect, words, probability, remedy: instead }) => ({
      suspect,
      words,
      probability: share(probability),
      remedy: instead,
    })),
    rules: remedy.rules.map(({ id, standing, says, advice }) => ({
      id,
      standing,
      says,
      advice: advice ?? null,
    })),
    hours: remedy.hours.map(({ battery, from, amps, toKnee, toFull }) => ({
      battery,
      from: share(from),
      amps,
      hours_to_knee: hoursOf(toKnee),
      hours_to_full: hoursOf(toFull),
    })),
    proof: remedy.proof.map((proof) => ({
      check: proof.check,
      words: proof.words,
      healthy: shapeOfBand(
        proof.healthy,
        checks.find(({ id }) => id === proof.check),
      ),
      answer: proof.answer ?? null,
    })),
    baseline: [...remedy.baseline],
  };
}

/** Hours; null where the bank is never full. */
const hoursOf = (seconds: number): number | null => (Number.isFinite(seconds) ? seconds / 3600 : null);
