/** What the reader of job files says of the boat as it stands: what cannot be, and what is held only as nearly as can be. */
import type { Job, Problem } from './contract.ts';

export interface BoatReview {
  readonly problems: readonly Problem[];
  readonly notes: readonly Problem[];
}

export const nothingToSay: BoatReview = { problems: [], notes: [] };

/** Notes on one part's quantities, by quantity. */
export function notesOn(part: string, { notes }: BoatReview, job: Job): ReadonlyMap<string, Problem> {
  const place = `/boat/parts/${job.boat.parts.findIndex(({ id }) => id === part)}/quantities/`;
  return new Map(
    notes
      .filter(({ pointer }) => pointer.startsWith(place))
      .map((note) => [note.pointer.slice(place.length), note]),
  );
}
