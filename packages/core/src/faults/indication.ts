/** The charging is fine and what shows it is not. */
import table from '../../data/faults/indication.json' with { type: 'json' };
import { joinedFaults } from './behaviour.ts';
import { linear, partOf } from './severity.ts';
import { alternatorsStartedBy, idsOf } from './wiring.ts';

/** Share of wrong gauges that show too little: those are the ones that owners complain of; estimate. */
const READS_LOW = 0.7;

/** Error of a wrong gauge, per 12 V [V]: −1.5 to −0.5, then +0.5 to +1.5. */
const gaugeError = (severity: number): number =>
  severity < READS_LOW
    ? linear(-1.5, -0.5, severity / READS_LOW)
    : linear(0.5, 1.5, (severity - READS_LOW) / (1 - READS_LOW));

export const indicationFaults = joinedFaults('indication', table.faults, {
  'panel-gauge-wrong': {
    places: (description) => idsOf(description, 'gauge'),
    apply: (boat, part, severity) => {
      partOf(boat.gauges, part).error = gaugeError(severity) * (boat.nominalVoltage / 12);
      boat.traits.onset = 'slow';
    },
  },
  'charge-lamp-misleads': {
    places: (description) =>
      alternatorsStartedBy(description, 'lamp').length > 0 ? idsOf(description, 'lamp') : [],
    apply: (boat, part, severity) => {
      partOf(boat.lamps, part).state = 'open';
      // The lamp is dark whatever happens, yet the machines come in on their own magnetism.
      for (const alternator of boat.alternators) {
        if (alternator.excitation === 'lamp') alternator.residual = linear(2, 2.6, severity);
      }
      boat.traits.onset = 'sudden';
    },
  },
  'tachometer-dead': {
    places: (description) => idsOf(description, 'engine'),
    apply: (boat, part) => {
      Object.assign(boat.traits, { onset: 'sudden', deadTachometer: part });
    },
  },
});
