/** Faults of the machine itself: brushes, rotor, stator, bridge, field diodes, its own regulator, heat. */
import table from '../../data/faults/alternator.json' with { type: 'json' };
import type { Boat, WindingFault } from '../boat/index.ts';
import { joinedFaults, type Behaviour } from './behaviour.ts';
import { linear, logarithmic, partOf } from './severity.ts';
import { alternatorsStartedBy, idsOf, regulatorsAt } from './wiring.ts';

const onAlternators: Behaviour['places'] = (description) => idsOf(description, 'alternator');
const onInsideRegulators: Behaviour['places'] = (description) => regulatorsAt(description, 'inside');

/** A bridge or winding fault of a depth, with what a nose and a tachometer tell of it. */
const winding = (
  kind: WindingFault,
  depth: (severity: number) => number,
  onset: 'sudden' | 'slow',
  heatSmell: boolean,
): Behaviour => ({
  places: onAlternators,
  apply: (boat, part, severity) => {
    const alternator = partOf(boat.alternators, part);
    alternator.windingFault = kind;
    alternator.windingSeverity = depth(severity);
    Object.assign(boat.traits, { onset, heatSmell });
  },
});

/** A field circuit that passes next to nothing. */
function opensField(boat: Boat, part: string, ohms: number, onset: 'sudden' | 'slow'): void {
  partOf(boat.alternators, part).brushResistance += ohms * (boat.nominalVoltage / 12);
  boat.traits.onset = onset;
}

export const alternatorFaults = joinedFaults('alternator', table.faults, {
  'brushes-worn': {
    places: onAlternators,
    apply: (boat, part, severity) => opensField(boat, part, logarithmic(5, 10_000, severity), 'slow'),
  },
  'rotor-open': {
    places: onAlternators,
    apply: (boat, part, severity) => opensField(boat, part, logarithmic(1e5, 1e7, severity), 'sudden'),
  },
  'rotor-turns-shorted': {
    places: onAlternators,
    apply: (boat, part, severity) => {
      partOf(boat.alternators, part).rotorShortedShare = linear(0.15, 0.6, severity);
      Object.assign(boat.traits, { onset: 'sudden', heatSmell: true });
    },
  },
  'stator-phase-open': winding('phase-open', () => 1, 'sudden', false),
  'stator-turns-shorted': winding(
    'turns-shorted',
    (severity) => logarithmic(0.05, 0.6, severity),
    'sudden',
    true,
  ),
  'diode-open': winding('diode-open', () => 1, 'sudden', false),
  'diode-shorted': winding('diode-shorted', () => 1, 'sudden', true),
  'field-diodes-open': {
    places: (description) => alternatorsStartedBy(description, 'lamp'),
    apply: (boat, part) => {
      partOf(boat.alternators, part).fieldDiodes = 'open';
      boat.traits.onset = 'sudden';
    },
  },
  'residual-lost': {
    places: (description) => alternatorsStartedBy(description, 'none'),
    apply: (boat, part, severity) => {
      partOf(boat.alternators, part).residual = linear(0.1, 0, severity);
      boat.traits.onset = 'sudden';
    },
  },
  'alternator-heat-soaked': {
    places: onAlternators,
    apply: (boat, part, severity) => {
      partOf(boat.alternators, part).heatFactor = linear(1.5, 3, severity);
      Object.assign(boat.traits, { onset: 'slow', heatSmell: true });
    },
  },
  'internal-regulator-dead': {
    places: onInsideRegulators,
    apply: (boat, part) => {
      partOf(boat.regulators, part).state = 'dead';
      boat.traits.onset = 'sudden';
    },
  },
  'internal-regulator-stuck-full': {
    places: onInsideRegulators,
    apply: (boat, part) => {
      partOf(boat.regulators, part).state = 'stuck-full';
      Object.assign(boat.traits, { onset: 'sudden', heatSmell: true });
    },
  },
  'internal-regulator-intermittent': {
    places: onInsideRegulators,
    apply: (boat, part, severity) => {
      partOf(boat.regulators, part).state = 'dead';
      Object.assign(boat.traits, {
        presence: linear(0.7, 0.3, severity),
        onset: 'slow',
      });
    },
  },
});
