/** The fonts of a report as PDF: files beside the page, fetched when the first such report is made. */
import type { FontFile } from '@ampwright/pdf';

const addresses: Readonly<Record<string, string>> = {
  ...import.meta.glob('../../../../node_modules/@fontsource/alegreya/files/alegreya-latin-700-normal.woff', {
    eager: true,
    query: '?url',
    import: 'default',
  }),
  ...import.meta.glob(
    '../../../../node_modules/@fontsource/alegreya-sans/files/alegreya-sans-{latin,latin-ext,greek,cyrillic}-{400,700}-normal.woff',
    { eager: true, query: '?url', import: 'default' },
  ),
};

export async function readFont(file: FontFile): Promise<Uint8Array> {
  const address = Object.entries(addresses).find(([path]) => path.endsWith(`/${file}`))?.[1];
  if (address === undefined) throw new Error(`the font ${file} is not part of this page`);
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`the font ${file} cannot be read (${answer.status})`);
  return new Uint8Array(await answer.arrayBuffer());
}
