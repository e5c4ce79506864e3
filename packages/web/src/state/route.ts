/** Where the page is, kept in the address so that a reload comes back to it: `#/job/ID/readings/CHECK`. */
import { useSyncExternalStore } from 'react';

export const jobPages = [
  'check',
  'readings',
  'suspects',
  'wiring',
  'rise',
  'loop',
  'charge',
  'remedy',
  'report',
  'boat',
  'visits',
] as const;
export type JobPage = (typeof jobPages)[number];

export type Route =
  | { readonly at: 'jobs' }
  | { readonly at: 'new' }
  | { readonly at: 'preferences' }
  | { readonly at: 'job'; readonly job: string; readonly page: JobPage; readonly item: string | undefined };

export const jobsAddress = '#/';
export const newJobAddress = '#/new';
export const preferencesAddress = '#/preferences';

/** The address of a page of a job; `item` is a check of that page. */
export function jobAddress(job: string, page: JobPage = 'check', item?: string): string {
  const parts = item === undefined ? [job, page] : [job, page, item];
  return `#/job/${parts.map(encodeURIComponent).join('/')}`;
}

/** What an address means; anything unknown is the list of jobs. */
function routeOf(address: string): Route {
  const [at = '', job = '', page = '', item] = address.replace(/^#\/?/, '').split('/').map(decoded);
  if (at === 'new' || at === 'preferences') return { at };
  if (at === 'job' && job !== '') {
    const known = jobPages.find((candidate) => candidate === page) ?? 'check';
    return { at, job, page: known, item };
  }
  return { at: 'jobs' };
}

export function goTo(address: string): void {
  location.hash = address;
}

export function useRoute(): Route {
  const address = useSyncExternalStore(subscribe, () => location.hash);
  return routeOf(address);
}

function subscribe(changed: () => void): () => void {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
