/** Faults of the thin leads: field, enable, sense, supply, charge lamp and its wire, key contact. */
import table from '../../data/faults/excitation.json' with { type: 'json' };
import { cablesAt, type Boat } from '../boat/index.ts';
import { joinedFaults, type Behaviour } from './behaviour.ts';
import { linear, logarithmic, OPEN, partOf } from './severity.ts';
import { idsOf } from './wiring.ts';

const fieldLeads: Behaviour['places'] = (description) => cablesAt(description, 'alternator', ['F']);
const enableLeads: Behaviour['places'] = (description) => cablesAt(description, 'regulator', ['enable']);
const senseLeads: Behaviour['places'] = (description) => cablesAt(description, 'regulator', ['sense']);
const supplyLeads: Behaviour['places'] = (description) => cablesAt(description, 'regulator', ['supply']);
const excitationLeads: Behaviour['places'] = (description) => [
  ...new Set([...cablesAt(description, 'alternator', ['D+']), ...cablesAt(description, 'lamp', ['a', 'b'])]),
];

/** A lead that has come off or broken. */
const open: Behaviour['apply'] = (boat, part) => {
  breakLead(boat, part);
  boat.traits.onset = 'sudden';
};

/** A lead that makes contact on some starts and not on others. */
const intermittent: Behaviour['apply'] = (boat, part, severity) => {
  breakLead(boat, part);
  Object.assign(boat.traits, { presence: linear(0.7, 0.3, severity), onset: 'slow' });
};

const resistive =
  (low: number, high: number): Behaviour['apply'] =>
  (boat, part, severity) => {
    partOf(boat.conductors, part).joints += logarithmic(low, high, severity);
    boat.traits.onset = 'slow';
  };

function breakLead(boat: Boat, part: string): void {
  partOf(boat.conductors, part).resistance = OPEN;
}

export const excitationFaults = joinedFaults('excitation', table.faults, {
  'field-lead-open': { places: fieldLeads, apply: open },
  'field-lead-resistive': { places: fieldLeads, apply: resistive(1, 20) },
  'enable-lead-open': { places: enableLeads, apply: open },
  'enable-lead-intermittent': { places: enableLeads, apply: intermittent },
  'sense-lead-open': { places: senseLeads, apply: open },
  // Against an input of some 10 kΩ: 3 % to 12 % of the voltage is lost, so the bank gets that much too much.
  'sense-lead-resistive': { places: senseLeads, apply: resistive(300, 1400) },
  'supply-lead-open': { places: supplyLeads, apply: open },
  'charge-lamp-blown': {
    places: (description) => idsOf(description, 'lamp'),
    apply: (boat, part) => {
      partOf(boat.lamps, part).state = 'open';
      boat.traits.onset = 'sudden';
    },
  },
  'excitation-lead-open': { places: excitationLeads, apply: open },
  'excitation-lead-intermittent': { places: excitationLeads, apply: intermittent },
  'key-contact-bad': {
    places: (description) => idsOf(description, 'key'),
    apply: (boat, part, severity) => {
      partOf(boat.keys, part).contact += logarithmic(200, 20_000, severity);
      boat.traits.onset = 'slow';
    },
  },
});
