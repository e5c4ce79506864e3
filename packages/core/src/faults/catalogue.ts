/** All faults and normal states, and the ones that a certain boat can have, with their odds before any reading. */
import type { BoatDescription } from '../boat/index.ts';
import { alternatorFaults } from './alternator.ts';
import { batteryFaults } from './battery.ts';
import { driveFaults } from './drive.ts';
import { excitationFaults } from './excitation.ts';
import type { Fault, PlacedFault } from './fault.ts';
import { indicationFaults } from './indication.ts';
import { pathFaults } from './path.ts';
import { regulatorFaults } from './regulator.ts';
import { systemFaults } from './system.ts';

export const faultCatalogue: readonly Fault[] = [
  ...alternatorFaults,
  ...regulatorFaults,
  ...excitationFaults,
  ...pathFaults,
  ...driveFaults,
  ...batteryFaults,
  ...systemFaults,
  ...indicationFaults,
];

const byId = new Map(faultCatalogue.map((fault) => [fault.id, fault]));

/** The fault of an id.   Errors: RangeError for an id that the catalogue has not. */
export function faultById(id: string): Fault {
  const fault = byId.get(id);
  if (fault === undefined) {
    const near = faultCatalogue
      .filter((one) => one.id.split('-')[0] === id.split('-')[0])
      .map((one) => one.id);
    throw new RangeError(
      `faultById: no fault "${id}"; ${near.length > 0 ? `near it: ${near.join(', ')}` : 'see the catalogue'}`,
    );
  }
  return fault;
}

/** Every fault that this boat can have, on each part that can have it.
 *    odds = prior · Π raisedBy(changed) · max(weight) · weight / Σ weight over the fault's places
 *  scaled so that the odds of all placed faults add up to 1. Faults with no place, or no weight, are left out.
 */
export function placedFaults(description: BoatDescription): PlacedFault[] {
  const placed = faultCatalogue.flatMap((fault) => placesOf(fault, description));
  const total = placed.reduce((sum, one) => sum + one.prior, 0);
  return placed.map((one) => ({ ...one, prior: one.prior / total }));
}

function placesOf(fault: Fault, description: BoatDescription): PlacedFault[] {
  const parts = fault.places(description);
  const weights = parts.map((part) => fault.weight?.(description, part) ?? 1);
  const sum = weights.reduce((total, weight) => total + weight, 0);
  if (sum <= 0) return [];
  const raised = description.changed.reduce((factor, change) => factor * (fault.raisedBy[change] ?? 1), 1);
  const odds = (fault.prior * raised * Math.max(...weights)) / sum;
  return parts.flatMap((part, i) => {
    const prior = odds * (weights[i] ?? 0);
    return prior > 0 ? [{ id: part === '' ? fault.id : `${fault.id}@${part}`, fault, part, prior }] : [];
  });
}
