/** The remedies of the suspects that matter, most likely first. */
import { useOpenJob } from '../state/job-context.tsx';
import type { Suspect } from './contract.ts';
import type { RemedyView } from './remedy-view.ts';
import { useThought } from './use-thought.ts';

/** Chance from which a suspect's remedy is worth telling. */
const worthTelling = 0.1;

export interface SuspectRemedy {
  readonly suspect: Suspect;
  readonly remedy: RemedyView;
}

export function useRemedies(): readonly SuspectRemedy[] {
  const { job, verdict } = useOpenJob();
  const suspects = (verdict.value?.suspects ?? [])
    .filter(({ probability }) => probability >= worthTelling)
    .slice(0, 4);
  const ids = suspects.map(({ id }) => id);
  const thought = useThought('remedies', JSON.stringify([job.boat, ids]), async (thinking) =>
    thinking.remedies(job, ids),
  );
  return suspects.flatMap((suspect) => {
    const remedy = thought.value?.find(({ id }) => id === suspect.id);
    return remedy ? [{ suspect, remedy }] : [];
  });
}
