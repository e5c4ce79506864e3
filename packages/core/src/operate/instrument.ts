/** What an instrument shows at a probe, its own error left out. */
import type { Boat } from '../boat/index.ts';
import { copperRatio } from '../physics/index.ts';
import type { Operator } from './operator.ts';
import type { OperatingPoint } from './point.ts';
import type { Probe } from './probe.ts';
import { filledVolts } from './filled.ts';
import { rippleAt } from './ripple.ts';

/** The true value at a probe [SI]; NaN where the boat has no such point. */
export function readProbe(operator: Operator, boat: Boat, point: OperatingPoint, probe: Probe): number {
  const volts = (terminal: string): number => {
    const node = operator.plant.nodeOf(terminal);
    return node === undefined ? NaN : (point.voltages[node] ?? NaN);
  };
  switch (probe.kind) {
    case 'dc-volts':
      return volts(probe.plus) - volts(probe.minus);
    case 'ac-volts':
      return rippleAt(operator, boat, point, probe.alternator);
    case 'alternator-amps':
      return point.alternators.find((one) => one.id === probe.alternator)?.output ?? NaN;
    case 'field-amps':
      return point.alternators.find((one) => one.id === probe.alternator)?.fieldCurrent ?? NaN;
    case 'case-temperature': {
      const machine = point.alternators.find((one) => one.id === probe.alternator);
      return machine === undefined ? NaN : machine.space + CASE_SHARE * (machine.temperature - machine.space);
    }
    case 'belt-slip':
      return point.alternators.find((one) => one.id === probe.alternator)?.slip ?? NaN;
    case 'pulley-ratio':
      return boat.alternators.find((one) => one.id === probe.alternator)?.pulleyRatio ?? NaN;
    case 'shaft-speed':
      return point.alternators.find((one) => one.id === probe.alternator)?.speed ?? NaN;
    case 'battery-amps':
      return point.batteries.find((one) => one.id === probe.battery)?.current ?? NaN;
    case 'gravity-spread': {
      const battery = boat.batteries.find((one) => one.id === probe.battery);
      if (battery === undefined) return NaN;
      return 0.012 + (battery.shortedCells > 0 ? 0.09 : 0) + 0.02 * battery.sulphation;
    }
    case 'field-ohms': {
      const alternator = boat.alternators.find((one) => one.id === probe.alternator);
      if (alternator === undefined) return NaN;
      const winding =
        alternator.fieldResistance * (1 - alternator.rotorShortedShare) * copperRatio(boat.ambient);
      return Math.min(winding + alternator.brushResistance, METER_OPEN);
    }
    case 'label-amps':
      return boat.alternators.find((one) => one.id === probe.alternator)?.ratedCurrent ?? NaN;
    case 'label-amp-hours':
      return boat.batteries.find((one) => one.id === probe.battery)?.capacity ?? NaN;
    case 'gauge-error':
      return boat.gauges.find((one) => one.id === probe.gauge)?.error ?? NaN;
    case 'filled-volts': {
      const index = boat.batteries.findIndex((one) => one.id === probe.battery);
      const battery = boat.batteries[index];
      if (battery === undefined) return NaN;
      if (battery.protection !== 'closed') return 0;
      return filledVolts(operator.lawOf(index), battery.surfaceVoltage, probe);
    }
    case 'gauge-volts': {
      const gauge = boat.gauges.find((one) => one.id === probe.gauge);
      return gauge === undefined ? NaN : volts(gauge.plus) - volts(gauge.minus) + gauge.error;
    }
  }
}

/** Of the rise of the windings over the air around the machine, what its case shows; estimate. */
const CASE_SHARE = 0.7;
/** What an ohmmeter's "open" is written down as [Ω]. */
const METER_OPEN = 10_000;
