/** Lines of a wiring drawing: every cable runs square, in tracks of the gutters between the rows and lanes of parts. */
import type { JobPart } from '../work/contract.ts';
import { nameOf, partOf, placementOf, type Cell, type Placement } from './placement.ts';
import { symbolShapes, type TerminalPlace } from './symbol-shapes.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface PlacedPart extends Point {
  readonly part: JobPart;
}

export interface PlacedTerminal extends Point {
  readonly terminal: string;
}

export interface PlacedCable {
  /** The cable; undefined for the thin leads of a gauge. */
  readonly part: JobPart | undefined;
  readonly points: readonly Point[];
}

export interface Bar extends Point {
  readonly part: JobPart;
  readonly width: number;
}

export interface Wiring {
  readonly width: number;
  readonly height: number;
  readonly parts: readonly PlacedPart[];
  readonly terminals: readonly PlacedTerminal[];
  readonly cables: readonly PlacedCable[];
  readonly bars: readonly Bar[];
}

const laneWidth = 116;
const rowHeight = 112;
const track = 12;
const leastGutter = 30;
const barHeight = 34;

/** A stretch along a gutter; `low` and `high` tell which others it would lie over. */
interface Stretch {
  readonly gutter: string;
  readonly low: number;
  readonly high: number;
  index: number;
}

/** One end of a cable: at a terminal of a cell, or anywhere on an engine's bar. */
type End =
  | { readonly kind: 'cell'; readonly cell: Cell; readonly place: TerminalPlace }
  | { readonly kind: 'bar'; readonly engine: number };

/** A coordinate that is known once the gutters have their widths. */
type Later = (grid: Grid) => Point;

interface Grid {
  readonly laneX: (lane: number) => number;
  readonly rowY: (row: number) => number;
  readonly across: (stretch: Stretch) => number;
  readonly barY: number;
}

export function wiringOf(parts: readonly JobPart[]): Wiring {
  const placement = placementOf(parts);
  const cellOf = new Map(placement.cells.map((cell) => [cell.part.id, cell]));
  const stretches: Stretch[] = [];
  const lines = leads(parts).flatMap(({ part, from, to }) => {
    const a = endOf(from, cellOf, placement);
    const b = endOf(to, cellOf, placement);
    return a && b ? [{ part, points: route(a, b, placement, stretches) }] : [];
  });
  const grid = gridOf(placement, stretches);
  const right =
    grid.laneX(placement.lanes - 1) + laneWidth / 2 + gutterSize(`v${placement.lanes}`, stretches);
  const spread = right / Math.max(1, placement.engines.length);
  return {
    width: right,
    height: grid.barY + barHeight + 40,
    parts: placement.cells.map(({ part, row, lane }) => ({ part, x: grid.laneX(lane), y: grid.rowY(row) })),
    terminals: [
      ...placement.cells.flatMap((cell) =>
        Object.entries(symbolShapes[cell.part.kind]?.terminals ?? {}).map(([name, place]) => ({
          terminal: `${cell.part.id}.${name}`,
          ...at(cell, place)(grid),
        })),
      ),
      ...placement.engines.map((engine, index) => ({
        terminal: `${engine.id}.block`,
        x: index * spread + 34,
        y: grid.barY + barHeight / 2,
      })),
    ],
    cables: lines.map(({ part, points }) => ({ part, points: points.map((point) => point(grid)) })),
    bars: placement.engines.map((part, index) => ({
      part,
      x: index * spread + 8,
      y: grid.barY,
      width: spread - 16,
    })),
  };
}

interface Lead {
  readonly part: JobPart | undefined;
  readonly from: string;
  readonly to: string;
}

function leads(parts: readonly JobPart[]): readonly Lead[] {
  return parts.flatMap((part): Lead[] => {
    const { kind, id, from, to } = part;
    if (from === undefined || to === undefined) return [];
    if (kind === 'cable') return [{ part, from, to }];
    return [
      { part: undefined, from, to: `${id}.+` },
      { part: undefined, from: to, to: `${id}.-` },
    ];
  });
}

function endOf(terminal: string, cells: ReadonlyMap<string, Cell>, { engines }: Placement): End | undefined {
  const engine = engines.findIndex(({ id }) => id === partOf(terminal));
  if (engine >= 0) return { kind: 'bar', engine };
  const cell = cells.get(partOf(terminal));
  const place = cell && symbolShapes[cell.part.kind]?.terminals[nameOf(terminal)];
  return cell && place && { kind: 'cell', cell, place };
}

const at =
  ({ row, lane }: Cell, { x, y }: TerminalPlace): Later =>
  (grid) => ({ x: grid.laneX(lane) + x, y: grid.rowY(row) + y });

