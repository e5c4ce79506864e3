/** AC ripple at an alternator's stud as a meter on its AC range shows it [V rms]; law in physics/ripple.ts.
 *  The ripple current meets the resistance of the way to the bank that takes most of it, and of that bank.
 */
import type { Boat } from '../boat/index.ts';
import { acResponse, alternatorOutputShare, studRipple } from '../physics/index.ts';
import { windingFaultOf } from './machine-setting.ts';
import type { Operator } from './operator.ts';
import type { OperatingPoint } from './point.ts';

/** What an AC range shows of nothing much: chopped field, loads, its own noise [V]; estimate. */
const SMALLEST = 0.02;
/** Bandwidth of a plain meter's AC range [Hz] (instruments.ts): it shows a healthy bridge's six-fold ripple in part only. */
const METER_BANDWIDTH = 1000;

export function rippleAt(operator: Operator, boat: Boat, point: OperatingPoint, id: string): number {
  const unit = operator.plant.alternators.find((one) => boat.alternators[one.index]?.id === id);
  const alternator = point.alternators.find((one) => one.id === id);
  if (unit === undefined || alternator === undefined) return NaN;
  const banks = point.batteries.map((bank, index) => ({ bank, unit: operator.plant.batteries[index] }));
  const taker = banks.sort((a, b) => b.bank.current - a.bank.current)[0];
  if (taker?.unit === undefined || alternator.output < 0.5 || alternator.speed <= 0) return SMALLEST;
  const stud = (point.voltages[unit.stud] ?? 0) - (point.voltages[unit.frame] ?? 0);
  const path = Math.max(0, (stud - taker.bank.voltage) / Math.max(alternator.output, 1));
  const fault = windingFaultOf(boat.alternators[unit.index]!);
  const { machine } = unit.machine;
  const share = alternatorOutputShare(machine, fault, alternator.speed);
  const resistance = Math.min(path + taker.unit.prepared.ohmicResistance, 1);
  const ripple = studRipple(machine.polePairs, alternator.speed, alternator.output, resistance, fault, share);
  return SMALLEST + ripple.voltage * acResponse(ripple.frequency, METER_BANDWIDTH);
}
