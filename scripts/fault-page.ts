/** Writes docs/faults.md from the catalogue, so that the page says what the program knows. */
import { writeFileSync } from 'node:fs';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import {
  families,
  faultById,
  faultCatalogue,
  priceTable,
  remedyPrice,
  type Family,
  type Fault,
} from '../packages/core/src/faults/index.ts';

export const faultPagePath = fileURLToPath(new URL('../docs/faults.md', import.meta.url));

const familyWords: Readonly<Record<Family, string>> = {
  alternator: 'Alternator',
  regulator: 'Regulator outside the alternator',
  excitation: 'Thin leads and excitation',
  path: 'Power path',
  drive: 'Drive',
  battery: 'Batteries',
  system: 'Whole boat: nothing is broken',
  indication: 'Indication',
};

const questionWords = {
  making: 'Making?',
  arriving: 'Arriving?',
  enough: 'Enough?',
  lasting: 'Lasting?',
  none: 'none of them',
} as const;

/** The page, as prettier leaves it. */
export async function faultPage(): Promise<string> {
  const config = await resolveConfig(faultPagePath);
  return format(pageText(), { ...config, parser: 'markdown' });
}

function pageText(): string {
  const normal = faultCatalogue.filter(({ nature }) => nature === 'normal').length;
  return [
    '# Faults, and states that look like them',
    '',
    'Made by `npm run docs:faults` from `packages/core/data/faults/` and `packages/core/data/prices.json`; change those, not this page.',
    '',
    `${faultCatalogue.length} entries, ${normal} of them normal states in which nothing is broken.`,
    '',
    '**Prior**: chance, before anything is known, among boats that have the part and whose owner says that the batteries',
    'are not charging. On a boat the priors of what it can have are raised by what was changed lately and scaled to add up to 1.',
    'They are estimates guided by common practice. Prices are invented round figures, in no currency in particular.',
    '',
    ...families.flatMap(familyText),
  ].join('\n');
}

function familyText(family: Family): string[] {
  const faults = faultCatalogue.filter((fault) => fault.family === family);
  return [
    `## ${familyWords[family]}`,
    '',
    '| id | what | answers with no | prior |',
    '| --- | --- | --- | --- |',
    ...faults.map(
      ({ id, words, nature, question, prior }) =>
        `| \`${id}\` | ${words}${nature === 'normal' ? ' (normal)' : ''} | ${questionWords[question]} | ${percent(prior)} |`,
    ),
    '',
    ...faults.flatMap(faultText),
  ];
}

function faultText(fault: Fault): string[] {
  const price = remedyPrice(fault);
  const raised = Object.entries(fault.raisedBy).map(([change, factor]) => `${change} × ${factor}`);
  const parts = fault.buys.map((key) => priceTable.parts[key]?.words.toLowerCase() ?? key);
  return [
    `### ${fault.words}`,
    '',
    fault.ownerWords,
    '',
    `- **Remedy**: ${fault.remedy}`,
    `- **Behind it**: ${fault.causes.join('; ')}`,
    `- **Look also for**: ${fault.alsoCheck.map((id) => faultById(id).words.toLowerCase()).join('; ')}`,
    `- **Parts**: ${parts.length > 0 ? parts.join(', ') : 'none'}; ${fault.labourHours} h; ${Math.round(price.low)} to ${Math.round(price.high)} in all`,
    ...(raised.length > 0 ? [`- **Odds changed by**: ${raised.join(', ')}`] : []),
    `- **Source of the prior**: ${fault.source}`,
    '',
  ];
}

const percent = (share: number): string => `${Number((share * 100).toFixed(1))} %`;

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(faultPagePath, await faultPage());
  console.log(`docs/faults.md: ${faultCatalogue.length} entries`);
}
