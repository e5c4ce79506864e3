/** What can hurt someone, before anything else is said. */
import { Caution } from './marks.tsx';

export function Cautions({ cautions }: { readonly cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <section className="cautions" aria-label="Cautions">
      <ul>
        {cautions.map((words) => (
          <li key={words}>
            <Caution /> <span>{words}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
