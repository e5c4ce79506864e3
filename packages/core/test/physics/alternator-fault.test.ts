import { expect, it } from 'vitest';
import {
  type AlternatorFault,
  alternatorFaultHeat,
  alternatorOutputShare,
  restDrainThroughShortedDiode,
} from '../../src/physics/alternator-fault.ts';
import { diodeCurrent, EXCITATION_DIODE } from '../../src/physics/diode.ts';
import { machineRivas, perMinute } from './machines.ts';

it('[RIVAS2004 machine, time-step simulation] shares at 1800, 3000 and 6000 min⁻¹', () => {
  const rows = {
    'diode-open': [0.67, 0.83, 0.98],
    'phase-open': [0.33, 0.52, 0.57],
    'diode-shorted': [0.23, 0.28, 0.3],
  } as const;
  for (const [kind, shares] of Object.entries(rows)) {
    [1800, 3000, 6000].forEach((revolutions, index) => {
      const share = alternatorOutputShare(machineRivas, { kind } as AlternatorFault, perMinute(revolutions));
      // 0.002: the speed ratios are kept to three digits.
      expect(Math.abs(share - shares[index]!)).toBeLessThan(0.002);
    });
  }
});

it('[law] the share rises with speed for an open diode, without steps', () => {
  let before = alternatorOutputShare(machineRivas, { kind: 'diode-open' }, perMinute(500));
  for (let revolutions = 510; revolutions < 9000; revolutions += 10) {
    const share = alternatorOutputShare(machineRivas, { kind: 'diode-open' }, perMinute(revolutions));
    expect(share).toBeGreaterThanOrEqual(before);
    expect(share - before).toBeLessThan(0.01);
    before = share;
  }
});

it('[limit] shorted turns: none is healthy, more is worse, and they heat', () => {
  const share = (fraction: number): number =>
    alternatorOutputShare(machineRivas, { kind: 'turns-shorted', fraction }, perMinute(3000));
  expect(share(0)).toBe(1);
  expect(share(0.05)).toBeGreaterThan(share(0.3));
  const fault = { kind: 'turns-shorted', fraction: 0.1 } as const;
  expect(alternatorFaultHeat(machineRivas, fault, perMinute(3000), 3.6, 353)).toBeGreaterThan(0);
  expect(() => share(1.2)).toThrow(/fraction = 1.2/);
});

it('[law] rest drain balances its loop', () => {
  const drain = restDrainThroughShortedDiode(12.6, 3.5, EXCITATION_DIODE);
  const law = { current: 0, dByVoltage: 0 };
  diodeCurrent(EXCITATION_DIODE, 12.6 - drain * 3.5, law);
  expect(Math.abs(law.current - drain)).toBeLessThan(1e-6);
});