/** Corner points from one end to the other. */
function route(a: End, b: End, placement: Placement, stretches: Stretch[]): readonly Later[] {
  const take = (gutter: string, one: number, other: number): Stretch => {
    const stretch: Stretch = { gutter, low: Math.min(one, other), high: Math.max(one, other), index: 0 };
    const taken = new Set(
      stretches
        .filter(
          (used) =>
            used.gutter === gutter && used.low < stretch.high + 0.05 && stretch.low - 0.05 < used.high,
        )
        .map(({ index }) => index),
    );
    while (taken.has(stretch.index)) stretch.index++;
    stretches.push(stretch);
    return stretch;
  };
  if (a.kind === 'bar' && b.kind === 'bar') {
    const y: Later = (grid) => ({ x: 0, y: grid.barY + barHeight / 2 });
    return [y, y];
  }
  if (a.kind === 'bar') return [...route(b, a, placement, stretches)].reverse();
  const start = at(a.cell, a.place);
  const x = (end: { cell: Cell; place: TerminalPlace }) => end.cell.lane + end.place.x / laneWidth;
  const y = (end: { cell: Cell; place: TerminalPlace }) => end.cell.row + end.place.y / rowHeight;
  const sideways = (side: TerminalPlace['side']) => side === 'left' || side === 'right';
  const vertical = ({ cell, place }: { cell: Cell; place: TerminalPlace }) =>
    place.side === 'left' ? cell.lane : cell.lane + 1;
  const horizontal = ({ cell, place }: { cell: Cell; place: TerminalPlace }) =>
    place.side === 'top' ? cell.row : cell.row + 1;
  const onH =
    (stretch: Stretch, point: Later): Later =>
    (grid) => ({ x: point(grid).x, y: grid.across(stretch) });
  const onV =
    (stretch: Stretch, point: Later): Later =>
    (grid) => ({ x: grid.across(stretch), y: point(grid).y });
  const cross =
    (v: Stretch, h: Stretch): Later =>
    (grid) => ({ x: grid.across(v), y: grid.across(h) });

  if (b.kind === 'bar') {
    const onBar =
      (point: Later): Later =>
      (grid) => ({ x: point(grid).x, y: grid.barY });
    if (sideways(a.place.side)) {
      const v = take(`v${vertical(a)}`, y(a), placement.rows);
      return [start, onV(v, start), onBar(onV(v, start))];
    }
    if (horizontal(a) === placement.rows) return [start, onBar(start)];
    const lane = a.cell.lane;
    const h = take(`h${horizontal(a)}`, lane - 0.5, x(a));
    const v = take(`v${lane}`, horizontal(a) - 0.5, placement.rows);
    return [start, onH(h, start), cross(v, h), onBar(cross(v, h))];
  }

  const end = at(b.cell, b.place);
  if (sideways(a.place.side) && sideways(b.place.side)) {
    if (vertical(a) === vertical(b)) {
      const v = take(`v${vertical(a)}`, y(a), y(b));
      return [start, onV(v, start), onV(v, end), end];
    }
    const row = Math.max(a.cell.row, b.cell.row);
    const va = take(`v${vertical(a)}`, y(a), row - 0.5);
    const vb = take(`v${vertical(b)}`, y(b), row - 0.5);
    const h = take(`h${row}`, vertical(a) - 0.5, vertical(b) - 0.5);
    return [start, onV(va, start), cross(va, h), cross(vb, h), onV(vb, end), end];
  }
  if (sideways(a.place.side)) {
    const v = take(`v${vertical(a)}`, y(a), horizontal(b) - 0.5);
    const h = take(`h${horizontal(b)}`, vertical(a) - 0.5, x(b));
    return [start, onV(v, start), cross(v, h), onH(h, end), end];
  }
  if (sideways(b.place.side)) return [...route(b, a, placement, stretches)].reverse();
  if (horizontal(a) === horizontal(b)) {
    if (Math.abs(x(a) - x(b)) < 0.01) return [start, end];
    const h = take(`h${horizontal(a)}`, x(a), x(b));
    return [start, onH(h, start), onH(h, end), end];
  }
  const gutter = a.cell.lane === b.cell.lane ? a.cell.lane + 1 : Math.max(a.cell.lane, b.cell.lane);
  const ha = take(`h${horizontal(a)}`, x(a), gutter - 0.5);
  const hb = take(`h${horizontal(b)}`, x(b), gutter - 0.5);
  const v = take(`v${gutter}`, horizontal(a) - 0.5, horizontal(b) - 0.5);
  return [start, onH(ha, start), cross(v, ha), cross(v, hb), onH(hb, end), end];
}

function gutterSize(gutter: string, stretches: readonly Stretch[]): number {
  const tracks = Math.max(
    0,
    ...stretches.filter((used) => used.gutter === gutter).map(({ index }) => index + 1),
  );
  const least = gutter === 'h0' ? 16 : gutter.startsWith('v') ? 16 : leastGutter;
  return Math.max(least, tracks * track + 16);
}

function gridOf({ rows, lanes }: Placement, stretches: readonly Stretch[]): Grid {
  const starts = new Map<string, number>();
  const laneStarts: number[] = [];
  const rowStarts: number[] = [];
  let x = 0;
  for (let lane = 0; lane <= lanes; lane++) {
    starts.set(`v${lane}`, x);
    x += gutterSize(`v${lane}`, stretches);
    laneStarts.push(x);
    x += laneWidth;
  }
  let y = 0;
  for (let row = 0; row <= rows; row++) {
    starts.set(`h${row}`, y);
    y += gutterSize(`h${row}`, stretches);
    rowStarts.push(y);
    y += rowHeight;
  }
  return {
    laneX: (lane) => (laneStarts[lane] ?? 0) + laneWidth / 2,
    rowY: (row) => (rowStarts[row] ?? 0) + rowHeight / 2,
    across: ({ gutter, index }) => (starts.get(gutter) ?? 0) + 8 + track / 2 + index * track,
    barY: (rowStarts[rows] ?? 0) + 4,
  };
}
