/** Writes the JSON Schemas of what the command line reads and writes: npx tsx packages/cli/scripts/write-schemas.ts */
import { writeFileSync } from 'node:fs';
import { format } from 'prettier';
import { schemaNamed, schemaNames } from '../src/commands/schema.ts';

// The job file's schema is published beside its own package.
for (const name of schemaNames.filter((one) => one !== 'job')) {
  const text = await format(JSON.stringify(schemaNamed(name)), { parser: 'json', printWidth: 110 });
  writeFileSync(new URL(`../schema/${name}.schema.json`, import.meta.url), text);
}
