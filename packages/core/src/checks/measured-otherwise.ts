/** What other instruments than voltmeter and clamp tell: ohms, temperature, belt and pulleys, the panel's own gauge. */
import { partsOfKind } from '../boat/index.ts';
import type { Placement } from './check.ts';
import { fast, fastSpeed, off, running } from './conditions.ts';
import { fieldReachable, forEachPath, number } from './placing.ts';

export const measuredOtherwise: Readonly<Record<string, Placement>> = {
  'field-ohms': forEachPath((description, path) =>
    fieldReachable(description, path)
      ? {
          condition: off,
          outcome: number({
            kind: 'number',
            dimension: 'resistance',
            unit: 'ohm',
            probe: { kind: 'field-ohms', alternator: path.alternator },
            meterSigma: (value) => 0.1 + 0.01 * Math.abs(value),
            modelSigma: (value) => 0.2 + 0.3 * Math.abs(value),
            range: [0, 1e6],
          }),
        }
      : undefined,
  ),
  'case-temperature': forEachPath((_, { alternator }) => ({
    condition: running(fastSpeed, 1800),
    outcome: number({
      kind: 'number',
      dimension: 'temperature',
      unit: 'degC',
      probe: { kind: 'case-temperature', alternator },
      meterSigma: () => 3,
      modelSigma: () => 10,
      range: [250, 500],
    }),
  })),
  'belt-slip': forEachPath((_, { alternator, belt }) =>
    belt === undefined
      ? undefined
      : {
          condition: fast,
          outcome: number({
            kind: 'number',
            dimension: 'ratio',
            unit: '%',
            probe: { kind: 'belt-slip', alternator },
            meterSigma: () => 0.01,
            modelSigma: (value) => 0.01 + 0.2 * Math.abs(value),
            range: [-0.1, 1],
          }),
        },
  ),
  'pulley-ratio': forEachPath((_, { alternator, belt }) =>
    belt === undefined
      ? undefined
      : {
          condition: off,
          outcome: number({
            kind: 'number',
            dimension: 'ratio',
            unit: '1',
            probe: { kind: 'pulley-ratio', alternator },
            meterSigma: (value) => 0.02 * Math.abs(value) + 0.01,
            modelSigma: () => 0.02,
            range: [0.5, 5],
          }),
        },
  ),
  'gauge-volts': {
    on: 'gauge',
    sites: (description) =>
      partsOfKind(description, 'gauge').map(({ id }) => ({
        part: id,
        condition: fast,
        outcome: number({
          kind: 'number',
          dimension: 'voltage',
          unit: 'V',
          probe: { kind: 'gauge-volts', gauge: id },
          meterSigma: () => (0.15 * description.nominalVoltage) / 12,
          modelSigma: () => (0.15 * description.nominalVoltage) / 12,
          range: [0, (18 * description.nominalVoltage) / 12],
        }),
      })),
  },
};
