/** States of the whole boat in which nothing is broken: all is well, or bank, alternator, loads and engine hours do
 *  not fit together, or another source stands in the alternator's place.
 */
import table from '../../data/faults/system.json' with { type: 'json' };
import {
  boatAt,
  chargingShare,
  leastShare,
  partsOfKind,
  strongest,
  type Boat,
  type BoatDescription,
} from '../boat/index.ts';
import { joinedFaults } from './behaviour.ts';
import { engineOf, FLAT, highestSetpoint, IDLE_MARGIN, idleMargin, LOAD_SHARE, serves } from './ordinary.ts';
import { linear, partOf } from './severity.ts';
import { idsOf } from './wiring.ts';

const knows = (description: BoatDescription, part: string): boolean => {
  const capacity = partsOfKind(description, 'battery').find((battery) => battery.id === part)?.quantities
    .capacity;
  const rated = partsOfKind(description, 'alternator').some(
    (one) => one.quantities.rated_current !== undefined,
  );
  return capacity !== undefined && rated;
};

/** A bank that is never filled is found half empty at best: charge falls into 0.1 to 0.6, in the same order. */
const runDown = (boat: Boat): void => squeezeCharge(boat, 0.1, 0.6);

function squeezeCharge(boat: Boat, low: number, high: number): void {
  for (const battery of boat.batteries.filter(serves)) {
    battery.stateOfCharge = linear(low, high, battery.stateOfCharge);
  }
}

export const systemFaults = joinedFaults('system', table.faults, {
  'all-well': {
    places: () => [''],
    // Kept out of every other normal state (ordinary.ts), and no bank is flat.
    apply: (boat) => {
      for (const battery of boat.batteries) battery.stateOfCharge = linear(FLAT, 1, battery.stateOfCharge);
    },
  },
  'alternator-small-for-bank': {
    places: (description) =>
      partsOfKind(description, 'battery')
        .filter((part) => part.choices.duty !== 'start')
        .map((part) => part.id),
    weight: (description, part) => {
      const boat = boatAt(description);
      const battery = partOf(boat.batteries, part);
      const fit = chargingShare(boat, battery) / leastShare(battery);
      if (!knows(description, part)) return fit < 1 ? 1 : 0.5;
      return fit < 1 ? 2 : fit < 1.2 ? 0.5 : 0;
    },
    apply: (boat, part, severity) => {
      const battery = partOf(boat.batteries, part);
      const share = leastShare(battery) * linear(0.9, 0.4, severity);
      battery.capacity = Math.max(battery.capacity, (strongest(boat) * 3600) / share);
      runDown(boat);
      boat.traits.onset = 'always';
    },
  },
  'loads-too-high': {
    places: (description) => idsOf(description, 'load'),
    weight: (description, part) => {
      const known = partsOfKind(description, 'load').find((load) => load.id === part)?.quantities.current
        ?.value;
      if (known === undefined) return 1;
      const share = known / Math.max(1, strongest(boatAt(description)));
      return share > 0.5 ? 3 : share > 0.25 ? 1 : 0.2;
    },
    apply: (boat, part, severity) => {
      const load = partOf(boat.loads, part);
      load.current = Math.max(load.current, strongest(boat) * linear(LOAD_SHARE + 0.05, 1.3, severity));
      runDown(boat);
    },
  },
  'idle-too-slow': {
    places: (description) => idsOf(description, 'alternator'),
    weight: (description, part) => {
      const boat = boatAt(description);
      const alternator = partOf(boat.alternators, part);
      const engine = engineOf(boat, alternator);
      const known = partsOfKind(description, 'alternator').find((one) => one.id === part)?.quantities
        .pulley_ratio;
      if (known === undefined || engine === undefined) return 1;
      const margin = (engine.idleSpeed * alternator.pulleyRatio) / alternator.cutInSpeed;
      return margin < 1.15 ? 2 : margin < 1.4 ? 0.5 : 0.1;
    },
    apply: (boat, part, severity) => {
      const alternator = partOf(boat.alternators, part);
      const margin = idleMargin(boat, alternator);
      const wanted = linear(IDLE_MARGIN - 0.05, 0.75, severity);
      if (margin > wanted && margin < Infinity) {
        // A machine that comes in late, on pulleys that are as they should be.
        alternator.cutInSpeed *= margin / wanted;
        alternator.cutInTold = true;
        alternator.curve = [];
      }
      runDown(boat);
      boat.traits.onset = 'always';
    },
  },
  'other-source-hides': {
    places: (description) => idsOf(description, 'source'),
    weight: (description, part) => {
      const source = partsOfKind(description, 'source').find((one) => one.id === part);
      return source?.choices.state === 'off' ? 0.2 : 1;
    },
    apply: (boat, part, severity) => {
      const source = partOf(boat.sources, part);
      source.on = true;
      source.setpoint = Math.max(
        source.setpoint,
        highestSetpoint(boat) + linear(0.05, 0.5, severity) * (boat.nominalVoltage / 12),
      );
      squeezeCharge(boat, 0.85, 1);
    },
  },
});
