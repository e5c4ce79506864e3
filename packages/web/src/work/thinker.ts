/** The page's side of the worker. One request of a kind at a time: while one is out, only the newest waits. */
import { wrap, type Remote } from 'comlink';
import type { Thinking } from './worker.ts';

type Ask<T> = (thinking: Remote<Thinking>) => Promise<T>;

interface Waiting {
  readonly ask: Ask<unknown>;
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: unknown) => void;
}

interface Lane {
  busy: boolean;
  next: Waiting | undefined;
}

/** The answer is no longer wanted: a newer question took its place, or someone pressed Stop. */
export class Dropped extends Error {}

let running = start();
const lanes = new Map<string, Lane>();

/** Asks the worker. Rejects with `Dropped` when a newer question of the same kind comes first. */
export function think<T>(kind: string, ask: Ask<T>): Promise<T> {
  const lane = lanes.get(kind) ?? { busy: false, next: undefined };
  lanes.set(kind, lane);
  return new Promise<T>((resolve, reject) => {
    lane.next?.reject(new Dropped());
    lane.next = { ask, resolve: resolve as (value: unknown) => void, reject };
    void serve(lane);
  });
}

/** Ends whatever is being computed, at once, and starts afresh. */
export function stopThinking(): void {
  running.worker.terminate();
  running.end(new Dropped());
  running = start();
}

async function serve(lane: Lane): Promise<void> {
  if (lane.busy || !lane.next) return;
  const { ask, resolve, reject } = lane.next;
  lane.next = undefined;
  lane.busy = true;
  try {
    resolve(await Promise.race([ask(running.thinking), running.ended]));
  } catch (error) {
    reject(error);
  }
  lane.busy = false;
  void serve(lane);
}

function start() {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  let end: (why: Error) => void = () => undefined;
  const ended = new Promise<never>((_resolve, reject) => {
    end = reject;
  });
  ended.catch(() => undefined);
  worker.onerror = (event) => end(new Error(event.message || 'the computation could not start'));
  return { worker, thinking: wrap<Thinking>(worker), ended, end };
}
