/** The rise chart: how the battery's voltage should climb, and how it does. */
import { useOpenJob } from '../state/job-context.tsx';
import { RiseDrawing } from '../drawing/rise-drawing.tsx';
import { goTo, jobAddress } from '../state/route.ts';
import { Choice } from '../widgets/choice.tsx';
import { Fitted } from '../widgets/fitted.tsx';
import { RiseKey } from '../widgets/rise-key.tsx';
import { ThinkingNote } from '../widgets/thinking-note.tsx';
import { partName } from '../words/part-words.ts';
import { formatNumber } from '../words/numbers.ts';
import { formatQuantity, type Band, type RiseChart } from '../work/contract.ts';
import { useRise } from '../work/use-chart.ts';

export function RisePage({ chosen }: { readonly chosen: string | undefined }) {
  const { job, units } = useOpenJob();
  const thought = useRise(chosen);
  const banks = job.boat.parts.filter(({ kind }) => kind === 'battery');
  const chart = thought.value;
  return (
    <>
      <h1>Rise</h1>
      <p className="soft">
        How far the voltage climbs after the start says more than how high it is. A reading lands here as soon
        as it is typed.
      </p>
      {banks.length > 1 && (
        <Choice
          words="Which bank"
          value={chosen ?? chart?.battery}
          options={banks.map((bank) => [bank.id, partName(bank.id, job)])}
          onChoose={(bank) => goTo(jobAddress(job.id, 'rise', bank))}
        />
      )}
      <div className="note-place">
        <ThinkingNote thought={thought} />
      </div>
      {chart ? (
        <figure>
          <figcaption>
            {partName(chart.battery, job)}, engine at {formatQuantity(chart.engineSpeed, 'speed', units)}
          </figcaption>
          <RiseKey chart={chart} />
          <Fitted>
            {(width) => (
              <RiseDrawing chart={chart} width={width} height={Math.min(400, Math.max(320, width * 0.62))} />
            )}
          </Fitted>
          <RiseTable chart={chart} />
        </figure>
      ) : (
        !thought.stale && (
          <p className="soft">There is no alternator and bank on this boat to draw a rise for.</p>
        )
      )}
    </>
  );
}

function RiseTable({ chart }: { readonly chart: RiseChart }) {
  const words = (band: Band | undefined) =>
    band === undefined ? '–' : `${formatNumber(band.low, 2)} to ${formatNumber(band.high, 2)}`;
  return (
    <details className="table">
      <summary>The same as a table</summary>
      <div className="table-frame" tabIndex={0} role="region" aria-label="Rise as a table">
        <table className="ruled">
          <thead>
            <tr>
              <th scope="col">Minutes</th>
              <th scope="col">All well, V</th>
              {chart.suspects.slice(0, 2).map((suspect) => (
                <th key={suspect.id} scope="col">
                  {suspect.words}, V
                </th>
              ))}
              <th scope="col">Read, V</th>
            </tr>
          </thead>
          <tbody>
            {chart.times.map((time, index) => (
              <tr key={time}>
                <th scope="row">{formatNumber(time / 60, time % 60 === 0 ? 0 : 1)}</th>
                <td>{words(chart.healthy[index])}</td>
                {chart.suspects.slice(0, 2).map((suspect) => (
                  <td key={suspect.id}>{words(suspect.bands[index])}</td>
                ))}
                <td>
                  {chart.points
                    .filter(({ sinceStart }) => sinceStart === time)
                    .map(({ value }) => formatNumber(value, 2))
                    .join(', ')}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
