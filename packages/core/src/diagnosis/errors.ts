/** Errors that readings share. */
import type { PlacedCheck } from '../checks/index.ts';
import type { SharedError } from './inference/index.ts';

/** Gain error of a hand-held voltmeter, the same for all of its readings [1]; common practice, 0.5 % limits. */
const METER_GAIN = 0.0025;

/** Voltage readings of one meter share its gain error. */
export function meterGroup(
  check: PlacedCheck,
  meter: string | undefined,
  value: number,
): { readonly shared?: readonly SharedError[] } {
  if (check.outcome.kind !== 'number' || check.outcome.probe.kind !== 'dc-volts') return {};
  return { shared: [{ group: `meter ${meter ?? ''}`, sigma: METER_GAIN * Math.abs(value) + 1e-4 }] };
}
