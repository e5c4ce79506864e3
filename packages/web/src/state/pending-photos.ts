/** Photos taken for a check before its reading is written down; they go with it. */
import { useSyncExternalStore } from 'react';

const listeners = new Set<() => void>();
const none: readonly string[] = [];
let known:
  { readonly key: string; readonly text: string | null; readonly names: readonly string[] } | undefined;

export function usePendingPhotos(job: string, check: string): readonly string[] {
  return useSyncExternalStore(subscribe, () => pendingPhotos(job, check));
}

function pendingPhotos(job: string, check: string): readonly string[] {
  const key = place(job, check);
  const text = localStorage.getItem(key);
  if (known?.key !== key || known.text !== text)
    known = { key, text, names: text === null ? none : read(text) };
  return known.names;
}

export function setPendingPhotos(job: string, check: string, names: readonly string[]): void {
  if (names.length === 0) localStorage.removeItem(place(job, check));
  else localStorage.setItem(place(job, check), JSON.stringify(names));
  for (const listener of listeners) listener();
}

/** The photos that wait for this check's reading, which from now on holds them. */
export function takePendingPhotos(job: string, check: string): readonly string[] {
  const names = pendingPhotos(job, check);
  setPendingPhotos(job, check, none);
  return names;
}

const place = (job: string, check: string): string => `ampwright.draft.photos.${job}.${check}`;

function read(text: string): readonly string[] {
  try {
    const names: unknown = JSON.parse(text);
    return Array.isArray(names) ? names.filter((name) => typeof name === 'string') : none;
  } catch {
    return none;
  }
}

function subscribe(changed: () => void): () => void {
  listeners.add(changed);
  return () => listeners.delete(changed);
}
