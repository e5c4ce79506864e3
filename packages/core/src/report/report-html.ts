/** A report as one HTML page that stands alone: no scripts, nothing fetched, a style for screen and for paper. */
import { loopSvg, riseSvg } from './chart-svg.ts';
import { escaped } from './escape.ts';
import { appendixTitle, type Block, type Figures, type Report } from './report.ts';

export function reportHtml(report: Report): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escaped(report.title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<section class="owner">
<header><h1>${escaped(report.title)}</h1><p class="subtitle">${escaped(report.subtitle)}</p></header>
${report.owner.map(blockHtml).join('\n')}
</section>
<section class="appendix">
<h2 class="part">${appendixTitle}</h2>
${report.appendix.map(blockHtml).join('\n')}
</section>
</main>
</body>
</html>
`;
}

function blockHtml(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `<h2>${escaped(block.text)}</h2>`;
    case 'paragraph':
      return `<p>${escaped(block.text)}</p>`;
    case 'answer':
      return `<p class="answer">${escaped(block.text)}</p>`;
    case 'list': {
      const tag = block.ordered ? 'ol' : 'ul';
      return `<${tag}>${items(block.items)}</${tag}>`;
    }
    case 'cautions':
      return `<aside class="cautions"><h2>Caution</h2><ul>${items(block.items)}</ul></aside>`;
    case 'table':
      return tableHtml(block);
    case 'rise':
      return figure(
        block.caption,
        riseSvg(block.chart, block.caption),
        `<details><summary>In figures</summary>${tableHtml(block.figures)}</details>`,
      );
    case 'loop':
      return figure(block.caption, loopSvg(block.chart, block.caption), tableHtml(block.figures));
    case 'signatures':
      return `<div class="signatures">${block.lines.map((line) => `<p><span></span>${escaped(line)}</p>`).join('')}</div>`;
  }
}

const items = (list: readonly string[]): string => list.map((item) => `<li>${escaped(item)}</li>`).join('');

function tableHtml({ caption, head, rows }: Figures): string {
  const titles = head.map((title) => `<th scope="col">${escaped(title)}</th>`).join('');
  const body = rows
    .map((row) => `<tr>${row.map((cell) => `<td>${escaped(cell)}</td>`).join('')}</tr>`)
    .join('');
  return `<table><caption>${escaped(caption)}</caption><thead><tr>${titles}</tr></thead><tbody>${body}</tbody></table>`;
}

const figure = (caption: string, svg: string, below = ''): string =>
  `<figure><figcaption>${escaped(caption)}</figcaption>${svg}${below}</figure>`;

const STYLE = `
:root{color-scheme:light}
body{margin:0;background:#fff;color:#111;font:15px/1.45 Georgia,'Times New Roman',serif}
main{max-width:46rem;margin:0 auto;padding:1.5rem}
h1{font-size:1.5rem;line-height:1.2;margin:0}
.subtitle{margin:.2rem 0 1rem;color:#444}
h2{font-size:1.02rem;margin:1rem 0 .25rem;border-bottom:1px solid #bbb}
h2.part{font-size:1.25rem;margin-top:2rem}
p{margin:.25rem 0}
.answer{font-size:1.15rem;font-weight:bold}
ul,ol{margin:.25rem 0;padding-left:1.4rem}
.cautions{border:2px solid #111;padding:.1rem .8rem .4rem;margin:1rem 0}
.cautions h2{border:0;margin-top:.4rem}
table{width:100%;border-collapse:collapse;margin:1rem 0;font-size:.86rem;overflow-wrap:anywhere}
caption{text-align:left;font-weight:bold;padding-bottom:.25rem}
th,td{text-align:left;vertical-align:top;border-bottom:1px solid #ccc;padding:.22rem .5rem .22rem 0}
figure{margin:1rem 0}
figcaption{font-weight:bold}
svg{width:100%;height:auto;font-family:inherit}
details{font-size:.9rem}
summary{padding:.8rem 0}
.signatures{display:flex;gap:2rem;margin-top:2.2rem}
.signatures p{flex:1;font-size:.85rem}
.signatures span{display:block;border-bottom:1px solid #111;height:1.6rem}
@media print{
@page{size:A4;margin:14mm}
body{font-size:10.5pt}
main{max-width:none;padding:0}
.appendix{break-before:page}
h2,caption,figcaption{break-after:avoid}
tr,svg,.cautions,.signatures{break-inside:avoid}
details{display:none}
thead{display:table-header-group}
}`;
