/** The charts of a charge run as a table: a dozen times, and what happens since the one before. */
import { formatNumber } from '../words/numbers.ts';
import { formatDuration, type SeriesBand } from '../work/contract.ts';
import type { ChargeView, RunMark } from '../work/charging.ts';

interface Props {
  readonly times: readonly number[]; // s
  /** State of charge [%]. */
  readonly charge: SeriesBand;
  readonly bank: ChargeView['bands']['batteries'][number];
  readonly marks: readonly RunMark[];
}

export function RunTable({ times, charge, bank, marks }: Props) {
  const every = Math.max(1, Math.round((times.length - 1) / 12));
  const rows = times.flatMap((time, index) => (index % every === 0 ? [{ time, index }] : []));
  const say = ({ low, high }: SeriesBand, index: number, decimals: number) =>
    `${formatNumber(low[index] ?? NaN, decimals)} to ${formatNumber(high[index] ?? NaN, decimals)}`;
  const happened = (after: number, until: number) =>
    marks
      .filter((mark) => mark.times.some((time) => time > after && time <= until))
      .map(({ letter, words }) => `${letter}: ${words}`)
      .join('; ');
  return (
    <details className="table">
      <summary>The same as a table</summary>
      <div className="table-frame" tabIndex={0} role="region" aria-label="Charge run as a table">
        <table className="ruled">
          <thead>
            <tr>
              <th scope="col">After</th>
              <th scope="col">Charge, %</th>
              <th scope="col">Volts</th>
              <th scope="col">Amps in</th>
              {marks.length > 0 && <th scope="col">What happened</th>}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ time, index }, row) => (
              <tr key={time}>
                <th scope="row">{formatDuration(time)}</th>
                <td>{say(charge, index, 0)}</td>
                <td>{say(bank.voltage, index, 2)}</td>
                <td>{say(bank.current, index, 0)}</td>
                {marks.length > 0 && <td>{happened(rows[row - 1]?.time ?? -1, time)}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
