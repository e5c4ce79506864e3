/** The blocks of a report as a document for the layout engine: A4, ink on white, tables whose heads repeat. */
import { appendixTitle, loopSvg, riseSvg, type Block, type Figures, type Report } from '@ampwright/core';
import type { Content, TableCell, TDocumentDefinitions } from 'pdfmake/interfaces.js';
import { latinOf, runsOf } from './glyphs.ts';

const margins = { side: 44, top: 40, bottom: 42 } as const;
const width = 595.28 - 2 * margins.side;
const ink = '#111111';
const soft = '#4d4d4d';
const line = '#bdbdbd';
const appendixMark = 'appendix';

/** Points of text in the appendix, and in its tables. */
const small = { text: 8.6, table: 7.8 } as const;

/** `size` [pt] is the owner's text; `ownerPages` is told how many pages that part takes. */
export function documentOf(
  report: Report,
  size: number,
  ownerPages: (pages: number) => void,
): TDocumentDefinitions {
  const title = latinOf(report.title);
  return {
    info: { title, subject: latinOf(report.subtitle), creator: 'Ampwright' },
    pageSize: 'A4',
    pageMargins: [margins.side, margins.top, margins.side, margins.bottom],
    language: 'en',
    defaultStyle: { font: 'Latin', color: ink, lineHeight: 1.08, fontFeatures: ['lnum', 'kern', 'liga'] },
    footer: (page, pages) => ({
      columns: [
        { text: runsOf(`${report.title} · ${report.subtitle}`), width: '*' },
        { text: `${page} of ${pages}`, width: 50, alignment: 'right' },
      ],
      margin: [margins.side, 14, margins.side, 0],
      fontSize: 7.5,
      color: soft,
    }),
    pageBreakBefore: (node) => {
      if (node.id === appendixMark) ownerPages((node.pageNumbers[0] ?? 2) - 1);
      return false;
    },
    content: [
      { text: title, font: 'Title', fontSize: size * 1.9, margin: [0, 0, 0, 1] },
      { text: runsOf(report.subtitle), fontSize: size, color: soft, margin: [0, 0, 0, size * 0.5] },
      rule(1.2),
      ...report.owner.map((block) => contentOf(block, size)),
      {
        text: appendixTitle,
        id: appendixMark,
        font: 'Title',
        fontSize: 15,
        pageBreak: 'before',
        margin: [0, 0, 0, 2],
      },
      rule(1.2),
      ...report.appendix.map((block) => contentOf(block, small.text)),
    ],
  };
}

function contentOf(block: Block, size: number): Content {
  switch (block.kind) {
    case 'heading':
      return {
        text: runsOf(block.text),
        bold: true,
        fontSize: size * 1.08,
        margin: [0, size * 0.75, 0, size * 0.15],
        headlineLevel: 1,
      };
    case 'paragraph':
      return { text: runsOf(block.text), fontSize: size, margin: [0, 1, 0, 1] };
    case 'answer':
      return { text: runsOf(block.text), bold: true, fontSize: size * 1.3, margin: [0, 1, 0, 1] };
    case 'list': {
      const items = block.items.map((item): Content => ({ text: runsOf(item), margin: [0, 0.5, 0, 0.5] }));
      return block.ordered ? { ol: items, fontSize: size } : { ul: items, fontSize: size };
    }
    case 'cautions':
      return cautions(block.items, size);
    case 'table':
      return { stack: [caption(block.caption), table(block)], margin: [0, 7, 0, 2] };
    case 'rise':
      return chart(block.caption, riseSvg(block.chart, latinOf(block.caption)));
    case 'loop':
      return {
        stack: [chart(block.caption, loopSvg(block.chart, latinOf(block.caption))), table(block.figures)],
        margin: [0, 2, 0, 2],
      };
    case 'signatures':
      return signatures(block.lines, size);
  }
}

const rule = (thickness: number): Content => ({
  canvas: [{ type: 'line', x1: 0, y1: 0, x2: width, y2: 0, lineWidth: thickness, lineColor: ink }],
  margin: [0, 0, 0, 3],
});

const caption = (text: string): Content => ({
  text: runsOf(text),
  bold: true,
  fontSize: small.text,
  margin: [0, 0, 0, 2],
});

function chart(words: string, svg: string): Content {
  return {
    stack: [caption(words), { svg: withLatin(svg), width: 0.76 * width }],
    unbreakable: true,
    margin: [0, 8, 0, 0],
  };
}

/** A drawing's words in the letters of the one font that it is drawn in. */
const withLatin = (svg: string): string =>
  Array.from(svg, (sign) => (sign < '\u0100' ? sign : latinOf(sign))).join('');

function table({ head, rows }: Figures): Content {
  const cell = (text: string): TableCell => ({ text: text === '' ? ' ' : runsOf(text) });
  return {
    table: {
      headerRows: 1,
      dontBreakRows: true,
      widths: widthsOf(head, rows),
      body: [
        head.map((title) => ({ text: title === '' ? ' ' : runsOf(title), bold: true, color: soft })),
        ...rows.map((row) => head.map((_, column) => cell(row[column] ?? ''))),
      ],
    },
    layout: {
      hLineWidth: (index, { table: { body } }) => (index === 0 || index === body.length ? 0 : 0.5),
      vLineWidth: () => 0,
      hLineColor: () => line,
      paddingLeft: (index) => (index === 0 ? 0 : 5),
      paddingRight: () => 5,
      paddingTop: () => 1.4,
      paddingBottom: () => 1.4,
    },
    fontSize: small.table,
    lineHeight: 1.02,
  };
}

/** Columns as wide as their words want, within limits, so that long texts get the room. */
function widthsOf(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const wants = head.map((title, column) => {
    if (title === '') return 3;
    const lengths = rows.map((row) => (row[column] ?? '').length);
    const longest = Math.max(title.length, ...lengths);
    const mean = lengths.reduce((sum, length) => sum + length, 0) / Math.max(1, lengths.length);
    return Math.min(Math.max(longest < 26 ? longest : mean, title.length * 1.2, 12), 90) ** 0.8;
  });
  const sum = wants.reduce((total, want) => total + want, 0);
  const room = 100 - 0.9 * head.length;
  return wants.map((want) => `${((room * want) / sum).toFixed(2)}%`);
}

function cautions(items: readonly string[], size: number): Content {
  return {
    table: {
      widths: ['*'],
      body: [
        [
          {
            stack: [
              { text: 'Caution', bold: true, margin: [0, 0, 0, 1] },
              { ul: items.map((item) => ({ text: runsOf(item) })) },
            ],
          },
        ],
      ],
    },
    layout: {
      hLineWidth: () => 1.4,
      vLineWidth: () => 1.4,
      paddingLeft: () => 8,
      paddingRight: () => 8,
      paddingTop: () => 5,
      paddingBottom: () => 5,
    },
    fontSize: size,
    margin: [0, size * 0.8, 0, 0],
  };
}

const signatures = (lines: readonly string[], size: number): Content => ({
  columns: lines.map((words) => ({
    stack: [
      { canvas: [{ type: 'line', x1: 0, y1: 0, x2: 220, y2: 0, lineWidth: 0.8, lineColor: ink }] },
      { text: runsOf(words), fontSize: size * 0.85, color: soft },
    ],
  })),
  columnGap: 24,
  unbreakable: true,
  margin: [0, size * 3.4, 0, 0],
});
