/** The two charts of a job as SVG text: no scripts, no outside files; meaning never by colour alone (Okabe–Ito colours,
 *  each band with its own dash and label). */
import type { Band, LoopChart, RiseChart } from '../diagnosis/index.ts';
import { formatDuration, formatNumber } from '../units/index.ts';
import { escaped } from './escape.ts';

const WIDTH = 640;
const HEIGHT = 300;
const MARGIN = { left: 48, right: 12, top: 12, bottom: 44 } as const;
const styles = [
  { colour: '#009E73', dash: '' },
  { colour: '#D55E00', dash: '6 3' },
  { colour: '#0072B2', dash: '2 3' },
] as const;

interface Scale {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly ticks: readonly number[];
  readonly decimals: number;
}

/** Voltage against time; time on a scale of √t so that the first minute is seen. */
export function riseSvg(chart: RiseChart, caption: string): string {
  const rows = [
    { words: 'If all were well', bands: chart.healthy },
    ...chart.suspects.map(({ words, bands }) => ({ words, bands })),
  ];
  const last = Math.max(1, chart.times.at(-1) ?? 1, ...chart.points.map(({ sinceStart }) => sinceStart));
  const values = [
    ...rows.flatMap(({ bands }) => bands.flatMap(({ low, high }) => [low, high])),
    ...chart.points.map(({ value }) => value),
  ];
  const scale = scaleOf(values, (time) => Math.sqrt(time / last));
  const bodies = rows.map(({ bands }, index) =>
    bandShape(
      bands.map((band, at) => ({ at: chart.times[at] ?? 0, band })),
      scale,
      index,
    ),
  );
  const times = chart.times.filter((time) => time === 0 || time >= 30);
  const axis = times.map((time) =>
    text(scale.x(time), HEIGHT - 26, time === 0 ? 'off' : formatDuration(time), 'middle'),
  );
  const points = chart.points.map(({ sinceStart, value }) => dot(scale.x(sinceStart), scale.y(value)));
  return frame(caption, [grid(scale), ...bodies, ...axis, ...points, legend(rows.map(({ words }) => words))]);
}

/** Potential at each station, healthy band and present band, with the measured ones as points. The way out and the
 *  way back are drawn apart, both on one scale of volts, since the battery's own voltage between would hide every step. */
export function loopSvg(chart: LoopChart, caption: string): string {
  const { stations } = chart;
  const split = stations.findIndex(({ terminal }) => terminal === `${chart.battery}.-`);
  const sides = split > 0 ? [stations.slice(0, split), stations.slice(split)] : [stations];
  const count = Math.max(1, stations.length - 1);
  const range = Math.max(0.2, ...sides.map((side) => spread(side.flatMap(valuesOf))));
  const height = HEIGHT / sides.length + 24;
  let first = 0;
  const panels = sides.map((side, panel) => {
    const scale = scaleOf(side.flatMap(valuesOf), (index) => index / count, range, height);
    const start = first;
    first += side.length;
    const row = (pick: (station: Station) => Band): { at: number; band: Band }[] =>
      side.map((station, index) => ({ at: start + index, band: pick(station) }));
    const parts = [
      grid(scale),
      bandShape(
        row(({ healthy }) => healthy),
        scale,
        0,
      ),
      bandShape(
        row(({ now }) => now),
        scale,
        1,
      ),
      ...side.flatMap(({ measured }, index) =>
        measured === undefined ? [] : [dot(scale.x(start + index), scale.y(measured))],
      ),
      ...side.map((_, index) =>
        text(scale.x(start + index), height - 28, String(start + index + 1), 'middle'),
      ),
    ];
    return `<g transform="translate(0 ${at(panel * (height - 20))})">${parts.join('')}</g>`;
  });
  const whole = sides.length * (height - 20) + 20;
  return frame(caption, [...panels, legend(['If all were well', 'As it is likely now'], whole)], whole);
}

type Station = LoopChart['stations'][number];

const valuesOf = ({ healthy, now, measured }: Station): number[] => [
  healthy.low,
  healthy.high,
  now.low,
  now.high,
  ...(measured === undefined ? [] : [measured]),
];

function spread(values: readonly number[]): number {
  const finite = values.filter(Number.isFinite);
  return finite.length === 0 ? 0 : Math.max(...finite) - Math.min(...finite);
}

