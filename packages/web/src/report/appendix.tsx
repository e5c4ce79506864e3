/** For the next electrician: readings in order with their healthy bands, suspects, charts, the boat as described. */
import { LoopDrawing } from '../drawing/loop-drawing.tsx';
import { RiseDrawing } from '../drawing/rise-drawing.tsx';
import { useOpenJob } from '../state/job-context.tsx';
import { conditionWords } from '../words/check-words.ts';
import { percent } from '../words/odds.ts';
import { partName, partWords } from '../words/part-words.ts';
import { askedUnit, optionWord, originWords, quantityText } from '../words/quantity-words.ts';
import { bandWords, readingWords, standsWords } from '../words/reading-words.ts';
import { usePreferences } from '../state/preferences.ts';
import { partKinds, type Verdict } from '../work/contract.ts';
import type { QuantityKindView } from '../widgets/quantity-field.tsx';
import { Fitted } from '../widgets/fitted.tsx';
import { RiseKey } from '../widgets/rise-key.tsx';
import { useChart } from '../work/use-chart.ts';

export function Appendix({ verdict }: { readonly verdict: Verdict }) {
  return (
    <section className="report-appendix">
      <h2>For the next electrician</h2>
      <Readings verdict={verdict} />
      <h3>Suspects</h3>
      <Suspects verdict={verdict} />
      <Charts />
      <h3>The boat as described</h3>
      <BoatTable />
      {verdict.assumed.length > 0 && (
        <>
          <h3>Assumed</h3>
          <p>{verdict.assumed.join('; ')}.</p>
        </>
      )}
      <p className="small soft">
        Odds come from {verdict.reliability.draws} predictions of possible boats and may be off by{' '}
        {(verdict.reliability.error * 100).toFixed(1)} percentage points.
      </p>
    </section>
  );
}

function Readings({ verdict }: { readonly verdict: Verdict }) {
  const { visit, checks, units } = useOpenJob();
  const readings = visit?.readings ?? [];
  return (
    <>
      <h3>Readings, in order</h3>
      {readings.length === 0 ? (
        <p>None.</p>
      ) : (
        <table className="ruled stack">
          <thead>
            <tr>
              <th scope="col">Check</th>
              <th scope="col">Read</th>
              <th scope="col">If all were well</th>
              <th scope="col">So it is</th>
            </tr>
          </thead>
          <tbody>
            {readings.map((reading) => {
              const check = checks.find(({ id }) => id === reading.check);
              const light = verdict.readings.find((one) => one.reading === reading.id);
              const measured = check?.text.way === 'measure' || check?.text.way === 'intervene';
              return (
                <tr key={reading.id}>
                  <th scope="row">
                    {check?.text.words ?? reading.check}
                    {measured && (
                      <span className="row-under small soft">{conditionWords(check.condition, units)}</span>
                    )}
                    {reading.note !== undefined && (
                      <span className="row-under small soft">{reading.note}</span>
                    )}
                  </th>
                  <td>{readingWords(reading, check, units)}</td>
                  <td>{light?.healthy && check ? bandWords(light.healthy, check, units) : ''}</td>
                  <td>{light && light.stands !== 'none' ? standsWords[light.stands] : ''}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      {visit?.baseline === true && (
        <p>These readings were taken when all was well: they are the boat’s baseline.</p>
      )}
      {visit?.note !== undefined && <p>{visit.note}</p>}
    </>
  );
}

function Suspects({ verdict }: { readonly verdict: Verdict }) {
  const { job } = useOpenJob();
  return (
    <table className="ruled stack">
      <thead>
        <tr>
          <th scope="col">Suspect</th>
          <th scope="col">Part</th>
          <th scope="col">Before</th>
          <th scope="col">Now</th>
        </tr>
      </thead>
      <tbody>
        {verdict.suspects.slice(0, 8).map(({ id, words, part, prior, probability }) => (
          <tr key={id}>
            <th scope="row">{words}</th>
            <td>{part === '' ? '' : partName(part, job)}</td>
            <td>{percent(prior)}</td>
            <td>{percent(probability)}</td>
          </tr>
        ))}
        <tr>
          <th scope="row">Something not known here</th>
          <td />
          <td />
          <td>{percent(verdict.nothingFits)}</td>
        </tr>
      </tbody>
    </table>
  );
}

function Charts() {
  const rise = useChart('rise').value;
  const loop = useChart('loop').value;
  const back = loop ? loop.stations.findIndex(({ terminal }) => terminal === `${loop.battery}.-`) : -1;
  return (
    <>
      {rise && (
        <figure className="report-chart">
          <h3>Rise: volts at the battery against minutes</h3>
          <RiseKey chart={rise} />
          <Fitted>{(width) => <RiseDrawing chart={rise} width={width} height={320} />}</Fitted>
        </figure>
      )}
      {loop && (
        <figure className="report-chart">
          <h3>Potential along the loop, engine running</h3>
          <div className="loop">
            <Fitted>
              {(width) => (
                <LoopDrawing title="The way out" stations={loop.stations.slice(0, back)} width={width} />
              )}
            </Fitted>
            <Fitted>
              {(width) => (
                <LoopDrawing title="The way back" stations={loop.stations.slice(back)} width={width} />
              )}
            </Fitted>
          </div>
        </figure>
      )}
    </>
  );
}

function BoatTable() {
  const { job } = useOpenJob();
  const preferences = usePreferences();
  const rows = job.boat.parts.flatMap((part) => {
    const kinds = partKinds[part.kind].quantities as Readonly<Record<string, QuantityKindView>>;
    const known = Object.entries(part.quantities).flatMap(([key, quantity]) => {
      const kind = kinds[key];
      if (!kind || quantity.origin === 'assumed') return [];
      const asked = askedUnit(key, part.kind, kind.dimension, preferences);
      const origin = originWords[quantity.origin ?? 'told'];
      return [`${kind.words} ${quantityText(quantity, kind.dimension, asked)} ${asked.symbol} (${origin})`];
    });
    const words = [
      ...known,
      ...Object.values(part.choices).map((option) => optionWord(option).toLowerCase()),
    ];
    return words.length === 0 ? [] : [{ id: part.id, name: partWords(part, job), words: words.join('; ') }];
  });
  return (
    <table className="ruled stack">
      <tbody>
        {rows.map(({ id, name, words }) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            <td>{words}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
