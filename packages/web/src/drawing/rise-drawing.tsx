/** Battery voltage against minutes since the start: where it would lie if all were well, where the first suspects put
 *  it, and what was read.
 */
import { scaleLinear } from 'd3-scale';
import { area, curveMonotoneX, line } from 'd3-shape';
import { formatNumber } from '../words/numbers.ts';
import type { Band, RiseChart } from '../work/contract.ts';

interface Props {
  readonly chart: RiseChart;
  readonly width: number;
  readonly height: number;
}

const margin = { top: 18, right: 14, bottom: 44, left: 48 };

export function RiseDrawing({ chart, width, height }: Props) {
  const { times, healthy, suspects, points } = chart;
  const last = Math.max(...times, ...points.map(({ sinceStart }) => sinceStart), 60);
  const volts = [
    ...healthy.flatMap(({ low, high }) => [low, high]),
    ...suspects.flatMap(({ bands }) => bands.flatMap(({ low, high }) => [low, high])),
    ...points.map(({ value }) => value),
  ];
  const x = scaleLinear([0, last], [margin.left, width - margin.right]);
  const y = scaleLinear([Math.min(...volts), Math.max(...volts)], [height - margin.bottom, margin.top]).nice(
    6,
  );
  const shape = (bands: readonly Band[]) =>
    area<Band>()
      .x((_, index) => x(times[index] ?? 0))
      .y0(({ low }) => y(low))
      .y1(({ high }) => y(high))
      .curve(curveMonotoneX)([...bands]) ?? '';
  const middle = (bands: readonly Band[]) =>
    line<Band>()
      .x((_, index) => x(times[index] ?? 0))
      .y((band) => y(band.middle))
      .curve(curveMonotoneX)([...bands]) ?? '';
  const minutes = x.ticks(Math.min(8, Math.round(width / 90))).map((tick) => Math.round(tick / 60) * 60);

  return (
    <svg
      className="chart"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label="Battery voltage against minutes since the start; the table below holds the same"
    >
      <defs>
        <pattern
          id="rise-well"
          width="14"
          height="14"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <rect className="hatch-ground hatch-ground-well" width="14" height="14" />
          <path className="hatch-well" d="M0 7H14" />
        </pattern>
        <pattern
          id="rise-first"
          width="8"
          height="8"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(-45)"
        >
          <rect className="hatch-ground hatch-ground-first" width="8" height="8" />
          <path className="hatch-first" d="M0 4H8" />
        </pattern>
        <pattern id="rise-second" width="7" height="7" patternUnits="userSpaceOnUse">
          <circle className="hatch-second" cx="2.5" cy="2.5" r="1.5" />
        </pattern>
      </defs>
      {y.ticks(6).map((tick) => (
        <g key={tick}>
          <path className="chart-grid" d={`M${margin.left} ${y(tick)}H${width - margin.right}`} />
          <text className="chart-tick" x={margin.left - 8} y={y(tick) + 5} textAnchor="end">
            {formatNumber(tick, 1)}
          </text>
        </g>
      ))}
      {[...new Set(minutes)].map((tick) => (
        <g key={tick}>
          <path className="chart-grid" d={`M${x(tick)} ${margin.top}V${height - margin.bottom}`} />
          <text className="chart-tick" x={x(tick)} y={height - margin.bottom + 18} textAnchor="middle">
            {tick / 60}
          </text>
        </g>
      ))}
      <path
        className="chart-axis"
        d={`M${margin.left} ${margin.top}V${height - margin.bottom}H${width - margin.right}`}
      />
      <text className="chart-tick" x={width - margin.right} y={height - 6} textAnchor="end">
        minutes since the start
      </text>
      <text className="chart-tick" x={4} y={12}>
        volts
      </text>
      <path className="band-well" d={shape(healthy)} />
      {suspects.slice(0, 2).map(({ id, bands }, index) => (
        <path key={id} className={index === 0 ? 'band-first' : 'band-second'} d={shape(bands)} />
      ))}
      <path className="middle-well" d={middle(healthy)} />
      {suspects.slice(0, 2).map(({ id, bands }, index) => (
        <path key={id} className={index === 0 ? 'middle-first' : 'middle-second'} d={middle(bands)} />
      ))}
      {points.map(({ reading, sinceStart, value }) => (
        <g key={reading}>
          <circle className="chart-point" cx={x(sinceStart)} cy={y(value)} r="7" />
          <text className="chart-value" x={Math.min(x(sinceStart) + 11, width - 62)} y={y(value) - 10}>
            {formatNumber(value, 2)} V
          </text>
        </g>
      ))}
    </svg>
  );
}
