/** An answer of the worker inside a component: the last one stays on view, marked, while a newer one is computed. */
import { startTransition, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { Remote } from 'comlink';
import { Dropped, stopThinking, think } from './thinker.ts';
import type { Thinking } from './worker.ts';

export interface Thought<T> {
  readonly value: T | undefined;
  /** `value` answers an earlier question. */
  readonly stale: boolean;
  /** It takes long enough to say so. */
  readonly slow: boolean;
  readonly stopped: boolean;
  readonly error: string | undefined;
  readonly stop: () => void;
  readonly again: () => void;
}

const longEnoughToSay = 300;

/** `question` tells one question from another; `ask` puts it. */
export function useThought<T>(
  kind: string,
  question: string,
  ask: (thinking: Remote<Thinking>) => Promise<T>,
): Thought<T> {
  const [answer, setAnswer] = useState<{ question: string; value: T }>();
  const [trouble, setTrouble] = useState<{ question: string; error?: string }>();
  const [slowFor, setSlowFor] = useState<string>();
  const [attempt, setAttempt] = useState(0);
  const asking = useRef(ask);
  useEffect(() => {
    asking.current = ask;
  });

  useEffect(() => {
    let wanted = true;
    const timer = setTimeout(() => setSlowFor(question), longEnoughToSay);
    // Each question is put in a task of its own: several go out after one reading, and none is urgent to the millisecond.
    const later = setTimeout(() => {
      think(kind, (thinking) => asking.current(thinking)).then(
        (value) => {
          clearTimeout(timer);
          // What follows from an answer may be a whole page: drawn in slices, so that no tap waits for it.
          if (wanted) startTransition(() => setAnswer({ question, value }));
        },
        (error: unknown) => {
          clearTimeout(timer);
          if (!wanted) return;
          if (error instanceof Dropped) setTrouble({ question });
          else setTrouble({ question, error: error instanceof Error ? error.message : String(error) });
        },
      );
    });
    return () => {
      wanted = false;
      clearTimeout(later);
      clearTimeout(timer);
    };
  }, [kind, question, attempt]);

  const again = useCallback(() => {
    setTrouble(undefined);
    setAttempt((count) => count + 1);
  }, []);
  const answered = answer?.question === question;
  const troubled = trouble?.question === question && !answered;
  const value = answer?.value;
  const slow = !answered && !troubled && slowFor === question;
  const stopped = troubled && trouble.error === undefined;
  const error = troubled ? trouble.error : undefined;
  return useMemo(
    () => ({ value, stale: !answered, slow, stopped, error, stop: stopThinking, again }),
    [value, answered, slow, stopped, error, again],
  );
}
