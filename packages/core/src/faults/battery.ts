/** States of a bank: empty, worn, sulphated, a shorted cell, cut off by its own protection. */
import table from '../../data/faults/battery.json' with { type: 'json' };
import { partsOfKind, type BoatDescription } from '../boat/index.ts';
import { joinedFaults, type Behaviour } from './behaviour.ts';
import { linear, partOf } from './severity.ts';

const banks =
  (wanted: (chemistry: string) => boolean): Behaviour['places'] =>
  (description) =>
    partsOfKind(description, 'battery')
      .filter((part) => wanted(part.choices.chemistry ?? 'flooded'))
      .map((part) => part.id);
const anyBank = banks(() => true);
const leadBanks = banks((chemistry) => chemistry !== 'lifepo4');

/** A start bank is seldom the one that is complained of: it is small, and full within minutes. */
const weight = (description: BoatDescription, part: string): number =>
  partsOfKind(description, 'battery').some((bank) => bank.id === part && bank.choices.duty === 'start')
    ? 0.3
    : 1;

export const batteryFaults = joinedFaults('battery', table.faults, {
  'battery-flat': {
    places: anyBank,
    weight,
    apply: (boat, part, severity) => {
      const battery = partOf(boat.batteries, part);
      // A bank that started the engine was not quite empty.
      battery.stateOfCharge = linear(0.35, battery.duty === 'house' ? 0.02 : 0.1, severity);
    },
  },
  'battery-capacity-lost': {
    places: anyBank,
    weight,
    apply: (boat, part, severity) => {
      const battery = partOf(boat.batteries, part);
      battery.health = Math.min(battery.health, linear(0.5, 0.15, severity));
      boat.traits.onset = 'slow';
    },
  },
  'battery-sulphated': {
    places: leadBanks,
    weight,
    apply: (boat, part, severity) => {
      const battery = partOf(boat.batteries, part);
      battery.sulphation = linear(0.3, 1, severity);
      battery.health = Math.min(battery.health, linear(0.8, 0.4, severity));
      boat.traits.onset = 'slow';
    },
  },
  'battery-cell-shorted': {
    places: leadBanks,
    weight,
    apply: (boat, part) => {
      partOf(boat.batteries, part).shortedCells = 1;
      Object.assign(boat.traits, { onset: 'sudden', heatSmell: true });
    },
  },
  'protection-open': {
    places: banks((chemistry) => chemistry === 'lifepo4'),
    apply: (boat, part) => {
      partOf(boat.batteries, part).protection = 'open';
      boat.traits.onset = 'sudden';
    },
  },
});
