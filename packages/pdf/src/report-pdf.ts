/** A report as PDF, made wherever JavaScript runs, without a network. */
import type { Report } from '@ampwright/core';
import pdfmake from 'pdfmake/build/pdfmake.min.js';
import { documentOf } from './document.ts';
import { families, fontFiles, type FontFile } from './fonts.ts';

/** Sizes of the owner's text [pt], tried until that part fits one page. */
const sizes = [11.5, 10.5, 9.5, 8.5];

let fontsRead: Promise<void> | undefined;

/** The bytes of the PDF.  Errors: whatever `readFont` throws */
export async function reportPdf(
  report: Report,
  readFont: (file: FontFile) => Promise<Uint8Array>,
): Promise<Uint8Array> {
  fontsRead ??= readFonts(readFont);
  await fontsRead.catch((error: unknown) => {
    fontsRead = undefined;
    throw error;
  });
  for (const [index, size] of sizes.entries()) {
    let ownerPages = 1;
    const document = documentOf(report, size, (pages) => (ownerPages = pages));
    const bytes = await pdfmake.createPdf(document).getBuffer();
    if (ownerPages <= 1 || index === sizes.length - 1) return bytes;
  }
  throw new RangeError('reportPdf: sizes: at least one is needed');
}

async function readFonts(readFont: (file: FontFile) => Promise<Uint8Array>): Promise<void> {
  const contents = await Promise.all(fontFiles.map(readFont));
  for (const [index, file] of fontFiles.entries()) {
    const content = contents[index];
    if (content !== undefined) pdfmake.virtualfs.writeFileSync(file, content);
  }
  pdfmake.addFonts(families);
}
