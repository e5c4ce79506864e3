/** A report as plain text, 80 columns wide. Charts are told by their figures. */
import { appendixTitle, type Block, type Report } from './report.ts';

const WIDTH = 80;

export function reportText(report: Report): string {
  const parts = [
    ...wrapped(report.title),
    ...wrapped(report.subtitle),
    '='.repeat(WIDTH),
    ...report.owner.flatMap(linesOf),
    '',
    '='.repeat(WIDTH),
    appendixTitle.toUpperCase(),
    ...report.appendix.flatMap(linesOf),
  ];
  return `${parts.map((line) => line.trimEnd()).join('\n')}\n`;
}

function linesOf(block: Block): string[] {
  switch (block.kind) {
    case 'heading':
      return ['', block.text.toUpperCase()];
    case 'answer':
    case 'paragraph':
      return wrapped(block.text);
    case 'list':
      return block.items.flatMap((item, index) => wrapped(item, block.ordered ? `${index + 1}. ` : '- '));
    case 'cautions':
      return ['', 'CAUTION', ...block.items.flatMap((item) => wrapped(item, '! '))];
    case 'table':
      return ['', ...wrapped(block.caption.toUpperCase()), ...tableLines(block.head, block.rows)];
    case 'rise':
    case 'loop': {
      const { caption, head, rows } = block.figures;
      return ['', ...wrapped(caption.toUpperCase()), ...tableLines(head, rows)];
    }
    case 'signatures':
      return [
        '',
        ...block.lines.flatMap((line) => [`${line}: ${'_'.repeat(Math.max(8, 60 - line.length))}`, '']),
      ];
  }
}

/** Columns where every cell fits; else a row is its first cell with the others below it. */
function tableLines(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const widths = head.map((title, column) =>
    Math.max(plain(title).length, ...rows.map((row) => plain(row[column] ?? '').length)),
  );
  const total = widths.reduce((sum, width) => sum + width + 2, -2);
  if (total <= WIDTH) {
    const line = (row: readonly string[]): string =>
      widths.map((width, column) => plain(row[column] ?? '').padEnd(width)).join('  ');
    return [line(head), '-'.repeat(total), ...rows.map(line)];
  }
  return rows.flatMap((row) => [
    ...wrapped(row[0] ?? '', '- '),
    ...row
      .slice(1)
      .flatMap((cell, index) => (plain(cell) === '' ? [] : wrapped(cell, `    ${head[index + 1] ?? ''}: `))),
  ]);
}

/** Text without control characters, so that a job file cannot steer a terminal. */
const plain = (text: string): string =>
  // eslint-disable-next-line no-control-regex
  text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]+/g, ' ').trim();

function wrapped(text: string, first = ''): string[] {
  const indent = ' '.repeat(Math.min(first.length, 6));
  const lines: string[] = [];
  let line = first;
  let bare = true;
  for (const word of plain(text).split(/\s+/).flatMap(pieces)) {
    if (!bare && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      [line, bare] = [indent, true];
    }
    line += bare ? word : ` ${word}`;
    bare = false;
  }
  return [...lines, line];
}

/** A word too long for a line, in pieces. */
function pieces(word: string): string[] {
  const size = WIDTH - 20;
  const cut: string[] = [];
  for (let at = 0; at < word.length; at += size) cut.push(word.slice(at, at + size));
  return cut.length === 0 ? [''] : cut;
}
