/** `predict JOB`: where every reading would lie if all were well. */
import { predict as bandsOf } from '@ampwright/core';
import type { PredictionShape } from '../outputs.ts';
import { conditionWords } from '../check-text.ts';
import { figure, percent, plain, wrapped } from '../say.ts';
import { headOfJob, shapeOfBand, shapeOfCondition } from '../shapes.ts';
import type { Work } from '../work.ts';
import type { Result } from './result.ts';

export function predict(work: Work): Result {
  const bands = bandsOf(work.description, work.readings);
  throw new Error(
    String([
      bands,
      {} as PredictionShape,
      conditionWords,
      figure,
      percent,
      plain,
      wrapped,
      headOfJob,
      shapeOfBand,
      shapeOfCondition,
    ]),
  );
}
