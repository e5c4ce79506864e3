/** What had to be assumed of a boat because nobody said, in words. */
import {
  partKinds,
  partsOfKind,
  partWords,
  type BoatDescription,
  type PartDescription,
} from '../boat/index.ts';

export function assumptionsOf(description: BoatDescription): readonly string[] {
  const unknown = unknownOf(description);
  return [
    ...unknown(partsOfKind(description, 'alternator'), ['rated_current', 'pulley_ratio'], ['excitation']),
    ...unknown(partsOfKind(description, 'regulator'), [], ['place']),
    ...unknown(partsOfKind(description, 'battery'), ['capacity'], ['chemistry']),
    ...unknown(partsOfKind(description, 'load'), ['current'], []),
    ...unknown(partsOfKind(description, 'engine'), ['idle_speed'], []),
    ...unknown(
      partsOfKind(description, 'cable').filter(({ id }) => id.startsWith('charge-cable')),
      ['area', 'length'],
      [],
    ),
  ];
}

const unknownOf =
  (description: BoatDescription) =>
  (parts: readonly PartDescription[], quantities: readonly string[], choices: readonly string[]): string[] =>
    parts.flatMap((part) => {
      const kind = partKinds[part.kind] as {
        words: string;
        quantities: Record<string, { words: string }>;
        choices: Record<string, { words: string }>;
      };
      const known = part as { quantities: Record<string, unknown>; choices: Record<string, unknown> };
      const missing = [
        ...quantities
          .filter((id) => known.quantities[id] === undefined)
          .map((id) => kind.quantities[id]?.words ?? id),
        ...choices.filter((id) => known.choices[id] === undefined).map((id) => kind.choices[id]?.words ?? id),
      ];
      return missing.length === 0 ? [] : [`${partWords(description, part.id)}: ${missing.join(', ')}`];
    });
