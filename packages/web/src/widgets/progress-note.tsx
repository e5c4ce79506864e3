/** How far a long computation has come, and its Stop. */
import type { Thought } from '../work/use-thought.ts';
import { ThinkingNote } from './thinking-note.tsx';

interface Props {
  readonly thought: Thought<unknown>;
  readonly share: number;
}

export function ProgressNote({ thought, share }: Props) {
  return (
    <div className="note-place progress-place">
      <ThinkingNote thought={thought} />
      {thought.slow && <progress value={share} aria-label="How far it has come" />}
    </div>
  );
}