const dot = (x: number, y: number): string =>
  `<circle cx="${at(x)}" cy="${at(y)}" r="4.5" fill="#000" stroke="#fff" stroke-width="1.5"/>`;

/** A scale that shows all values, over at least `range` volts. */
function scaleOf(
  values: readonly number[],
  share: (value: number) => number,
  range = 0.2,
  height = HEIGHT,
): Scale {
  const finite = values.filter(Number.isFinite);
  const low = finite.length === 0 ? 0 : Math.min(...finite);
  const high = finite.length === 0 ? 0 : Math.max(...finite);
  const lacking = Math.max(0, range - (high - low)) / 2;
  const step = niceStep((high - low + 2 * lacking) / 5);
  const bottom = Math.floor((low - lacking) / step) * step;
  const top = Math.ceil((high + lacking) / step) * step;
  const ticks: number[] = [];
  for (let index = 0; bottom + index * step <= top + step / 2; index++) ticks.push(bottom + index * step);
  const inner = { width: WIDTH - MARGIN.left - MARGIN.right, height: height - MARGIN.top - MARGIN.bottom };
  return {
    x: (value) => MARGIN.left + 8 + share(value) * (inner.width - 16),
    y: (value) => MARGIN.top + inner.height * (1 - (value - bottom) / (top - bottom)),
    ticks,
    decimals: step < 0.1 ? 2 : 1,
  };
}

function niceStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough));
  const share = rough / power;
  return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
}

function bandShape(points: readonly { at: number; band: Band }[], scale: Scale, style: number): string {
  const good = points.filter(({ band }) => Number.isFinite(band.low) && Number.isFinite(band.high));
  if (good.length === 0) return '';
  const { colour, dash } = styles[style % styles.length] ?? styles[0];
  const place = (x: number, y: number): string => `${at(scale.x(x))},${at(scale.y(y))}`;
  const outline = [
    ...good.map((one) => place(one.at, one.band.high)),
    ...[...good].reverse().map((one) => place(one.at, one.band.low)),
  ].join(' ');
  const middle = good.map((one) => place(one.at, one.band.middle)).join(' ');
  const dashed = dash === '' ? '' : ` stroke-dasharray="${dash}"`;
  return (
    `<polygon points="${outline}" fill="${colour}" fill-opacity="0.14" stroke="${colour}" stroke-width="0.8"${dashed}/>` +
    `<polyline points="${middle}" fill="none" stroke="${colour}" stroke-width="2"${dashed}/>`
  );
}

function grid(scale: Scale): string {
  return scale.ticks
    .map((tick) => {
      const y = scale.y(tick);
      return (
        `<line x1="${MARGIN.left}" x2="${WIDTH - MARGIN.right}" y1="${at(y)}" y2="${at(y)}" stroke="#ccc" stroke-width="0.6"/>` +
        text(MARGIN.left - 6, y + 4, `${formatNumber(tick, { decimals: scale.decimals })} V`, 'end')
      );
    })
    .join('');
}

function legend(names: readonly string[], height = HEIGHT): string {
  let x: number = MARGIN.left;
  return names
    .map((name, index) => {
      const { colour, dash } = styles[index % styles.length] ?? styles[0];
      const short = name.length > 34 ? `${name.slice(0, 33)}…` : name;
      const item =
        `<line x1="${x}" x2="${x + 22}" y1="${height - 9}" y2="${height - 9}" stroke="${colour}" stroke-width="2"${dash === '' ? '' : ` stroke-dasharray="${dash}"`}/>` +
        text(x + 27, height - 5, short, 'start');
      x += 40 + 5.6 * short.length;
      return item;
    })
    .join('');
}

function frame(caption: string, parts: readonly string[], height = HEIGHT): string {
  return `<svg viewBox="0 0 ${WIDTH} ${at(height)}" role="img" aria-label="${escaped(caption)}" xmlns="http://www.w3.org/2000/svg">${parts.join('')}</svg>`;
}

function text(x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end'): string {
  return `<text x="${at(x)}" y="${at(y)}" text-anchor="${anchor}" font-size="10.5">${escaped(words)}</text>`;
}

const at = (value: number): string => value.toFixed(1);
