/** Potential along the loop, from the alternator's stud through every conductor to the battery and back. */
import { useOpenJob } from '../state/job-context.tsx';
import { LoopDrawing } from '../drawing/loop-drawing.tsx';
import { goTo, jobAddress } from '../state/route.ts';
import { Choice } from '../widgets/choice.tsx';
import { Fitted } from '../widgets/fitted.tsx';
import { ThinkingNote } from '../widgets/thinking-note.tsx';
import { formatNumber } from '../words/numbers.ts';
import { partName } from '../words/part-words.ts';
import { lower } from '../work/contract.ts';
import type { Band, LoopChart } from '../work/contract.ts';
import { useLoop, usePairs } from '../work/use-chart.ts';

/** Joins the ids of a pair in the address; ids never hold it. */
const joint = '~';

/** `chosen` is a pair, as "alternator~house". */
export function LoopPage({ chosen }: { readonly chosen: string | undefined }) {
  const { job } = useOpenJob();
  const [alternator, battery] = chosen?.split(joint) ?? [];
  const thought = useLoop(alternator, battery);
  const pairs = usePairs();
  const chart = thought.value;
  const back = chart ? chart.stations.findIndex(({ terminal }) => terminal === `${chart.battery}.-`) : -1;
  return (
    <>
      <h1>Potential along the loop</h1>
      <p className="soft">
        Volts against the battery’s negative post, the engine running. Along a good conductor the line runs
        straight down; a bad joint is a step.
      </p>
      {pairs.length > 1 && (
        <Choice
          words="Which loop"
          value={chosen ?? (chart && `${chart.alternator}${joint}${chart.battery}`)}
          options={pairs.map((pair) => [
            `${pair.alternator}${joint}${pair.battery}`,
            `${partName(pair.alternator, job)} to ${lower(partName(pair.battery, job))}`,
          ])}
          onChoose={(pair) => goTo(jobAddress(job.id, 'loop', pair))}
        />
      )}
      <div className="note-place">
        <ThinkingNote thought={thought} />
      </div>
      {chart ? (
        <figure>
          <figcaption>
            {partName(chart.alternator, job)} to {partName(chart.battery, job)} and back
          </figcaption>
          <ul className="chart-key small">
            <li>
              <svg viewBox="0 0 32 18" aria-hidden="true">
                <rect className="loop-band" x="4" y="2" width="24" height="14" />
              </svg>
              if all is well
            </li>
            <li>
              <svg viewBox="0 0 32 18" aria-hidden="true">
                <path className="loop-range" d="M4 9H28M4 4V14M28 4V14" />
              </svg>
              as it stands now
            </li>
            <li>
              <svg viewBox="0 0 32 18" aria-hidden="true">
                <circle className="chart-point" cx="16" cy="9" r="6" />
              </svg>
              what was read
            </li>
          </ul>
          <div className="loop">
            <Fitted>
              {(width) => (
                <LoopDrawing title="The way out" stations={chart.stations.slice(0, back)} width={width} />
              )}
            </Fitted>
            <Fitted>
              {(width) => (
                <LoopDrawing title="The way back" stations={chart.stations.slice(back)} width={width} />
              )}
            </Fitted>
          </div>
          <LoopTable chart={chart} />
        </figure>
      ) : (
        !thought.stale && (
          <p className="soft">There is no alternator and bank on this boat to draw a loop for.</p>
        )
      )}
    </>
  );
}

function LoopTable({ chart }: { readonly chart: LoopChart }) {
  const words = ({ low, high }: Band) => `${formatNumber(low, 2)} to ${formatNumber(high, 2)}`;
  return (
    <details className="table">
      <summary>The same as a table</summary>
      <div
        className="table-frame"
        tabIndex={0}
        role="region"
        aria-label="Potential along the loop as a table"
      >
        <table className="ruled">
          <thead>
            <tr>
              <th scope="col">Station</th>
              <th scope="col">All well, V</th>
              <th scope="col">Now, V</th>
              <th scope="col">Read, V</th>
            </tr>
          </thead>
          <tbody>
            {chart.stations.map(({ terminal, words: name, healthy, now, measured }) => (
              <tr key={terminal}>
                <th scope="row">{name}</th>
                <td>{words(healthy)}</td>
                <td>{words(now)}</td>
                <td>{measured === undefined ? '' : formatNumber(measured, 2)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
