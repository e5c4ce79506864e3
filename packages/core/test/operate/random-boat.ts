/** Seeded random boats of all templates with their faults, for tests of operating points. */
import {
  boatAt,
  boatFromTemplate,
  cloneBoat,
  templateIds,
  unknownsOf,
  type Boat,
  type BoatDescription,
  type TenFacts,
} from '../../src/boat/index.ts';
import { placedChecks } from '../../src/checks/index.ts';
import { placedFaults } from '../../src/faults/index.ts';
import { conditionKey, type Condition } from '../../src/operate/index.ts';
import { randomSource } from '../circuit/random-circuit.ts';

const facts: readonly TenFacts[] = [
  {},
  { excitation: 'ignition' },
  { regulatorPlace: 'outside' },
  { regulatorPlace: 'outside', bankChemistry: 'lifepo4' },
];

export interface Fleet {
  readonly name: string;
  readonly description: BoatDescription;
  readonly conditions: readonly Condition[];
  /** Random boats, the first of them without a fault. */
  readonly boats: readonly { readonly name: string; readonly boat: Boat }[];
}

/** A fleet for each template and set of facts, each with as many boats as asked for. */
export function randomFleets(boatsEach: number, firstSeed: number): Fleet[] {
  return templateIds.flatMap((template, t) =>
    facts.map((known, f) => {
      const description = boatFromTemplate(template, known);
      const conditions = new Map(
        placedChecks(description).map(({ condition }) => [conditionKey(condition), condition]),
      );
      const random = randomSource(firstSeed + 100 * t + f);
      return {
        name: `${template} ${JSON.stringify(known)}`,
        description,
        conditions: [...conditions.values()],
        boats: Array.from({ length: boatsEach }, (_, i) => randomBoat(description, random, i > 0)),
      };
    }),
  );
}

function randomBoat(
  description: BoatDescription,
  random: () => number,
  faulty: boolean,
): Fleet['boats'][number] {
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const boat = cloneBoat(boatAt(description, Float64Array.from(unknownsOf(description), normal)));
  const faults = placedFaults(description);
  const placed = faulty ? faults[Math.floor(random() * faults.length)] : undefined;
  placed?.fault.apply(boat, placed.part, random());
  return { name: placed?.id ?? 'no fault', boat };
}
