/** Whether to stop, and with what. `readings`: those of the boat as it stands, since only they can be taken again, and only they
 *  prove a repair. */
import { faultById, remedyPrice } from '../faults/index.ts';
import type { Conclusion, NextCheck, ReadingInLight, Suspect } from './verdict.ts';
import criteria from './criteria.json' with { type: 'json' };

export function conclusionOf(
  suspects: readonly Suspect[],
  nothingFits: number,
  wrong: number,
  next: readonly NextCheck[],
  readings: readonly ReadingInLight[],
): Conclusion {
  // A reading that was taken twice and came out alike stands.
  const once = readings.filter(({ check }) => readings.filter((other) => other.check === check).length === 1);
  const worst = [...once].sort((a, b) => b.slip - a.slip)[0];
  if (nothingFits >= criteria.nothingFitsAt) return { kind: 'nothing-fits', repeat: worst?.reading };
  if (worst !== undefined && worst.slip >= criteria.slipAt && readings.length > 1) {
    return { kind: 'readings-contradict', repeat: worst.reading };
  }
  const first = suspects[0];
  if (first === undefined || readings.length === 0) return { kind: 'go-on' };
  if (1 - wrong >= criteria.nothingWrongAt) return { kind: 'nothing-wrong' };
  const dear = first.nature === 'fault' && priceOf(first.fault) >= criteria.dearPart;
  if (first.probability >= (dear ? criteria.dearDecidedAt : criteria.decidedAt)) {
    return { kind: 'decided', suspect: first.id };
  }
  const worthIt = next.some(
    ({ bits, bitsPerMinute, saves, costs }) =>
      bits >= criteria.leastBits && (saves > costs || bitsPerMinute >= criteria.worthBitsPerMinute),
  );
  if (worthIt) return { kind: 'go-on' };
  const open = suspects.filter(({ probability }) => probability >= 0.05).map(({ id }) => id);
  return { kind: 'no-check-worth-it', suspects: open };
}

function priceOf(fault: string): number {
  const { low, high } = remedyPrice(faultById(fault));
  return (low + high) / 2;
}
