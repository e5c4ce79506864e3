/** Faults of the heavy path: stud to post and back, with fuse, switch, isolator and relay. */
import table from '../../data/faults/path.json' with { type: 'json' };
import { boatAt, partsOfKind, type BoatDescription } from '../boat/index.ts';
import { joinedFaults, type Behaviour } from './behaviour.ts';
import { LEAST_BAD_JOINT } from './ordinary.ts';
import { logarithmic, OPEN, partOf } from './severity.ts';
import {
  chargeCables,
  feedCables,
  houseSide,
  idsOf,
  linksOfBoat,
  linksOfDescription,
  returnCables,
  terminalsReached,
  cranksWithout,
} from './wiring.ts';

/** A joint that is loose or corroded [Ω]: up to 80 mΩ, which lose 4 V at 50 A. */
const badJoint = (severity: number): number => logarithmic(LEAST_BAD_JOINT, 0.08, severity);

/** Share of the nominal voltage lost along one cable at rated amps that makes it too thin; the limit of the whole way is 3 %
 *  [E11], two such cables and the return already lose more. */
const THIN = 0.03;

const corrodes: Behaviour['apply'] = (boat, part, severity) => {
  partOf(boat.conductors, part).joints += badJoint(severity);
  boat.traits.onset = 'slow';
};

const houseBanks = (description: BoatDescription): readonly string[] =>
  partsOfKind(description, 'battery')
    .filter((part) => part.choices.duty === 'house')
    .map((part) => part.id);

const usedSwitches: Behaviour['places'] = (description) =>
  partsOfKind(description, 'selector')
    .filter((part) => part.choices.position !== 'off')
    .map((part) => part.id);

/** An engine that runs was started: a break in the only way from a battery to the starter came after that, which is rare. */
const startedThrough = (description: BoatDescription, part: string): number =>
  cranksWithout(description, part) ? 1 : 0.35;

export const pathFaults = joinedFaults('path', table.faults, {
  'charge-cable-resistive': { places: chargeCables, apply: corrodes },
  'charge-cable-open': {
    places: chargeCables,
    apply: (boat, part) => {
      partOf(boat.conductors, part).resistance = OPEN;
      boat.traits.onset = 'sudden';
    },
  },
  'charge-cable-chafed': {
    places: chargeCables,
    apply: (boat, part, severity) => {
      // From a trickle of a tenth of an ampere to what no fuse at the alternator would stop.
      partOf(boat.conductors, part).leakage = logarithmic(100, 0.4, severity) * (boat.nominalVoltage / 12);
      boat.traits.onset = 'sudden';
    },
  },
  'charge-cable-undersized': {
    places: (description) =>
      chargeCables(description).filter(
        (id) =>
          partsOfKind(description, 'cable').find((part) => part.id === id)?.quantities.resistance ===
          undefined,
      ),
    weight: (description, part) => {
      const boat = boatAt(description);
      const cable = partOf(boat.conductors, part);
      if (!cable.sized) return 1;
      const machine = boat.alternators.find(({ id }) => cable.from === `${id}.B+` || cable.to === `${id}.B+`);
      const lost = (cable.resistance * (machine?.ratedCurrent ?? 0)) / boat.nominalVoltage;
      return lost > THIN ? 6 : 0.02;
    },
    apply: (boat, part, severity) => {
      boat.traits.onset = 'always';
      const cable = partOf(boat.conductors, part);
      // A cable whose size was read is as thick as it is: the boat itself then holds its resistance.
      if (cable.sized) return;
      const factor = logarithmic(2.5, 6, severity);
      cable.resistance *= factor;
      cable.area /= factor;
    },
  },
  'feed-cable-resistive': { places: feedCables, apply: corrodes },
  'main-fuse-open': {
    places: (description) => idsOf(description, 'fuse'),
    weight: startedThrough,
    apply: (boat, part) => {
      partOf(boat.fuses, part).resistance = OPEN;
      boat.traits.onset = 'sudden';
    },
  },
  'fuse-resistive': {
    places: (description) => idsOf(description, 'fuse'),
    apply: (boat, part, severity) => {
      partOf(boat.fuses, part).resistance += badJoint(severity);
      Object.assign(boat.traits, { onset: 'slow', heatSmell: true });
    },
  },
  'return-resistive': { places: returnCables, apply: corrodes },
  'switch-resistive': {
    places: usedSwitches,
    apply: (boat, part, severity) => {
      partOf(boat.selectors, part).contact += badJoint(severity);
      boat.traits.onset = 'slow';
    },
  },
  'switch-off': {
    places: usedSwitches,
    weight: startedThrough,
    apply: (boat, part) => {
      partOf(boat.selectors, part).position = 'off';
      boat.traits.onset = 'sudden';
    },
  },
  'switch-wrong-bank': {
    places: (description) => {
      const links = linksOfDescription(description);
      const banks = idsOf(description, 'battery');
      return usedSwitches(description).filter((part) => {
        const house = houseSide(links, houseBanks(description), part);
        if (house === undefined) return false;
        const reached = terminalsReached(links, `${part}.${house === 'one' ? 'two' : 'one'}`);
        return banks.some((bank) => reached.has(`${bank}.+`));
      });
    },
    apply: (boat, part) => {
      const house = houseSide(linksOfBoat(boat), houseIds(boat.batteries), part);
      partOf(boat.selectors, part).position = house === 'one' ? 'two' : 'one';
      boat.traits.onset = 'sudden';
    },
  },
  'isolator-leg-open': {
    places: (description) => idsOf(description, 'isolator'),
    apply: (boat, part) => {
      const isolator = partOf(boat.isolators, part);
      const house = houseSide(linksOfBoat(boat), houseIds(boat.batteries), part);
      if (house === 'two') isolator.legTwo = 'open';
      else isolator.legOne = 'open';
      boat.traits.onset = 'sudden';
    },
  },
  'relay-never-closes': {
    places: (description) => idsOf(description, 'relay'),
    apply: (boat, part) => {
      partOf(boat.relays, part).state = 'never-closes';
      boat.traits.onset = 'sudden';
    },
  },
  'post-clamp-loose': {
    places: (description) => idsOf(description, 'battery'),
    weight: (description, part) => (isStart(description, part) ? 0.4 : 1),
    apply: (boat, part, severity) => {
      const loads = new Set(boat.loads.map((load) => `${load.id}.+`));
      const post = `${part}.+`;
      for (const cable of boat.conductors) {
        const other = cable.from === post ? cable.to : cable.to === post ? cable.from : undefined;
        if (other !== undefined && !loads.has(other)) cable.joints += badJoint(severity);
      }
      boat.traits.onset = 'slow';
    },
  },
});

const houseIds = (batteries: readonly { readonly id: string; readonly duty: string }[]): readonly string[] =>
  batteries.filter((battery) => battery.duty === 'house').map((battery) => battery.id);

const isStart = (description: BoatDescription, part: string): boolean =>
  partsOfKind(description, 'battery').some(
    (battery) => battery.id === part && battery.choices.duty === 'start',
  );
