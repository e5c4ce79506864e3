declare module 'pdfmake/build/pdfmake.min.js' {
  import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';

  /** The build for browsers, which runs under Node as well. */
  const pdfmake: {
    readonly virtualfs: { writeFileSync(name: string, content: Uint8Array): void };
    addFonts(fonts: Readonly<Record<string, { readonly normal: string; readonly bold: string }>>): void;
    createPdf(document: TDocumentDefinitions): { getBuffer(): Promise<Uint8Array> };
  };
  export { pdfmake as default };
}
