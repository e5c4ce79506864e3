/** Writes the JSON Schema of the job file beside the package: npx tsx packages/jobs/scripts/write-schemas.ts */
import { writeFileSync } from 'node:fs';
import { format } from 'prettier';
import { jobSchema } from '../src/json-schema.ts';

const text = await format(JSON.stringify(jobSchema()), { parser: 'json', printWidth: 110 });
writeFileSync(new URL('../schema/job.schema.json', import.meta.url), text);
