/** Undo and redo. An edit knows how to make itself and how to take itself back on the job as it stands by then. */
import { useSyncExternalStore } from 'react';
import type { Job } from '../work/contract.ts';
import { changeJob, storedJob } from './jobs.ts';

export interface Edit {
  /** What was done, as it follows "Undo: ". */
  readonly words: string;
  readonly make: (job: Job) => Job;
  /** Given the job before the edit, takes the edit back on a later one. */
  readonly takeBack: (before: Job) => (job: Job) => Job;
}

interface Done {
  readonly words: string;
  readonly make: (job: Job) => Job;
  readonly takeBack: (job: Job) => Job;
}

export interface History {
  readonly done: readonly Done[];
  readonly undone: readonly Done[];
}

const empty: History = { done: [], undone: [] };
const most = 100;
const histories = new Map<string, History>();
const listeners = new Set<() => void>();

export function useHistory(job: string): History {
  return useSyncExternalStore(subscribe, () => histories.get(job) ?? empty);
}

export function edit(id: string, { words, make, takeBack }: Edit): void {
  const stored = storedJob(id);
  if (!stored || stored.readOnly) return;
  const step: Done = { words, make, takeBack: takeBack(stored.job) };
  const { done } = histories.get(id) ?? empty;
  set(id, { done: [...done, step].slice(-most), undone: [] });
  void changeJob(id, make);
}

export function undo(id: string): void {
  const { done, undone } = histories.get(id) ?? empty;
  const step = done.at(-1);
  if (!step) return;
  set(id, { done: done.slice(0, -1), undone: [...undone, step] });
  void changeJob(id, step.takeBack);
}

export function redo(id: string): void {
  const { done, undone } = histories.get(id) ?? empty;
  const step = undone.at(-1);
  if (!step) return;
  set(id, { done: [...done, step], undone: undone.slice(0, -1) });
  void changeJob(id, step.make);
}

function set(id: string, history: History): void {
  histories.set(id, history);
  for (const listener of listeners) listener();
}

function subscribe(changed: () => void): () => void {
  listeners.add(changed);
  return () => listeners.delete(changed);
}
