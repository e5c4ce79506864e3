import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boatFromTemplate } from '../../src/boat/index.ts';
import { placedChecks, type CheckOutcome } from '../../src/checks/index.ts';
import { errorScaleOf } from '../../src/diagnosis/error-scale.ts';

type NumberOutcome = Extract<CheckOutcome, { kind: 'number' }>;

const checks = placedChecks(boatFromTemplate('diode-isolator', {}));
const outcomeOf = (id: string): NumberOutcome => {
  const outcome = checks.find((check) => check.id === id)?.outcome;
  if (outcome?.kind !== 'number') throw new Error(`no number: ${id}`);
  return outcome;
};
const numbers = checks.flatMap(({ outcome }) => (outcome.kind === 'number' ? [outcome] : []));

describe('scale of equal errors', () => {
  it('[law] there and back again, and the slope is the derivative', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...numbers),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (outcome, share) => {
          const [low, high] = outcome.range;
          const value = low + (high - low) * share;
          const { to, from, slope } = errorScaleOf(outcome);
          const size = Math.max(1, Math.abs(value));
          // asinh and sinh to rounding; the difference quotient over 2·10⁻⁵ of the value to its second derivative.
          expect(Math.abs(from(to(value)) - value)).toBeLessThan(1e-9 * size);
          const half = 1e-5 * size;
          const quotient = (to(value + half) - to(value - half)) / (2 * half);
          expect(Math.abs(quotient / slope(value) - 1)).toBeLessThan(1e-4);
        },
      ),
      { seed: 4, numRuns: 200 },
    );
  });

  it('[law] on it, the error of a drop or a current is one and a half at most and two thirds at least, wherever it lies', () => {
    for (const id of ['drop-positive@alternator', 'battery-amps-fast@house', 'ripple@alternator']) {
      const outcome = outcomeOf(id);
      const { slope } = errorScaleOf(outcome);
      for (const share of [0, 0.01, 0.1, 0.5, 1]) {
        const value = share * outcome.range[1];
        const error = slope(value) * Math.hypot(outcome.meterSigma(value), outcome.modelSigma(value));
        // Errors are a sum of floor and share, the scale adds them in squares: √2 apart at most.
        expect(error).toBeGreaterThan(2 / 3);
        expect(error).toBeLessThan(1.5);
      }
    }
  });

  it('[limit] a ripple of 0.28 V is far from a healthy 0.03 V, though it lies within twice its own error', () => {
    const outcome = outcomeOf('ripple@alternator');
    const { to } = errorScaleOf(outcome);
    const byReading = (0.28 - 0.03) / Math.hypot(outcome.meterSigma(0.28), outcome.modelSigma(0.28));
    expect(byReading).toBeLessThan(2);
    expect(to(0.28) - to(0.03)).toBeGreaterThan(3);
  });
});
