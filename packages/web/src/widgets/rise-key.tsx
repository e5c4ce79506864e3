/** What the bands and points of the rise chart mean. */
import type { RiseChart } from '../work/contract.ts';

export function RiseKey({ chart }: { readonly chart: RiseChart }) {
  const entries = [
    ['well', 'if all is well'],
    ...chart.suspects
      .slice(0, 2)
      .map(({ words }, index) => [index === 0 ? 'first' : 'second', words] as const),
    ...(chart.points.length > 0 ? [['point', 'what was read']] : []),
  ];
  return (
    <ul className="chart-key small">
      {entries.map(([kind, words]) => (
        <li key={kind}>
          <svg viewBox="0 0 32 18" aria-hidden="true">
            {kind === 'point' ? (
              <circle className="chart-point" cx="16" cy="9" r="6" />
            ) : (
              <>
                <rect className={`band-${kind}`} width="32" height="18" />
                <path className={`middle-${kind}`} d="M0 9H32" />
              </>
            )}
          </svg>
          {words}
        </li>
      ))}
    </ul>
  );
}
