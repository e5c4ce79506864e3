/** `schema [NAME]`: the published JSON Schemas. */
import { nearestNames } from '@ampwright/core';
import { jobSchema, publishedSchema, type z } from '@ampwright/jobs';
import { WrongUse } from '../files.ts';
import { interviewInShape, interviewOutShape } from '../interview-messages.ts';
import { checksShape, diagnosisShape, faultsShape, predictionShape, validationShape } from '../outputs.ts';
import type { Result } from './result.ts';
import { runShape } from './run-shape.ts';

const outputSchemas: Readonly<Record<string, z.core.$ZodType>> = {
  validation: validationShape,
  checks: checksShape,
  faults: faultsShape,
  diagnosis: diagnosisShape,
  prediction: predictionShape,
  run: runShape,
  'interview-out': interviewOutShape,
  'interview-in': interviewInShape,
};

export const schemaNames: readonly string[] = ['job', ...Object.keys(outputSchemas)];

/** The schema of a name.  Errors: WrongUse with the nearest names */
export function schemaNamed(name: string): Record<string, unknown> {
  if (name === 'job') return jobSchema();
  const schema = Object.hasOwn(outputSchemas, name) ? outputSchemas[name] : undefined;
  if (schema === undefined) {
    const nearest = nearestNames(name, schemaNames)[0];
    throw new WrongUse(
      `There is no schema "${name}"; there are ${schemaNames.join(', ')}.${nearest === undefined ? '' : ` Did you mean ${nearest}?`}`,
    );
  }
  return publishedSchema(schema, name);
}

export function schema(name: string | undefined): Result {
  if (name === undefined) return { json: schemaNames, text: schemaNames.join('\n'), code: 0 };
  const json = schemaNamed(name);
  return { json, text: JSON.stringify(json, null, 2), code: 0 };
}
