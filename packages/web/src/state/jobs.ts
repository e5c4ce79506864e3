/** The jobs on this device. Every edit is written through to the browser's database before anything else happens, as a
 *  change to what stands there, so that two tabs on one job keep each other's work and a crash loses nothing.
 */
import { useSyncExternalStore } from 'react';
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Job } from '../work/contract.ts';
import { forgetPhotos } from './photos.ts';

export interface StoredJob {
  readonly id: string;
  readonly job: Job;
  /** Milliseconds since 1970. */
  readonly updated: number;
  /** Why the job may be read but not edited: it comes from a newer version. The file is kept as it came. */
  readonly readOnly?: { readonly why: string; readonly file: string };
}

interface Schema extends DBSchema {
  jobs: { key: string; value: StoredJob };
}

export type JobsState =
  | { readonly kind: 'loading' }
  | { readonly kind: 'ready'; readonly jobs: readonly StoredJob[] }
  | { readonly kind: 'failed'; readonly why: string };

let database: Promise<IDBPDatabase<Schema>> | undefined;
let state: JobsState = { kind: 'loading' };
const byId = new Map<string, StoredJob>();
const pending = new Map<string, number>();
const listeners = new Set<() => void>();
const channel = new BroadcastChannel('ampwright.jobs');

/** Opens the database and follows what other tabs do. */
export async function loadJobs(): Promise<void> {
  channel.onmessage = (event: MessageEvent<string>) => void followOtherTab(event.data);
  try {
    const all = await (await open()).getAll('jobs');
    for (const stored of all) byId.set(stored.id, stored);
    publish();
  } catch (error) {
    fail(error);
  }
}

export function useJobs(): JobsState {
  return useSyncExternalStore(subscribe, () => state);
}

export function useJob(id: string): StoredJob | undefined {
  return useSyncExternalStore(subscribe, () => byId.get(id));
}

export function allJobs(): readonly Job[] {
  return [...byId.values()].map(({ job }) => job);
}

export function storedJob(id: string): StoredJob | undefined {
  return byId.get(id);
}

/** Puts a whole job in, in place of any with the same id. */
export async function putJob(job: Job, readOnly?: StoredJob['readOnly']): Promise<void> {
  const stored: StoredJob = { id: job.id, job, updated: Date.now(), ...(readOnly ? { readOnly } : {}) };
  byId.set(job.id, stored);
  publish();
  await write(async (jobs) => {
    await jobs.put('jobs', stored);
    channel.postMessage(job.id);
  });
}

/** Changes a job. The change sees the job as it stands in the database at that moment, whoever wrote it last. */
export async function changeJob(id: string, change: (job: Job) => Job): Promise<void> {
  const known = byId.get(id);
  if (!known || known.readOnly) return;
  byId.set(id, { ...known, job: change(known.job), updated: Date.now() });
  pending.set(id, (pending.get(id) ?? 0) + 1);
  publish();
  await write(async (jobs) => {
    const transaction = jobs.transaction('jobs', 'readwrite');
    const standing = (await transaction.store.get(id)) ?? known;
    const changed = { ...standing, job: change(standing.job), updated: Date.now() };
    await transaction.store.put(changed);
    await transaction.done;
    channel.postMessage(id);
    const left = (pending.get(id) ?? 1) - 1;
    pending.set(id, left);
    if (left > 0) return;
    byId.set(id, changed);
    publish();
  });
}

export async function removeJob(id: string): Promise<void> {
  const gone = byId.get(id);
  byId.delete(id);
  publish();
  await write(async (jobs) => {
    await jobs.delete('jobs', id);
    channel.postMessage(id);
    if (gone) await forgetPhotos(gone.job, allJobs());
  });
}

async function followOtherTab(id: string): Promise<void> {
  if ((pending.get(id) ?? 0) > 0) return;
  const stored = await (await open()).get('jobs', id);
  if (stored) byId.set(id, stored);
  else byId.delete(id);
  publish();
}

function open(): Promise<IDBPDatabase<Schema>> {
  database ??= openDB<Schema>('ampwright', 1, {
    upgrade: (fresh) => void fresh.createObjectStore('jobs', { keyPath: 'id' }),
  });
  return database;
}

async function write(action: (jobs: IDBPDatabase<Schema>) => Promise<void>): Promise<void> {
  try {
    await action(await open());
  } catch (error) {
    fail(error);
  }
}

function publish(): void {
  state = { kind: 'ready', jobs: [...byId.values()].sort((a, b) => b.updated - a.updated) };
  for (const listener of listeners) listener();
}

function fail(error: unknown): void {
  const why = error instanceof Error ? error.message : String(error);
  state = { kind: 'failed', why };
  for (const listener of listeners) listener();
}

function subscribe(changed: () => void): () => void {
  listeners.add(changed);
  return () => listeners.delete(changed);
}
