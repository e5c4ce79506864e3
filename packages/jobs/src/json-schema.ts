/** JSON Schema (2020-12) of what is written and read, for programs outside. */
import { jobFileSchema } from './schema.ts';
import { z } from './z.ts';

/** JSON Schema of the job file. Unknown fields are allowed in it, as the reader keeps and notes them. */
export function jobSchema(): Record<string, unknown> {
  return publishedSchema(jobFileSchema, 'job');
}

/** JSON Schema of any of our schemas, as input, open to fields of later versions. */
export function publishedSchema(schema: z.core.$ZodType, title: string): Record<string, unknown> {
  const made = z.toJSONSchema(schema, {
    io: 'input',
    override: ({ jsonSchema }) => {
      if (jsonSchema.additionalProperties === false) delete jsonSchema.additionalProperties;
    },
  });
  return { $schema: 'https://json-schema.org/draft/2020-12/schema', title: `ampwright ${title}`, ...made };
}
