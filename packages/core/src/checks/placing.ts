/** Where checks go: once for each charging path, and which terminals can be reached. */
import {
  chargingPaths,
  partsOfKind,
  type BoatDescription,
  type ChargingPath,
  type PartKindId,
} from '../boat/index.ts';
import type { Condition } from '../operate/index.ts';
import type { Answer, CheckOutcome, Placement, Site, View } from './check.ts';
import { answers } from './outcomes.ts';

export function forEachPath(
  site: (description: BoatDescription, path: ChargingPath) => Omit<Site, 'part'> | undefined,
): Placement {
  return {
    on: 'alternator',
    sites: (description) =>
      chargingPaths(description).flatMap((path) => {
        const found = site(description, path);
        return found === undefined ? [] : [{ part: path.alternator, ...found }];
      }),
  };
}

export const isOutside = (description: BoatDescription, path: ChargingPath): boolean =>
  description.parts.some(
    (part) => part.id === path.regulator && part.choices['place' as never] === 'outside',
  );

export const fieldReachable = (description: BoatDescription, path: ChargingPath): boolean =>
  partsOfKind(description, 'alternator').find((part) => part.id === path.alternator)?.choices.field_reach !==
    'hidden' && isOutside(description, path);

/** One question about each part of a kind, or about those that `wanted` names. `chances` writes the chance of each answer in a
 *  possible world. */
export const questionOn = (
  kind: PartKindId,
  condition: Condition,
  question: string,
  list: readonly Answer[],
  chances: (view: View, out: Float64Array) => void,
  wanted = (description: BoatDescription): readonly string[] =>
    partsOfKind(description, kind).map(({ id }) => id),
): Placement => ({
  on: kind,
  sites: (description) =>
    wanted(description).map((id) => ({ part: id, condition, outcome: answers(question, list, chances) })),
});

/** One question about the whole boat. */
export const questionOnBoat = (
  condition: Condition,
  question: string,
  list: readonly Answer[],
  chances: (view: View, out: Float64Array) => void,
): Placement => ({
  on: 'boat',
  sites: () => [{ part: '', condition, outcome: answers(question, list, chances) }],
});

export const number = (outcome: Partial<CheckOutcome> & { kind: 'number' }): CheckOutcome =>
  outcome as CheckOutcome;
