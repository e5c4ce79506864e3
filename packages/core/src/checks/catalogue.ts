/** All checks: the text of the data files joined with the placements of this folder. */
import ask from '../../data/checks/ask.json' with { type: 'json' };
import intervene from '../../data/checks/intervene.json' with { type: 'json' };
import listen from '../../data/checks/listen.json' with { type: 'json' };
import look from '../../data/checks/look.json' with { type: 'json' };
import measure from '../../data/checks/measure.json' with { type: 'json' };
import type { BoatDescription } from '../boat/index.ts';
import { asked } from './asked.ts';
import type { Check, CheckText, CheckWay, PlacedCheck, Placement } from './check.ts';
import { heard } from './heard.ts';
import { intervened } from './intervened.ts';
import { measured } from './measured.ts';
import { seen } from './seen.ts';

type Row = Omit<CheckText, 'way' | 'skill' | 'risk'> & { readonly skill: string; readonly risk: number };

function join(way: CheckWay, rows: readonly Row[], placements: Readonly<Record<string, Placement>>): Check[] {
  return rows.map((row) => {
    const placement = placements[row.id];
    if (placement === undefined) throw new RangeError(`checks: "${row.id}" has a text and no placement`);
    const text: CheckText = {
      ...row,
      way,
      skill: row.skill as CheckText['skill'],
      risk: row.risk as CheckText['risk'],
    };
    return {
      ...text,
      on: placement.on,
      place: (description: BoatDescription): readonly PlacedCheck[] =>
        placement.sites(description).map(({ part, condition, outcome }) => ({
          id: part === '' ? row.id : `${row.id}@${part}`,
          text,
          part: part === '' ? undefined : part,
          condition,
          outcome,
        })),
    };
  });
}

/** Every check there is, in the order in which a page lists them. */
export const checkCatalogue: readonly Check[] = [
  ...join('ask', ask, asked),
  ...join('look', look, seen),
  ...join('listen', listen, heard),
  ...join('measure', measure, measured),
  ...join('intervene', intervene, intervened),
];

/** The checks that a boat's parts allow, each at its place. */
export function placedChecks(description: BoatDescription): readonly PlacedCheck[] {
  return checkCatalogue.flatMap((check) => check.place(description));
}
