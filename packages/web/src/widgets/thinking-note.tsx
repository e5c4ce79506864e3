/** Says that something is being worked out once that takes a while, and lets it be stopped. */
import type { Thought } from '../work/use-thought.ts';

export function ThinkingNote({ thought }: { readonly thought: Thought<unknown> }) {
  if (thought.error !== undefined) {
    return (
      <div className="note note-no" role="alert">
        <p>
          This could not be worked out: {thought.error}. Your readings are kept. Check the last value typed,
          or try again.
        </p>
        <button type="button" onClick={thought.again}>
          Try again
        </button>
      </div>
    );
  }
  if (thought.stopped && thought.stale) {
    return (
      <div className="note" role="status">
        <p>Stopped. The answers above are from before the last change.</p>
        <button type="button" onClick={thought.again}>
          Work it out
        </button>
      </div>
    );
  }
  return (
    <div className="thinking" role="status">
      {thought.slow && (
        <>
          <span className="thinking-dots" aria-hidden="true">
            <i />
            <i />
            <i />
          </span>
          <span>Working it out</span>
          <button type="button" className="plain" onClick={thought.stop}>
            Stop
          </button>
        </>
      )}
    </div>
  );
}
