/** A value against the band in which it would lie if all were well. The words beside it say the same. */
import type { Band } from '../work/contract.ts';

interface Props {
  readonly band: Band;
  readonly value: number | undefined;
  readonly expected?: Band | undefined;
}

export function BandStrip({ band, value, expected }: Props) {
  const ends = [
    band.low,
    band.high,
    value ?? band.middle,
    expected?.low ?? band.low,
    expected?.high ?? band.high,
  ];
  const low = Math.min(...ends);
  const high = Math.max(...ends);
  const margin = Math.max((high - low) * 0.15, (band.high - band.low) * 0.35, 1e-9);
  const x = (at: number) => 2 + (96 * (at - low + margin)) / (high - low + 2 * margin);
  return (
    <svg
      className="strip"
      viewBox="0 0 100 20"
      preserveAspectRatio="none"
      aria-hidden="true"
      focusable="false"
    >
      <path className="strip-line" d="M0 10H100" vectorEffect="non-scaling-stroke" />
      <rect
        className="strip-band"
        x={x(band.low)}
        width={Math.max(0.5, x(band.high) - x(band.low))}
        y="4"
        height="12"
        vectorEffect="non-scaling-stroke"
      />
      {value !== undefined && (
        <path className="strip-value" d={`M${x(value)} 0V20`} vectorEffect="non-scaling-stroke" />
      )}
    </svg>
  );
}
