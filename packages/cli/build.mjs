/** Bundles the command line into one file, dist/ampwright.js, that starts fast and needs nothing beside it. */
import { chmodSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = fileURLToPath(new URL('.', import.meta.url));

/** Puts the fonts themselves in place of the file that reads them. */
const fonts = {
  name: 'fonts',
  setup({ onLoad }) {
    onLoad({ filter: /cli[\\/]src[\\/]fonts\.ts$/ }, () => {
      const list = readFileSync(new URL('../pdf/src/fonts.ts', import.meta.url), 'utf8');
      const resolve = createRequire(new URL('../pdf/package.json', import.meta.url)).resolve;
      const files = [...new Set(list.match(/alegreya-[a-z0-9-]+\.woff(?=',\n)/g))].map((file) => {
        const family = file.startsWith('alegreya-sans-') ? 'alegreya-sans' : 'alegreya';
        return [file, readFileSync(resolve(`@fontsource/${family}/files/${file}`)).toString('base64')];
      });
      return {
        loader: 'js',
        contents: `const files = ${JSON.stringify(Object.fromEntries(files))};
export const readFont = (file) => Buffer.from(files[file], 'base64');`,
      };
    });
  },
};

const { outputFiles } = await build({
  absWorkingDir: here,
  entryPoints: ['src/main.ts'],
  bundle: true,
  plugins: [fonts],
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
