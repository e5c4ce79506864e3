/** A short walk through one example: five stations, each with two sentences. It can be left at any time. */
import { useSyncExternalStore } from 'react';
import { goTo, jobAddress, jobsAddress, type JobPage } from '../state/route.ts';

const stations: readonly { readonly page: JobPage; readonly words: string }[] = [
  {
    page: 'check',
    words:
      'On top stand the four questions with their present answers. Below is the next check: cautions first, then steps, and what each outcome would tell.',
  },
  {
    page: 'readings',
    words:
      'Every reading stands beside the band in which it would lie if all were well. Touch one to enter or correct it.',
  },
  {
    page: 'suspects',
    words:
      'Suspects, most likely first, each with the readings that speak for and against it. Cleared parts name the reading that cleared them.',
  },
  { page: 'wiring', words: 'The boat as a drawing. Touch a terminal to see what can be measured there.' },
  {
    page: 'report',
    words:
      'The report for the owner and the next electrician, ready to print. That is all: begin a job of your own.',
  },
];

interface Walk {
  readonly job: string;
  readonly station: number;
}

const place = 'ampwright.guide';
const listeners = new Set<() => void>();

export function beginGuide(job: string): void {
  set({ job, station: 0 });
}

export function GuideStrip() {
  const kept = useSyncExternalStore(subscribe, () => sessionStorage.getItem(place));
  const walk = walkOf(kept);
  const station = walk && stations[walk.station];
  if (!walk || !station) return null;
  const last = walk.station === stations.length - 1;
  return (
    <aside className="guide" aria-label="Guided example" role="status">
      <p>
        <b>
          {walk.station + 1} of {stations.length}.
        </b>{' '}
        {station.words}
      </p>
      <p className="actions">
        <button
          type="button"
          className="primary"
          onClick={() => {
            if (last) leave(jobsAddress);
            else set({ ...walk, station: walk.station + 1 });
          }}
        >
          {last ? 'Done' : 'Next'}
        </button>
        {!last && (
          <button type="button" onClick={() => leave()}>
            Leave the tour
          </button>
        )}
      </p>
    </aside>
  );
}

function set(walk: Walk): void {
  sessionStorage.setItem(place, JSON.stringify(walk));
  const station = stations[walk.station];
  if (station) goTo(jobAddress(walk.job, station.page));
  tell();
}

function leave(address?: string): void {
  sessionStorage.removeItem(place);
  if (address !== undefined) goTo(address);
  tell();
}

function tell(): void {
  for (const listener of listeners) listener();
}

function walkOf(kept: string | null): Walk | undefined {
  return kept === null ? undefined : (JSON.parse(kept) as Walk);
}

function subscribe(changed: () => void): () => void {
  listeners.add(changed);
  return () => listeners.delete(changed);
}
