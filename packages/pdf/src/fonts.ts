/** The font files that a report needs: of each family one file a script and weight, as npm's fontsource cuts them. */

/** Name of a file below `@fontsource/FAMILY/files/`. */
export type FontFile = (typeof fontFiles)[number];

export const fontFiles = [
  'alegreya-latin-700-normal.woff',
  'alegreya-sans-latin-400-normal.woff',
  'alegreya-sans-latin-700-normal.woff',
  'alegreya-sans-latin-ext-400-normal.woff',
  'alegreya-sans-latin-ext-700-normal.woff',
  'alegreya-sans-greek-400-normal.woff',
  'alegreya-sans-greek-700-normal.woff',
  'alegreya-sans-cyrillic-400-normal.woff',
  'alegreya-sans-cyrillic-700-normal.woff',
] as const;

const sans = (script: string) => ({
  normal: `alegreya-sans-${script}-400-normal.woff`,
  bold: `alegreya-sans-${script}-700-normal.woff`,
});

/** Font families of the document; each script is a family of its own. */
export const families = {
  Title: { normal: 'alegreya-latin-700-normal.woff', bold: 'alegreya-latin-700-normal.woff' },
  Latin: sans('latin'),
  LatinExtended: sans('latin-ext'),
  Greek: sans('greek'),
  Cyrillic: sans('cyrillic'),
} as const;

export type Family = keyof typeof families;
