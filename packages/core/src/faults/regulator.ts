/** States of a regulator outside the alternator: its faults, and the two waits and limits that it is right to make. */
import table from '../../data/faults/regulator.json' with { type: 'json' };
import { partsOfKind } from '../boat/index.ts';
import { joinedFaults, type Behaviour } from './behaviour.ts';
import { PATIENCE } from './ordinary.ts';
import { linear, logarithmic, partOf } from './severity.ts';
import { regulatorsAt } from './wiring.ts';

const places: Behaviour['places'] = (description) => regulatorsAt(description, 'outside');

export const regulatorFaults = joinedFaults('regulator', table.faults, {
  'regulator-dead': {
    places,
    apply: (boat, part) => {
      partOf(boat.regulators, part).state = 'dead';
      boat.traits.onset = 'sudden';
    },
  },
  'regulator-stuck-full': {
    places,
    apply: (boat, part) => {
      partOf(boat.regulators, part).state = 'stuck-full';
      Object.assign(boat.traits, { onset: 'sudden', heatSmell: true });
    },
  },
  'regulator-setpoint-low': {
    places,
    apply: (boat, part, severity) => {
      partOf(boat.regulators, part).setpoint -= linear(0.5, 1.5, severity) * (boat.nominalVoltage / 12);
      boat.traits.onset = 'always';
    },
  },
  'regulator-setpoint-high': {
    places,
    apply: (boat, part, severity) => {
      partOf(boat.regulators, part).setpoint += linear(0.5, 1.5, severity) * (boat.nominalVoltage / 12);
      Object.assign(boat.traits, { onset: 'always', heatSmell: true });
    },
  },
  'regulator-thermal-limit': {
    places,
    apply: (boat, part, severity) => {
      partOf(boat.regulators, part).fieldCap = linear(0.6, 0.3, severity);
      boat.traits.onset = 'always';
    },
  },
  'regulator-start-delay': {
    places,
    weight: (description, part) => {
      const regulator = partsOfKind(description, 'regulator').find((candidate) => candidate.id === part);
      const known = regulator?.quantities.start_delay?.value;
      return known === undefined ? 1 : known < PATIENCE ? 0.1 : 2;
    },
    apply: (boat, part, severity) => {
      partOf(boat.regulators, part).startDelay = logarithmic(1.1 * PATIENCE, 240, severity);
      boat.traits.onset = 'always';
    },
  },
});
