/** `predict JOB`: where every reading would lie if all were well. */
import { conditionWords } from '../check-text.ts';
import type { PredictionShape } from '../outputs.ts';
import { figure, plain, span, wrapped } from '../say.ts';
import { headOfJob, shapeOfBand, shapeOfCondition } from '../shapes.ts';
import type { Work } from '../work.ts';
import type { Result } from './result.ts';

/** The healthy bands of every check that gives a number, given what was read with the engine off. */
export function predict(work: Work): Result {
  const bands = work.session.predict(work.readings);
  const json: PredictionShape = {
    format: 'ampwright-prediction',
    version: 1,
    job: headOfJob(work.job),
    visit: work.visit?.id ?? null,
    checks: work.checks.flatMap((check) => {
      const healthy = shapeOfBand(bands.get(check.id), check);
      if (healthy === null) return [];
      return [
        { check: check.id, words: check.text.words, condition: shapeOfCondition(check.condition), healthy },
      ];
    }),
  };
  return { json, text: predictionText(json), code: 0 };
}

function predictionText({ job, checks }: PredictionShape): string {
  const lines = [wrapped(`${plain(job.title ?? job.id)}: where each reading would lie if all were well`)];
  for (const { check, words, condition, healthy } of checks) {
    lines.push(
      '',
      wrapped(`${words} [${check}]`),
      wrapped(conditionWords(condition), '  '),
      `  ${span(healthy)} (middle ${figure(healthy.middle, healthy.unit)})`,
    );
  }
  return lines.join('\n');
}
