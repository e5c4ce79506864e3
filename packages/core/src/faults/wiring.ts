/** Which cable does what on a boat, told from what its ends are bolted to, so that an owner's own names do as well. */
import {
  cables,
  isAt,
  partsOfKind,
  terminalsOf,
  touches,
  type Boat,
  type BoatDescription,
  type PartKindId,
} from '../boat/index.ts';

/** Ids of the parts of a kind. */
export const idsOf = (description: BoatDescription, kind: PartKindId): readonly string[] =>
  partsOfKind(description, kind).map((part) => part.id);

/** Ids of the regulators at a place; where nobody knows, the regulator is inside. */
export const regulatorsAt = (description: BoatDescription, place: 'inside' | 'outside'): readonly string[] =>
  partsOfKind(description, 'regulator')
    .filter((part) => (part.choices.place === 'outside' ? 'outside' : 'inside') === place)
    .map((part) => part.id);

/** Ids of the alternators whose field is started in a certain way. */
export const alternatorsStartedBy = (
  description: BoatDescription,
  excitation: 'lamp' | 'ignition' | 'none',
): readonly string[] =>
  partsOfKind(description, 'alternator')
    .filter((part) => {
      const outside = partsOfKind(description, 'regulator').some(
        (regulator) => regulator.serves === part.id && regulator.choices.place === 'outside',
      );
      return (outside ? 'ignition' : (part.choices.excitation ?? 'lamp')) === excitation;
    })
    .map((part) => part.id);

/** Cables from the alternators' studs towards the banks. */
export const chargeCables = (description: BoatDescription): readonly string[] =>
  cables(
    description,
    (cable) =>
      touches(description, cable, 'alternator', ['B+']) &&
      !touches(description, cable, 'regulator', ['supply', 'sense']),
  );

/** Heavy positive cables between the alternator's cable and the clamp on the bank. */
export const feedCables = (description: BoatDescription): readonly string[] =>
  cables(description, (cable) =>
    terminalsOf(cable).every(
      (end) =>
        isAt(description, end, 'starter', ['post']) ||
        isAt(description, end, 'selector', ['common', 'one', 'two']) ||
        isAt(description, end, 'isolator', ['in', 'one', 'two']) ||
        isAt(description, end, 'relay', ['a', 'b']) ||
        isAt(description, end, 'fuse', ['a', 'b']),
    ),
  );

/** Cables that bring the current back: bank to bank, bank to engine, engine to alternator. */
export const returnCables = (description: BoatDescription): readonly string[] =>
  cables(
    description,
    (cable) =>
      !terminalsOf(cable).every((end) => isAt(description, end, 'engine', ['block'])) &&
      terminalsOf(cable).every(
        (end) =>
          isAt(description, end, 'battery', ['-']) ||
          isAt(description, end, 'engine', ['block']) ||
          isAt(description, end, 'alternator', ['case']),
      ),
  );

/** Two terminals that are joined by a cable or a fuse. */
type Link = readonly [string, string];

export const linksOfDescription = (description: BoatDescription): readonly Link[] => [
  ...partsOfKind(description, 'cable').map((cable): Link => [cable.from ?? '', cable.to ?? '']),
  ...partsOfKind(description, 'fuse').map((fuse): Link => [`${fuse.id}.a`, `${fuse.id}.b`]),
];

export const linksOfBoat = (boat: Boat): readonly Link[] => [
  ...boat.conductors.map((cable): Link => [cable.from, cable.to]),
  ...boat.fuses.map((fuse): Link => [`${fuse.id}.a`, `${fuse.id}.b`]),
];

/** All terminals that cables and fuses join to a terminal, itself included. */
export function terminalsReached(links: readonly Link[], start: string): ReadonlySet<string> {
  const reached = new Set([start]);
  for (const terminal of reached) {
    for (const [one, other] of links) {
      if (one === terminal) reached.add(other);
      if (other === terminal) reached.add(one);
    }
  }
  return reached;
}

/** Whether any battery still reaches a starter with this part broken: if not, the engine of these readings, which runs, was
 *  started before the part broke. */
export function cranksWithout(description: BoatDescription, part: string): boolean {
  const rest = { ...description, parts: description.parts.filter(({ id }) => id !== part) };
  const links: readonly Link[] = [
    ...linksOfDescription(rest),
    ...partsOfKind(rest, 'selector').flatMap(({ id, choices }): Link[] => {
      const { position = 'both' } = choices;
      const legs = position === 'both' ? ['one', 'two'] : [position];
      return legs.map((leg): Link => [`${id}.common`, `${id}.${leg}`]);
    }),
  ];
  return partsOfKind(rest, 'starter').every((starter) => {
    const reached = terminalsReached(links, `${starter.id}.post`);
    return partsOfKind(rest, 'battery').some((battery) => reached.has(`${battery.id}.+`));
  });
}

/** The side of a switch or isolator that leads to a house bank, if one does and the other does not. */
export function houseSide(
  links: readonly Link[],
  houseBanks: readonly string[],
  part: string,
): 'one' | 'two' | undefined {
  const leads = (side: 'one' | 'two'): boolean => {
    const reached = terminalsReached(links, `${part}.${side}`);
    return houseBanks.some((bank) => reached.has(`${bank}.+`));
  };
  const one = leads('one');
  return one === leads('two') ? undefined : one ? 'one' : 'two';
}
