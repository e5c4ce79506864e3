/** A quantity against hours: bands of what is likely, or lines side by side, each with its own dash and its name. */
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { formatNumber } from '../words/numbers.ts';
import type { RunMark } from '../work/charging.ts';
import type { SeriesBand } from '../work/contract.ts';
import { RunMarks } from './run-marks.tsx';

export interface RunLine {
  readonly name: string;
  readonly times: readonly number[]; // s
  readonly values: readonly number[];
}

interface Props {
  readonly title: string;
  readonly unit: string;
  readonly width: number;
  readonly height: number;
  readonly decimals: number;
  /** What the axis spans at least. */
  readonly least?: readonly [number, number];
  readonly times?: readonly number[]; // s
  readonly band?: SeriesBand;
  readonly lines?: readonly RunLine[];
  /** What happens, by letters that are explained below. */
  readonly marks?: readonly RunMark[];
}

const margin = { top: 46, right: 14, bottom: 26, left: 52 };

export function RunDrawing({
  title,
  unit,
  width,
  height,
  decimals,
  least,
  times = [],
  band,
  lines = [],
  marks = [],
}: Props) {
  const values = [
    ...(band ? [...band.low, ...band.high] : []),
    ...lines.flatMap((one) => one.values),
    ...(least ?? []),
  ].filter(Number.isFinite);
  const end = Math.max(60, ...[times.at(-1) ?? 0, ...lines.map((one) => one.times.at(-1) ?? 0)]);
  const x = scaleLinear([0, end / 3600], [margin.left, width - margin.right]);
  const y = scaleLinear(
    [Math.min(...values, Infinity), Math.max(...values, -Infinity)].map((v) => (Number.isFinite(v) ? v : 0)),
    [height - margin.bottom, margin.top],
  ).nice(4);
  const at = (index: number, of: readonly number[] = times) => x((of[index] ?? 0) / 3600);
  const shape =
    band &&
    area<number>()
      .x((_, index) => at(index))
      .y0((value) => y(value))
      .y1((_, index) => y(band.high[index] ?? 0))([...band.low]);
  const curve = (of: readonly number[], series: readonly number[]) =>
    line<number>()
      .x((_, index) => at(index, of))
      .y((value) => y(value))([...series]) ?? '';
  return (
    <svg
      className="chart"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={`${title} against hours; the table below holds the same`}
    >
      <text className="chart-title" x={12} y={20}>
        {title}
      </text>
      {y.ticks(4).map((tick) => (
        <g key={tick}>
          <path className="chart-grid" d={`M${margin.left} ${y(tick)}H${width - margin.right}`} />
          <text className="chart-tick" x={margin.left - 8} y={y(tick) + 5} textAnchor="end">
            {formatNumber(tick, decimals)}
          </text>
        </g>
      ))}
      {x.ticks(Math.max(3, Math.round(width / 90))).map((tick) => (
        <g key={tick}>
          <path className="chart-grid" d={`M${x(tick)} ${margin.top}V${height - margin.bottom}`} />
          <text className="chart-tick" x={x(tick)} y={height - 8} textAnchor="middle">
            {tick === 0 ? '0 h' : tick}
          </text>
        </g>
      ))}
      <path
        className="chart-axis"
        d={`M${margin.left} ${margin.top}V${height - margin.bottom}H${width - margin.right}`}
      />
      <text className="chart-tick" x={width - margin.right} y={20} textAnchor="end">
        {unit}
      </text>
      <RunMarks marks={marks} x={(time) => x(time / 3600)} top={margin.top} bottom={height - margin.bottom} />
      {band && (
        <>
          <path className="run-band" d={shape ?? ''} />
          <path className="run-middle" d={curve(times, band.middle)} />
        </>
      )}
      {lines.map((one, index) => (
        <path key={one.name} className={`run-line run-line-${index}`} d={curve(one.times, one.values)} />
      ))}
    </svg>
  );
}
