/** How much a bank or a machine is loaded for a test, by what is known of it. */
import { partsOfKind, type BoatDescription, type PartDescription } from '../boat/index.ts';

/** Of a load tester [A]; common practice: half the cold-cranking current, some three times the ampere-hours, where it can. */
const MOST_TEST_LOAD = 400;
/** Of a start and a house bank without a label [Ah], and the rating of an alternator without one, at 12 V [A]. Estimates. */
const USUAL_START = 90;
const USUAL_HOUSE = 220;
const USUAL_RATING = 70;

/** Ampere-hours on the label, or the usual ones. */
export const labelledAmpHours = ({ quantities, choices }: PartDescription<'battery'>): number =>
  quantities.capacity === undefined
    ? choices.duty === 'start'
      ? USUAL_START
      : USUAL_HOUSE
    : quantities.capacity.value / 3600;

/** Amps of a load tester on a bank. */
export const bankTestLoad = (bank: PartDescription<'battery'>): number =>
  Math.min(MOST_TEST_LOAD, labelledAmpHours(bank));

/** Amps at which a machine gives all it can. */
export const machineTestLoad = (description: BoatDescription, alternator: string): number =>
  partsOfKind(description, 'alternator').find(({ id }) => id === alternator)?.quantities.rated_current
    ?.value ?? (USUAL_RATING * 12) / description.nominalVoltage;
