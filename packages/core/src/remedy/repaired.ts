/** The boat as it will be once the remedy's sizes are fitted: its healthy bands are what the repair must read. */
import type { BoatDescription, PartDescription } from '../boat/index.ts';
import type { Suspect } from '../diagnosis/index.ts';
import { chargeCableFor, chosenCable, leavesStud } from './wiring-rules.ts';

/** The description with what the remedy of a suspect changes in size; the same object where it changes none. */
export function repairedDescription(
  description: BoatDescription,
  suspect: Pick<Suspect, 'fault' | 'part'> | undefined,
): BoatDescription {
  if (suspect?.fault !== 'charge-cable-undersized') return description;
  const cable = description.parts.find(({ id }) => id === suspect.part);
  const alternator = description.parts.find(
    (part) => part.kind === 'alternator' && cable !== undefined && isOf(cable, part.id),
  );
  const answer = alternator && chargeCableFor(description, alternator.id);
  const choice = answer && chosenCable(answer);
  if (choice === undefined) return description;
  const area = { value: choice.area, origin: 'told' } as const;
  return {
    ...description,
    parts: description.parts.map((part) =>
      part.id === suspect.part && part.kind === 'cable'
        ? { ...part, quantities: { ...withoutResistance(part.quantities), area } }
        : part,
    ),
  };
}

const isOf = (part: PartDescription, alternator: string): boolean =>
  part.kind === 'cable' && leavesStud(part as PartDescription<'cable'>, alternator);

/** A resistance measured on the old cable does not hold for the new one. */
function withoutResistance(quantities: PartDescription['quantities']): PartDescription['quantities'] {
  return Object.fromEntries(Object.entries(quantities).filter(([id]) => id !== 'resistance'));
}
