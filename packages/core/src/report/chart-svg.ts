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
  const points = chart.points.map(
    ({ sinceStart, value }) =>
      `<circle cx="${at(scale.x(sinceStart))}" cy="${at(scale.y(value))}" r="4.5" fill="#000" stroke="#fff" stroke-width="1.5"/>`,
  );
  return frame(caption, [grid(scale), ...bodies, ...axis, ...points, legend(rows.map(({ words }) => words))]);
}

/** Potential at each station, healthy band and present band, with the measured ones as points. */
export function loopSvg(chart: LoopChart, caption: string): string {
  const { stations } = chart;
  const count = Math.max(1, stations.length - 1);
  const values = stations.flatMap(({ healthy, now, measured }) => [
    healthy.low,
    healthy.high,
    now.low,
    now.high,
    ...(measured === undefined ? [] : [measured]),
  ]);
  const scale = scaleOf(values, (index) => index / count);
  const row = (pick: (index: number) => Band | undefined): { at: number; band: Band }[] =>
    stations.flatMap((_, index) => {
      const band = pick(index);
      return band === undefined ? [] : [{ at: index, band }];
    });
  const points = stations.flatMap(({ measured }, index) =>
    measured === undefined
      ? []
      : [
          `<circle cx="${at(scale.x(index))}" cy="${at(scale.y(measured))}" r="4.5" fill="#000" stroke="#fff" stroke-width="1.5"/>`,
        ],
  );
  const axis = stations.map((_, index) => text(scale.x(index), HEIGHT - 26, String(index + 1), 'middle'));
  return frame(caption, [
    grid(scale),
    bandShape(
      row((index) => stations[index]?.healthy),
      scale,
      0,
    ),
    bandShape(
      row((index) => stations[index]?.now),
      scale,
      1,
    ),
    ...axis,
    ...points,
    legend(['If all were well', 'As it is likely now']),
  ]);
}

function scaleOf(values: readonly number[], share: (value: number) => number): Scale {
  const finite = values.filter(Number.isFinite);
  const low = Math.min(...finite, Infinity);
  const high = Math.max(...finite, -Infinity);
  const [from, to] = finite.length === 0 ? [0, 1] : high - low < 0.2 ? [low - 0.1, high + 0.1] : [low, high];
  const step = niceStep((to - from) / 5);
  const bottom = Math.floor(from / step) * step;
  const top = Math.ceil(to / step) * step;
  const ticks: number[] = [];
  for (let index = 0; bottom + index * step <= top + step / 2; index++) ticks.push(bottom + index * step);
  const inner = { width: WIDTH - MARGIN.left - MARGIN.right, height: HEIGHT - MARGIN.top - MARGIN.bottom };
  return {
    x: (value) => MARGIN.left + 8 + share(value) * (inner.width - 16),
    y: (value) => MARGIN.top + inner.height * (1 - (value - bottom) / (top - bottom)),
    ticks,
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
        text(MARGIN.left - 6, y + 4, `${formatNumber(tick, { decimals: 1 })} V`, 'end')
      );
    })
    .join('');
}

function legend(names: readonly string[]): string {
  let x: number = MARGIN.left;
  return names
    .map((name, index) => {
      const { colour, dash } = styles[index % styles.length] ?? styles[0];
      const short = name.length > 34 ? `${name.slice(0, 33)}…` : name;
      const item =
        `<line x1="${x}" x2="${x + 22}" y1="${HEIGHT - 9}" y2="${HEIGHT - 9}" stroke="${colour}" stroke-width="2"${dash === '' ? '' : ` stroke-dasharray="${dash}"`}/>` +
        text(x + 27, HEIGHT - 5, short, 'start');
      x += 40 + 5.6 * short.length;
      return item;
    })
    .join('');
}

function frame(caption: string, parts: readonly string[]): string {
  return `<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${escaped(caption)}" xmlns="http://www.w3.org/2000/svg">${parts.join('')}</svg>`;
}

function text(x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end'): string {
  return `<text x="${at(x)}" y="${at(y)}" text-anchor="${anchor}" font-size="10.5">${escaped(words)}</text>`;
}

const at = (value: number): string => value.toFixed(1);
