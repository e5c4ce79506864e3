/** Faults of the drive: belt and pulleys. */
import table from '../../data/faults/drive.json' with { type: 'json' };
import { joinedFaults, type Behaviour } from './behaviour.ts';
import { beltReserve } from '../operate/index.ts';
import { linear, logarithmic, partOf } from './severity.ts';
import { idsOf } from './wiring.ts';

const places: Behaviour['places'] = (description) => idsOf(description, 'belt');

export const driveFaults = joinedFaults('drive', table.faults, {
  'belt-slipping': {
    places,
    apply: (boat, part, severity) => {
      const belt = partOf(boat.belts, part);
      const { ratedCurrent } = partOf(boat.alternators, belt.alternator);
      // It slips before the machine gives what it is rated for; a belt that only would slip on a larger one is sound.
      const passes = logarithmic(0.8, 0.25, severity) / beltReserve(belt, ratedCurrent, boat.nominalVoltage);
      belt.grip *= Math.min(1, passes);
      belt.dust = linear(0.1, 0.6, severity);
      Object.assign(boat.traits, { onset: 'slow', heatSmell: true });
    },
  },
  'belt-broken': {
    places,
    apply: (boat, part, severity) => {
      const belt = partOf(boat.belts, part);
      belt.grip = 0;
      belt.dust = linear(0.1, 0.8, severity);
      boat.traits.onset = 'sudden';
    },
  },
  'belt-misaligned': {
    places,
    apply: (boat, part, severity) => {
      const belt = partOf(boat.belts, part);
      belt.misaligned = true;
      belt.grip = linear(0.95, 0.6, severity);
      belt.dust = linear(0.4, 1, severity);
      boat.traits.onset = 'slow';
    },
  },
  'pulley-ratio-wrong': {
    places: (description) => idsOf(description, 'alternator'),
    apply: (boat, part, severity) => {
      partOf(boat.alternators, part).pulleyRatio *= linear(0.75, 0.45, severity);
      boat.traits.onset = 'always';
    },
  },
});
