export * from './report.ts';
export { ownerReport, type ReportInput, type ReportVisit } from './owner-report.ts';
export { reportHtml } from './report-html.ts';
export { reportText } from './report-text.ts';
