/** Potential along the loop, drawn downwards: each station a row, its potential to the right. A bad joint is a step. */
import { scaleLinear } from 'd3-scale';
import { formatNumber } from '../words/numbers.ts';
import type { LoopChart } from '../work/contract.ts';

interface Props {
  readonly stations: LoopChart['stations'];
  readonly width: number;
  /** Title of the stretch: the way out, or the way back. */
  readonly title: string;
}

const rowHeight = 58;
const top = 34;

export function LoopDrawing({ stations, width, title }: Props) {
  const volts = stations.flatMap(({ healthy, now, measured }) => [
    healthy.low,
    healthy.high,
    now.low,
    now.high,
    ...(measured === undefined ? [] : [measured]),
  ]);
  const low = Math.min(...volts);
  const high = Math.max(...volts);
  const pad = Math.max(0.05, (high - low) * 0.12);
  const left = 12;
  const x = scaleLinear([low - pad, high + pad], [left, width - 14]);
  const y = (index: number) => top + rowHeight * (index + 0.68);
  const height = top + rowHeight * stations.length + 30;
  const path = (of: (station: LoopChart['stations'][number]) => number) =>
    stations.map((station, index) => `${index === 0 ? 'M' : 'L'}${x(of(station))} ${y(index)}`).join('');
  const ticks = x.ticks(Math.max(3, Math.round(width / 110)));
  return (
    <svg
      className="chart"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={`${title}: potential at each station; the table below holds the same`}
    >
      <text className="chart-title" x={left} y={20}>
        {title}
      </text>
      {ticks.map((tick) => (
        <g key={tick}>
          <path className="chart-grid" d={`M${x(tick)} ${top}V${height - 24}`} />
          <text className="chart-tick" x={x(tick)} y={height - 8} textAnchor="middle">
            {formatNumber(
              tick,
              ticks.some((other) => Math.abs(other * 10 - Math.round(other * 10)) > 1e-6) ? 2 : 1,
            )}
          </text>
        </g>
      ))}
      <path className="loop-well" d={path(({ healthy }) => healthy.middle)} />
      <path className="loop-now" d={path(({ now, measured }) => measured ?? now.middle)} />
      {stations.map(({ terminal, words, healthy, now, measured }, index) => (
        <g key={terminal}>
          <path className="chart-rule" d={`M0 ${top + rowHeight * (index + 1)}H${width}`} />
          <text className="chart-station" x={left} y={top + rowHeight * index + 19}>
            {words}
          </text>
          <rect
            className="loop-band"
            x={x(healthy.low)}
            y={y(index) - 7}
            width={Math.max(2, x(healthy.high) - x(healthy.low))}
            height="14"
          />
          <path
            className="loop-range"
            d={`M${x(now.low)} ${y(index)}H${x(now.high)}M${x(now.low)} ${y(index) - 5}v10M${x(now.high)} ${y(index) - 5}v10`}
          />
          {measured !== undefined && <circle className="chart-point" cx={x(measured)} cy={y(index)} r="7" />}
          <text className="chart-value" x={width - 14} y={top + rowHeight * index + 19} textAnchor="end">
            {formatNumber(measured ?? now.middle, 2)} V
          </text>
        </g>
      ))}
    </svg>
  );
}
