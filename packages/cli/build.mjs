/** Bundles the command line into one file, dist/ampwright.js, that starts fast and needs nothing beside it. */
import { chmodSync, mkdirSync, renameSync, writeFileSync } from 'node:fs';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = fileURLToPath(new URL('.', import.meta.url));

const { outputFiles } = await build({
  absWorkingDir: here,
  entryPoints: ['src/main.ts'],
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  minifySyntax: true,
  write: false,
  outfile: 'dist/ampwright.js',
  banner: {
    // CommonJS dependencies call `require` for Node's own modules.
    js: [
      '#!/usr/bin/env node',
      "import { createRequire as ampwrightRequire } from 'node:module';",
      'const require = ampwrightRequire(import.meta.url);',
    ].join('\n'),
  },
});

// Written aside and renamed, so that a command started meanwhile never reads half a file.
const target = `${here}dist/ampwright.js`;
const aside = `${target}.${process.pid}`;
mkdirSync(`${here}dist`, { recursive: true });
writeFileSync(aside, outputFiles[0].contents);
chmodSync(aside, 0o755);
renameSync(aside, target);
