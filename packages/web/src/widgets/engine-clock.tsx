/** Minutes since the engine was started: pressed once, kept in the visit, so that every running reading knows its time. */
import { useEffect, useState } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { withPart, withQuantity } from '../state/boat-edits.ts';
import { changeBoat, changeVisit } from '../state/job-edits.ts';
import type { JobQuantity } from '../work/contract.ts';

/** No start delay is longer [s]; the job file allows no more. */
const longestDelay = 600;

export function EngineClock() {
  const { job, visit, readOnly } = useOpenJob();
  const seconds = useSecondsSinceStart(visit?.engine?.started_at);
  if (readOnly || seconds === undefined) return null;
  const regulators = job.boat.parts.filter(({ kind }) => kind === 'regulator').map(({ id }) => id);
  return (
    <p className="clock">
      <span>
        Engine running <b className="clock-time">{clockWords(seconds)}</b>
      </span>
      {seconds <= longestDelay && regulators.length > 0 && (
        <button type="button" onClick={() => setIn(job.id, regulators, seconds)}>
          Charge sets in now
        </button>
      )}
      <button type="button" className="plain" onClick={() => stop(job.id)}>
        Stopped
      </button>
    </p>
  );
}

/** Starts the clock; nothing to see while it runs. */
export function StartClock() {
  const { job, visit, readOnly } = useOpenJob();
  if (readOnly || visit?.engine?.started_at !== undefined) return null;
  return (
    <button type="button" onClick={() => start(job.id)}>
      The engine starts now
    </button>
  );
}

/** Seconds since a time, told anew each second; undefined without a time. */
export function useSecondsSinceStart(startedAt: string | undefined): number | undefined {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    if (startedAt === undefined) return;
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, [startedAt]);
  if (startedAt === undefined) return undefined;
  return Math.max(0, Math.round((now - Date.parse(startedAt)) / 1000));
}

/** The clock's figure at the moment when the load comes on is the regulators' start delay. */
function setIn(job: string, regulators: readonly string[], seconds: number): void {
  const delay: JobQuantity = { value: seconds, unit: 's', origin: 'measured' };
  changeBoat(job, `charge set in after ${seconds} s`, (boat) =>
    regulators.reduce(
      (changed, id) => withPart(changed, id, (part) => withQuantity(part, 'start_delay', delay)),
      boat,
    ),
  );
}

function start(job: string): void {
  const started_at = new Date().toISOString();
  changeVisit(job, 'engine started', (visit) => ({
    ...visit,
    engine: { ...visit.engine, state: 'running', started_at },
  }));
}

function stop(job: string): void {
  changeVisit(job, 'engine stopped', (visit) => {
    const { started_at: _, ...engine } = visit.engine ?? {};
    return { ...visit, engine: { ...engine, state: 'off' } };
  });
}

function clockWords(seconds: number): string {
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor(seconds / 60) % 60;
  const rest = String(seconds % 60).padStart(2, '0');
  return hours > 0 ? `${hours}:${String(minutes).padStart(2, '0')}:${rest}` : `${minutes}:${rest}`;
}
