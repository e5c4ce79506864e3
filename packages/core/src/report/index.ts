export * from './report.ts';
export { ownerReport } from './owner-report.ts';
export type { ReportInput, ReportVisit } from './report-input.ts';
export { reportHtml } from './report-html.ts';
export { reportText } from './report-text.ts';
export { lower } from './report-words.ts';
export { loopSvg, riseSvg } from './chart-svg.ts';
