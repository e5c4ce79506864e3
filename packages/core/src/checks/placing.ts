/** Where checks go: once for each charging path, and which terminals can be reached. */
import { chargingPaths, partsOfKind, type BoatDescription, type ChargingPath } from '../boat/index.ts';
import type { CheckOutcome, Placement, Site } from './check.ts';

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

export const number = (outcome: Partial<CheckOutcome> & { kind: 'number' }): CheckOutcome =>
  outcome as CheckOutcome;
