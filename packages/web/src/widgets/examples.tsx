/** Example jobs: opened as a copy, so that they can be spoiled without harm. */
import { useState } from 'react';
import { examples, guidedExample, type Example } from '../state/examples.ts';
import { importText } from '../state/files.ts';
import { goTo, jobAddress } from '../state/route.ts';
import { beginGuide } from './guide-strip.tsx';

export function Examples() {
  const [trouble, setTrouble] = useState<string>();
  const open = async (example: Example) => {
    const { added, refused } = await importText(await example.text());
    const job = added[0];
    if (!job)
      setTrouble(`${example.title} cannot be opened: ${refused[0]?.problems[0]?.place ?? 'it is damaged'}.`);
    return job;
  };
  const first = examples.find(({ name }) => name === guidedExample) ?? examples[0];
  if (!first) return null;
  return (
    <section>
      <h2>Examples</h2>
      <p className="soft">Whole jobs of invented boats, to look round in or to teach from.</p>
      <p className="actions">
        <button
          type="button"
          onClick={() =>
            void open(first).then((job) => {
              if (job) beginGuide(job.id);
            })
          }
        >
          Show me round an example
        </button>
      </p>
      {trouble !== undefined && <p role="alert">{trouble}</p>}
      <ul className="rows">
        {examples.map((example) => (
          <li key={example.name}>
            <button
              type="button"
              className="row"
              onClick={() =>
                void open(example).then((job) => {
                  if (job) goTo(jobAddress(job.id));
                })
              }
            >
              <span className="row-main">
                {example.title}
                <span className="row-under soft small">{example.complaint}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
