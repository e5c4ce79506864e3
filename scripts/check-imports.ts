/** Holds the import rules of .dependency-cruiser.cjs, and makes sure that they were held against every source file:
 *  a cruise that cannot read TypeScript sees nothing and passes.
 */
import { readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, relative, sep } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { cruise } from 'dependency-cruiser';
import type { IConfiguration, ICruiseResult } from 'dependency-cruiser';

const repository = fileURLToPath(new URL('..', import.meta.url));
const sourceFile = /^packages\/[^/]+\/src\/.*\.tsx?$/;

export interface ImportReport {
  /** `rule: from → to`, one for each import that breaks a rule. */
  readonly violations: readonly string[];
  /** Source files that the rules were held against. */
  readonly seen: readonly string[];
  /** Source files on disk that were not seen. */
  readonly unseen: readonly string[];
}

/** Checks `the packages' sources` below a folder. */
export async function importReport(folder: string): Promise<ImportReport> {
  const require = createRequire(import.meta.url);
  const { options, ...ruleSet } = require('../.dependency-cruiser.cjs') as IConfiguration;
  const { enhancedResolveOptions, ...cruiseOptions } = options ?? {};
  const { output } = await cruise(
    ['packages'],
    { ...cruiseOptions, ruleSet, validate: true, baseDir: folder },
    enhancedResolveOptions,
  );
  const { modules, summary } = output as ICruiseResult;
  const seen = modules.map(({ source }) => source).filter((source) => sourceFile.test(source));
  const known = new Set(seen);
  return {
    violations: summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} → ${to}`),
    seen,
    unseen: sourceFiles(folder).filter((file) => !known.has(file)),
  };
}

function sourceFiles(folder: string): string[] {
  const packages = join(folder, 'packages');
  return readdirSync(packages)
    .flatMap((name) => filesBelow(join(packages, name, 'src')))
    .map((file) => relative(folder, file).split(sep).join('/'))
    .filter((file) => sourceFile.test(file) && !file.endsWith('.d.ts'));
}

function filesBelow(folder: string): string[] {
  try {
    return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
      const path = join(folder, entry.name);
      return entry.isDirectory() ? filesBelow(path) : [path];
    });
  } catch {
    return [];
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { violations, seen, unseen } = await importReport(repository);
  for (const violation of violations) console.error(violation);
  for (const file of unseen) console.error(`not seen by the import rules: ${file}`);
  if (seen.length === 0) console.error('the import rules saw no source file at all');
  const sound = violations.length === 0 && unseen.length === 0 && seen.length > 0;
  console.log(`${seen.length} files, ${violations.length} imports against the rules`);
  process.exit(sound ? 0 : 1);
}
