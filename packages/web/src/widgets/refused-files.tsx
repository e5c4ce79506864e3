/** Files that could not be read: each place, what stands there, what may, and what to do. */
import type { Refused } from '../state/files.ts';

export function RefusedFiles({
  refused,
  onDone,
}: {
  readonly refused: readonly Refused[];
  readonly onDone: () => void;
}) {
  if (refused.length === 0) return null;
  return (
    <section className="note note-no refused" role="alert">
      <h2>
        {refused.length === 1 ? 'One file was not taken in' : `${refused.length} files were not taken in`}
      </h2>
      <p>Nothing here was changed by it.</p>
      {refused.map(({ file, problems }, index) => (
        <div key={index}>
          <h3>{file}</h3>
          <ul className="plain-list">
            {problems.slice(0, 8).map((problem, place) => (
              <li key={place}>
                <b>{problem.place}</b>: {problem.value}. Allowed: {problem.allowed}. {problem.advice}
              </li>
            ))}
          </ul>
          {problems.length > 8 && <p className="soft">And {problems.length - 8} more.</p>}
        </div>
      ))}
      <button type="button" onClick={onDone}>
        Understood
      </button>
    </section>
  );
}
