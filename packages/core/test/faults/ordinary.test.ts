import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boatAt,
  boatFromTemplate,
  cloneBoat,
  templateIds,
  unknownsOf,
  type Boat,
} from '../../src/boat/index.ts';
import { isOrdinary, keepOrdinary, placedFaults } from '../../src/faults/index.ts';

const boats = templateIds.flatMap((template) =>
  (['inside', 'outside'] as const).map((regulatorPlace) => {
    const description = boatFromTemplate(template, { regulatorPlace });
    return { description, faults: placedFaults(description), unknowns: unknownsOf(description).length };
  }),
);

/** A random boat, and a state that it can have. */
const cases = fc
  .tuple(
    fc.constantFrom(...boats),
    fc.nat(),
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 60, maxLength: 60 }),
  )
  .map(([{ description, faults, unknowns }, pick, severity, coordinates]) => ({
    boat: cloneBoat(boatAt(description, Float64Array.from(coordinates.slice(0, unknowns)))),
    placed: faults[pick % faults.length]!,
    severity,
  }));
const charges = (boat: Boat): number[] => boat.batteries.map(({ stateOfCharge }) => stateOfCharge);

describe('normal states', () => {
  it('[law] a boat kept ordinary is in no other normal state, and a state put on it brings it into no earlier one', () => {
    fc.assert(
      fc.property(cases, ({ boat, placed, severity }) => {
        keepOrdinary(boat, [placed]);
        expect(isOrdinary(boat, [placed])).toBe(true);
        placed.fault.apply(boat, placed.part, severity);
        if (placed.fault.nature === 'normal') expect(isOrdinary(boat, [placed])).toBe(true);
      }),
      { seed: 7, numRuns: 400 },
    );
  });

  it('[law] all is well, and what only shows wrongly, leave no bank below two fifths; a flat bank is below', () => {
    fc.assert(
      fc.property(cases, ({ boat, placed, severity }) => {
        keepOrdinary(boat, [placed]);
        placed.fault.apply(boat, placed.part, severity);
        const { fault, part } = placed;
        if (fault.id === 'all-well' || fault.family === 'indication')
          expect(Math.min(...charges(boat))).toBeGreaterThanOrEqual(0.4 - 1e-12);
        if (fault.id === 'battery-flat')
          boat.batteries.forEach(({ id, stateOfCharge }) => expect(stateOfCharge < 0.4).toBe(id === part));
      }),
      { seed: 8, numRuns: 400 },
    );
  });
});
