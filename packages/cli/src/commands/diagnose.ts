/** `diagnose JOB`: the four answers, the suspects with their why, the next check. */
import { fromSI } from '@ampwright/core';
import type { Evidence, Reading, ReadingInLight, Remedy, Verdict } from '@ampwright/core';
import type { DiagnosisShape } from '../outputs.ts';
import { remedyOf, shapeOfRemedy } from '../remedy.ts';
import {
  share,
  headOfJob,
  round,
  shapeOfBand,
  shapeOfCheck,
  shapeOfConclusion,
  shapeOfSuspect,
} from '../shapes.ts';
import type { Work } from '../work.ts';
import { diagnosisText } from './diagnosis-text.ts';
import type { Result } from './result.ts';

export function diagnose(work: Work): Result {
  const verdict = work.diagnose(work.readings);
  const json = diagnosisOf(work, verdict, remedyOf(work, verdict, work.readings));
  return { json, text: diagnosisText(json), code: 0 };
}

/** The published shape of a verdict and its remedy. */
export function diagnosisOf(work: Work, verdict: Verdict, remedy: Remedy): DiagnosisShape {
  const checkOf = (id: string) => work.checks.find((check) => check.id === id);
  return {
    format: 'ampwright-diagnosis',
    version: 1,
    job: headOfJob(work.job),
    visit: work.visit?.id ?? null,
    repaired: [...verdict.repaired],
    wrong: share(verdict.wrong),
    answers: verdict.answers.map((answer) => ({ ...answer, yes: share(answer.yes) })),
    suspects: verdict.suspects.map((suspect) => ({
      ...shapeOfSuspect(suspect),
      family: suspect.family,
      owner_words: suspect.ownerWords,
      error: suspect.error,
      prior: share(suspect.prior),
      why: suspect.why.map(shapeOfEvidence),
    })),
    nothing_fits: share(verdict.nothingFits),
    cleared: verdict.cleared.map(({ id, words, by, probability }) => ({
      id,
      words,
      probability: share(probability),
      by: shapeOfEvidence(by),
    })),
    readings: verdict.readings.map((light) => {
      const check = checkOf(light.check);
      const reading = work.readings.find((one) => one.id === light.reading);
      return {
        reading: light.reading,
        check: light.check,
        words: check?.text.words ?? light.check,
        ...valueOf(reading, work, light),
        healthy: shapeOfBand(light.healthy, check),
        expected: shapeOfBand(light.expected, check),
        healthy_chance: light.healthyChance === undefined ? null : share(light.healthyChance),
        stands: light.stands,
        slip: share(light.slip),
        after_repair_of: [...(reading?.afterRepairOf ?? [])],
      };
    }),
    next: verdict.next.flatMap((next) => {
      const check = checkOf(next.check);
      if (check === undefined) return [];
      return [
        {
          ...shapeOfCheck(check),
          bits: round(next.bits),
          bits_per_minute: round(next.bitsPerMinute),
          saves: round(next.saves),
          worth: round(next.worth),
          costs: round(next.costs),
          healthy: shapeOfBand(next.healthy, check),
          previews: next.previews.map((preview) => ({
            outcome: preview.outcome,
            words: preview.words,
            chance: share(preview.chance),
            then: preview.then,
            then_probability: share(preview.thenProbability),
          })),
        },
      ];
    }),
    conclusion: shapeOfConclusion(verdict.conclusion),
    amps: verdict.amps.map(({ battery, band }) => ({
      battery,
      band: { low: round(band.low), middle: round(band.middle), high: round(band.high), unit: 'A' },
    })),
    assumed: [...verdict.assumed],
    remedy: shapeOfRemedy(remedy, work.checks),
    reliability: {
      draws: verdict.reliability.draws,
      operating_points: verdict.reliability.operatingPoints,
      not_converged: verdict.reliability.notConverged,
      effective_draws: verdict.reliability.effectiveDraws,
      error: verdict.reliability.error,
    },
  };
}

const shapeOfEvidence = (evidence: Evidence) => ({
  reading: evidence.reading,
  check: evidence.check,
  factor: evidence.factor,
  words: evidence.words,
});

function valueOf(reading: Reading | undefined, work: Work, light: ReadingInLight) {
  const outcome = reading?.outcome;
  const check = work.checks.find((one) => one.id === light.check);
  if (outcome?.kind === 'number' && check?.outcome.kind === 'number') {
    const { unit, dimension } = check.outcome;
    return { value: round(fromSI(outcome.value, unit, dimension).value), unit, answer: null };
  }
  return { value: null, unit: null, answer: outcome?.kind === 'answer' ? outcome.answer : null };
}
