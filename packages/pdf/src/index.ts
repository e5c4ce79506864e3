export { fontFiles, type FontFile } from './fonts.ts';
export { reportPdf } from './report-pdf.ts';
