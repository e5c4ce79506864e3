/** The wiring drawing, and what can be measured at the terminal or part that was touched. */
import { useEffect, useRef } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { jobAddress } from '../state/route.ts';
import { WiringDrawing } from '../drawing/wiring-drawing.tsx';
import { nameOf, partOf } from '../drawing/placement.ts';
import { AddToWiring } from '../widgets/add-to-wiring.tsx';
import { PartForm } from '../widgets/part-form.tsx';
import { BandStrip } from '../widgets/band-strip.tsx';
import { percent } from '../words/odds.ts';
import { partWords, terminalName } from '../words/part-words.ts';
import { bandWords, readingWords, siValue } from '../words/reading-words.ts';
import { lower } from '../work/contract.ts';
import type { CheckView } from '../work/check-view.ts';

export function WiringPage({ chosen }: { readonly chosen: string | undefined }) {
  const { job } = useOpenJob();
  const side = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (chosen !== undefined) side.current?.scrollIntoView({ block: 'nearest' });
  }, [chosen]);
  return (
    <>
      <h1>Wiring</h1>
      <div className="wiring">
        <WiringDrawing chosen={chosen} />
        <div className="wiring-side" aria-live="polite" ref={side}>
          {chosen === undefined ? (
            <p className="soft">
              Touch a terminal to see what can be measured there and which cables meet, or a part to see what
              is thought of it and to change it. Orange shading is suspicion, with its chance; a tick is a
              part that a reading cleared.
            </p>
          ) : (
            <Chosen chosen={chosen} />
          )}
          <AddToWiring />
          <p>
            <a className="button" href={jobAddress(job.id, 'boat')}>
              All parts and cables
            </a>
          </p>
        </div>
      </div>
      <CableTable />
    </>
  );
}

function Chosen({ chosen }: { readonly chosen: string }) {
  const { job, checks, verdict } = useOpenJob();
  const isTerminal = chosen.includes('.');
  const part = job.boat.parts.find(({ id }) => id === (isTerminal ? partOf(chosen) : chosen));
  if (!part) return <p className="soft">There is no such part on this boat.</p>;
  const own = new Set([
    part.id,
    ...job.boat.parts.filter(({ serves }) => serves === part.id).map(({ id }) => id),
  ]);
  const there = checks.filter((check) =>
    isTerminal ? touches(check, chosen) : check.part !== undefined && own.has(check.part),
  );
  const suspects = verdict.value?.suspects.filter((suspect) => own.has(suspect.part)) ?? [];
  const cleared = verdict.value?.cleared.filter(({ id }) => own.has(id.split('@')[1] ?? '')) ?? [];
  return (
    <section>
      <h2>{isTerminal ? terminalName(chosen, job) : partWords(part, job)}</h2>
      {suspects.length > 0 && (
        <ul className="plain-list">
          {suspects.map((suspect) => (
            <li key={suspect.id}>
              Suspected: {suspect.words}, {percent(suspect.probability)}
            </li>
          ))}
        </ul>
      )}
      {there.length === 0 ? (
        <p className="soft">
          Nothing is measured {isTerminal ? `at ${nameOf(chosen)} of this part` : 'on this part'}.
        </p>
      ) : (
        <ul className="rows">
          {there.map((check) => (
            <CheckHere key={check.id} check={check} />
          ))}
        </ul>
      )}
      <PartForm part={part} />
      {isTerminal && <CablesAt terminal={chosen} />}
      {cleared.length > 0 && (
        <details className="table">
          <summary>Cleared here: {cleared.length}</summary>
          <ul className="plain-list">
            {cleared.map(({ id, words, by }) => (
              <li key={id}>
                {words}, by {lower(checks.find((check) => check.id === by.check)?.text.words ?? by.check)}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

/** The cables on a terminal, each of which can be changed here. */
function CablesAt({ terminal }: { readonly terminal: string }) {
  const { job } = useOpenJob();
  return job.boat.parts
    .filter(({ kind, from, to }) => kind === 'cable' && (from === terminal || to === terminal))
    .map((cable) => <PartForm key={cable.id} part={cable} />);
}

function CheckHere({ check }: { readonly check: CheckView }) {
  const { job, visit, verdict, bands, units } = useOpenJob();
  const reading = visit?.readings.findLast((candidate) => candidate.check === check.id);
  const light = verdict.value?.readings.find((candidate) => candidate.reading === reading?.id);
  const band = light?.healthy ?? bands.get(check.id);
  return (
    <li>
      <a className="row reading" href={jobAddress(job.id, 'readings', check.id)}>
        <span className="row-main">{check.text.words}</span>
        <b className="reading-figure">{reading ? readingWords(reading, check, units) : 'Enter'}</b>
        {band && (
          <span className="reading-light">
            <span className="small soft">all well: {bandWords(band, check, units)}</span>
            <BandStrip band={band} value={reading && siValue(reading, check)} />
          </span>
        )}
      </a>
    </li>
  );
}

/** The drawing's content as a table. */
function CableTable() {
  const { job } = useOpenJob();
  const cables = job.boat.parts.filter(({ kind }) => kind === 'cable');
  return (
    <details className="table">
      <summary>The same as a table</summary>
      <div className="table-frame">
        <table className="ruled">
          <thead>
            <tr>
              <th scope="col">Cable</th>
              <th scope="col">From</th>
              <th scope="col">To</th>
            </tr>
          </thead>
          <tbody>
            {cables.map((cable) => (
              <tr key={cable.id}>
                <th scope="row">{partWords(cable, job)}</th>
                <td>{cable.from === undefined ? 'nowhere' : terminalName(cable.from, job)}</td>
                <td>{cable.to === undefined ? 'nowhere' : terminalName(cable.to, job)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

function touches({ outcome }: CheckView, terminal: string): boolean {
  if (outcome.kind !== 'number') return false;
  const { probe } = outcome;
  return (
    (probe.kind === 'dc-volts' || probe.kind === 'ac-volts') &&
    (probe.plus === terminal || probe.minus === terminal)
  );
}
