/** What is added to a boat most often, wired at a tap: each is one step that Undo takes back. */
import { useMemo } from 'react';
import { withNewBank, withSecondAlternator } from '../state/boat-edits.ts';
import { changeBoat } from '../state/job-edits.ts';
import { useOpenJob } from '../state/job-context.tsx';
import type { VariantId } from '../work/contract.ts';
import { think } from '../work/thinker.ts';
import { useThought } from '../work/use-thought.ts';

const additions: readonly (readonly [VariantId, string])[] = [
  ['diode-isolator', 'An isolator'],
  ['combining-relay', 'A combining relay'],
  ['external-regulator', 'An outside regulator'],
];

export function AddToWiring() {
  const { job, readOnly } = useOpenJob();
  const boat = useMemo(() => JSON.stringify(job.boat), [job.boat]);
  const fitting = useThought('variants', boat, async (thinking) => thinking.variants(job)).value ?? [];
  if (readOnly) return null;
  const add = async (id: VariantId, words: string) => {
    const changed = await think('keep', (thinking) => thinking.boatWith(job, id));
    if (changed) changeBoat(job.id, `add ${words.toLowerCase()}`, () => changed);
  };
  return (
    <details className="table add-wiring">
      <summary>Add to the wiring</summary>
      <p className="chips">
        <button type="button" onClick={() => changeBoat(job.id, 'add a bank', withNewBank)}>
          A battery bank
        </button>
        <button
          type="button"
          onClick={() => changeBoat(job.id, 'add a second alternator', withSecondAlternator)}
        >
          A second alternator
        </button>
        {additions
          .filter(([id]) => fitting.some((variant) => variant.id === id))
          .map(([id, words]) => (
            <button key={id} type="button" onClick={() => void add(id, words)}>
              {words}
            </button>
          ))}
      </p>
      <p className="small soft">
        It comes with its cables; touch it in the drawing to say more of it. Undo takes it back.
      </p>
    </details>
  );
}
