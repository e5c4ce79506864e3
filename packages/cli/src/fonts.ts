/** The fonts of a report as PDF. From sources they are read where npm put them; the build puts them into the bundle
 *  in place of this file (see build.mjs). */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { FontFile } from '@ampwright/pdf';

export function readFont(file: FontFile): Uint8Array {
  const family = file.startsWith('alegreya-sans-') ? 'alegreya-sans' : 'alegreya';
  return readFileSync(createRequire(import.meta.url).resolve(`@fontsource/${family}/files/${file}`));
}
