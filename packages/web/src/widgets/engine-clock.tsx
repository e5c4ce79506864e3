/** Minutes since the engine was started: pressed once, kept in the visit, so that every running reading knows its time. */
import { useEffect, useState } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { changeVisit } from '../state/job-edits.ts';

export function EngineClock() {
  const { job, visit, readOnly } = useOpenJob();
  const seconds = useSecondsSinceStart(visit?.engine?.started_at);
  if (readOnly || seconds === undefined) return null;
  return (
    <p className="clock">
      <span>
        Engine running <b className="clock-time">{clockWords(seconds)}</b>
      </span>
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
