/** Draws the blocks of a report. The same blocks make the report of the command line. */
import { LoopDrawing } from '../drawing/loop-drawing.tsx';
import { RiseDrawing } from '../drawing/rise-drawing.tsx';
import type { Block, Figures } from '../work/contract.ts';
import { Cautions } from './cautions.tsx';
import { Fitted } from './fitted.tsx';
import { RiseKey } from './rise-key.tsx';

export function ReportBlocks({ blocks }: { readonly blocks: readonly Block[] }) {
  return blocks.map((block, index) => <OneBlock key={index} block={block} />);
}

function OneBlock({ block }: { readonly block: Block }) {
  switch (block.kind) {
    case 'heading':
      return <h3>{block.text}</h3>;
    case 'paragraph':
      return <p>{block.text}</p>;
    case 'answer':
      return <p className="report-verdict">{block.text}</p>;
    case 'cautions':
      return <Cautions cautions={block.items} />;
    case 'list':
      return block.ordered ? (
        <ol className="steps">
          {block.items.map((item) => (
            <li key={item}>
              <span>{item}</span>
            </li>
          ))}
        </ol>
      ) : (
        <ul className="plain-list">
          {block.items.map((item) => (
            <li key={item}>{item}</li>
          ))}
        </ul>
      );
    case 'table':
      return <TableBlock {...block} />;
    case 'rise':
      return (
        <figure className="report-chart">
          <figcaption>{block.caption}</figcaption>
          <RiseKey chart={block.chart} />
          <Fitted>{(width) => <RiseDrawing chart={block.chart} width={width} height={320} />}</Fitted>
          <FiguresBelow figures={block.figures} />
        </figure>
      );
    case 'loop':
      return <LoopBlock {...block} />;
    case 'signatures':
      return (
        <div className="signatures">
          {block.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      );
  }
}

function TableBlock({ caption, head, rows }: Figures) {
  return (
    <table className="ruled stack">
      <caption>{caption}</caption>
      <thead>
        <tr>
          {head.map((title) => (
            <th key={title} scope="col">
              {title}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, index) => (
          <tr key={index}>
            {row.map((cell, column) =>
              column === 0 ? (
                <th key={column} scope="row">
                  {cell}
                </th>
              ) : (
                <td key={column}>
                  <span className="stack-title">{head[column]} </span>
                  {cell}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A chart's figures, folded away on the screen. */
function FiguresBelow({ figures }: { readonly figures: Figures }) {
  return (
    <details className="table">
      <summary>In figures</summary>
      <TableBlock {...figures} />
    </details>
  );
}

function LoopBlock({ caption, chart, figures }: Extract<Block, { kind: 'loop' }>) {
  const { stations, battery } = chart;
  const back = stations.findIndex(({ terminal }) => terminal === `${battery}.-`);
  const ways = [
    ['The way out', stations.slice(0, back)],
    ['The way back', stations.slice(back)],
  ] as const;
  return (
    <figure className="report-chart">
      <figcaption>{caption}</figcaption>
      <div className="loop">
        {ways.map(([title, way]) => (
          <Fitted key={title}>{(width) => <LoopDrawing title={title} stations={way} width={width} />}</Fitted>
        ))}
      </div>
      <FiguresBelow figures={figures} />
    </figure>
  );
}
