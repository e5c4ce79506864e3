/** A report as a plain tree of blocks; `reportHtml`, `reportText` and the PDF package draw it. Two parts: a page for the owner, and an
 *  appendix for the next electrician. All text is plain; numbers stand with their units. */
import type { LoopChart, RiseChart } from '../diagnosis/index.ts';

export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  /** The one sentence that answers the complaint. */
  | { readonly kind: 'answer'; readonly text: string }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly string[] }
  | { readonly kind: 'cautions'; readonly items: readonly string[] }
  | {
      readonly kind: 'table';
      readonly caption: string;
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
    }
  | {
      readonly kind: 'rise';
      readonly caption: string;
      readonly chart: RiseChart;
      readonly figures: Figures;
    }
  /** The figures name the stations that the drawing numbers. */
  | {
      readonly kind: 'loop';
      readonly caption: string;
      readonly chart: LoopChart;
      readonly figures: Figures;
    }
  | { readonly kind: 'signatures'; readonly lines: readonly string[] };

/** A chart's figures as a table. */
export interface Figures {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export interface Report {
  readonly title: string;
  /** "Charging report, 11 May 2026, visit 2" */
  readonly subtitle: string;
  readonly owner: readonly Block[];
  readonly appendix: readonly Block[];
}

/** Over the second part of every report. */
export const appendixTitle = 'Appendix for the next electrician';
