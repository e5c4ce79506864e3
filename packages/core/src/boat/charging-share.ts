/** How large the alternator is for a bank: its amps over the bank's ampere-hours [1/h]. */
import { chargingSetPoints } from '../handbook/index.ts';
import type { Battery, Boat } from './boat.ts';

/** Rated amps of the strongest alternator [A]. */
export const strongest = (boat: Boat): number =>
  Math.max(0, ...boat.alternators.map((alternator) => alternator.ratedCurrent));

/** Amps of the strongest alternator over the A·h of a bank. */
export const chargingShare = (boat: Boat, battery: Battery): number =>
  (strongest(boat) * 3600) / battery.capacity;

/** Least usual charging share of the chemistry. Source: battery tables of the handbook, common practice. */
export const leastShare = (battery: Battery): number =>
  chargingSetPoints(battery.chemistry).chargeCurrentRatio[0];
