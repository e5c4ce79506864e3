import { describe, expect, it } from 'vitest';
import {
  boatAt,
  boatFromTemplate,
  cloneBoat,
  templateIds,
  unknownsOf,
  type BoatDescription,
  type TenFacts,
} from '../../src/boat/index.ts';
import { placedChecks, type View } from '../../src/checks/index.ts';
import { placedFaults, type PlacedFault } from '../../src/faults/index.ts';
import {
  conditionKey,
  Operator,
  readProbe,
  type Condition,
  type OperatingPoint,
} from '../../src/operate/index.ts';

const outsideRegulator: TenFacts = { regulatorPlace: 'outside', bankChemistry: 'lifepo4' };
const boats: readonly (readonly [string, BoatDescription])[] = [
  ...templateIds.map((id) => [id, boatFromTemplate(id)] as const),
  ['one-battery, outside regulator', boatFromTemplate('one-battery', outsideRegulator)],
  ['one-battery, no lamp', boatFromTemplate('one-battery', { excitation: 'none' })],
];

/** Coordinates of a random boat; a small generator with a fixed seed. */
function coordinates(count: number, seed: number): Float64Array {
  let state = seed;
  return Float64Array.from({ length: count }, () => {
    let sum = -3;
    for (let k = 0; k < 6; k++) {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      sum += state / 2 ** 32;
    }
    return sum * Math.SQRT2; // about N(0, 1): six uniforms have variance one half
  });
}

function viewOf(operator: Operator, description: BoatDescription, placed: PlacedFault, seed: number): View {
  const boat = cloneBoat(boatAt(description, coordinates(unknownsOf(description).length, seed)));
  placed.fault.apply(boat, placed.part, 0.5);
  operator.set(boat);
  const points = new Map<string, OperatingPoint>();
  return {
    boat,
    part: '',
    at: (condition: Condition) => {
      const key = conditionKey(condition);
      const point = points.get(key) ?? operator.at(condition);
      points.set(key, point);
      return point;
    },
    read: (point, probe) => readProbe(operator, boat, point, probe),
  };
}

describe('chances of answers', () => {
  it.each(boats)('[law] sum to one, none below 0, on %s with every fault', (_, description) => {
    const operator = new Operator(boatAt(description));
    const questions = placedChecks(description).filter(({ outcome }) => outcome.kind === 'answers');
    placedFaults(description).forEach((placed, seed) => {
      const view = viewOf(operator, description, placed, seed + 1);
      for (const check of questions) {
        if (check.outcome.kind !== 'answers') continue;
        const chances = new Float64Array(check.outcome.answers.length);
        check.outcome.chances({ ...view, part: check.part ?? '' }, chances);
        const sum = chances.reduce((whole, chance) => whole + chance, 0);
        // Sums of a few doubles: rounding only.
        expect(sum, `${check.id} with ${placed.id}`).toBeCloseTo(1, 9);
        expect(Math.min(...chances), `${check.id} with ${placed.id}`).toBeGreaterThan(0);
      }
    });
  });

  it.each(boats)(
    '[law] every number of a healthy %s is finite and within its plausible range',
    (_, description) => {
      const operator = new Operator(boatAt(description));
      const boat = boatAt(description);
      const points = new Map<string, OperatingPoint>();
      for (const { id, condition, outcome } of placedChecks(description)) {
        if (outcome.kind !== 'number') continue;
        const key = conditionKey(condition);
        const point = points.get(key) ?? operator.at(condition);
        points.set(key, point);
        const value = readProbe(operator, boat, point, outcome.probe);
        expect(value, id).toBeGreaterThanOrEqual(outcome.range[0]);
        expect(value, id).toBeLessThanOrEqual(outcome.range[1]);
      }
    },
  );
});

describe('placed checks', () => {
  it.each(boats)('[law] have ids of their own, and no two ask the same of %s', (_, description) => {
    const checks = placedChecks(description);
    expect(new Set(checks.map(({ id }) => id)).size).toBe(checks.length);
    const asked = checks.map(({ condition, outcome }) =>
      JSON.stringify([
        conditionKey(condition),
        outcome.kind === 'number' ? outcome.probe : outcome.question,
        outcome.kind === 'answers' ? checks.indexOf(checks.find((one) => one.outcome === outcome)!) : 0,
      ]),
    );
    expect(new Set(asked).size).toBe(checks.length);
  });

  it('[law] two checks with the same probe differ in their condition, also on a boat with a charger', () => {
    const plain = boatFromTemplate('one-battery');
    const description: BoatDescription = {
      ...plain,
      parts: [
        ...plain.parts,
        { id: 'charger', kind: 'source', quantities: {}, choices: { state: 'on' } },
        {
          id: 'charger-lead',
          kind: 'cable',
          from: 'charger.+',
          to: 'battery.+',
          quantities: {},
          choices: {},
        },
        {
          id: 'charger-back',
          kind: 'cable',
          from: 'charger.-',
          to: 'battery.-',
          quantities: {},
          choices: {},
        },
      ],
    };
    const asked = placedChecks(description).flatMap(({ id, condition, outcome }) =>
      outcome.kind === 'number' ? [[`${conditionKey(condition)} ${JSON.stringify(outcome.probe)}`, id]] : [],
    );
    const seen = new Map<string, string>();
    for (const [what = '', id = ''] of asked) {
      expect(seen.get(what), `${id} asks what ${seen.get(what)} asks`).toBeUndefined();
      seen.set(what, id);
    }
  });
});
