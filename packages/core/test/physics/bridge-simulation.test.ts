import { describe, expect, it } from 'vitest';
import { alternatorOutputShare } from '../../src/physics/alternator-fault.ts';
import { rippleFactor, strongestOrder } from '../../src/physics/ripple.ts';
import { type BridgeResult, type BridgeState, simulatedBridge } from './bridge-simulation.ts';
import { machineRivas, outputOf, perMinute } from './machines.ts';

const speeds = [1800, 3000, 6000] as const;
const simulate = (revolutions: number, state: BridgeState): BridgeResult =>
  simulatedBridge(machineRivas, perMinute(revolutions), 3.6, 14, state);
const healthy = new Map(speeds.map((revolutions) => [revolutions, simulate(revolutions, 'healthy')]));

describe.each(speeds)(
  '[rival] time-step simulation of the bridge, machine of [RIVAS2004], at %i min⁻¹',
  (revolutions) => {
    const whole = healthy.get(revolutions)!;

    it('against the published simulation and the closed form', () => {
      const published = { 1800: 52.1, 3000: 86.4, 6000: 101.1 }[revolutions];
      // Ours: 54.7, 87.8, 102.0 A: +5.0, +1.7, +0.8 %; the published diodes are not constant drops.
      expect(Math.abs(whole.mean / published - 1)).toBeLessThan(0.055);
      // The closed form is +11.7, +2.4, +0.5 % above ours: gaps in conduction near cut-in, which it does not know.
      const error = outputOf(machineRivas, perMinute(revolutions), 3.6, 14) / whole.mean - 1;
      expect(error).toBeGreaterThan(0);
      expect(error).toBeLessThan({ 1800: 0.12, 3000: 0.025, 6000: 0.006 }[revolutions]);
      expect(whole.strongest).toBe(6);
      // 0.0005: the ideal bridge's 0.0420 assumes sine currents.
      expect(Math.abs(whole.ripple - rippleFactor({ kind: 'none' }, 1))).toBeLessThan(5e-4);
    });

    it.each(['diode-open', 'phase-open', 'diode-shorted'] as const)(
      '%s: share, ripple and its order',
      (kind) => {
        const broken = simulate(revolutions, kind);
        const share = alternatorOutputShare(machineRivas, { kind }, perMinute(revolutions));
        // 0.02: the tabled shares come from another simulation; the largest gap is 0.016 (shorted diode at 1800 min⁻¹).
        expect(Math.abs(broken.mean / whole.mean - share)).toBeLessThan(0.02);
        // 0.01: the tabled ripple is ours, three digits; its interpolation runs over the published share.
        expect(Math.abs(broken.ripple - rippleFactor({ kind }, share))).toBeLessThan(0.01);
        expect(broken.strongest).toBe(strongestOrder({ kind }));
      },
    );
  },
);
