import { describe, expect, it } from 'vitest';
import { boatFromTemplate, unknownsOf, type Fact } from '../../src/boat/index.ts';
import { placedChecks } from '../../src/checks/index.ts';
import {
  createCache,
  posteriorGiven,
  type Model,
  type Reading,
} from '../../src/diagnosis/inference/index.ts';
import { BoatModel } from '../../src/diagnosis/model.ts';
import { placedFaults } from '../../src/faults/index.ts';

const nameplate = (value: number): Fact => ({ value, origin: 'nameplate' });
const description = boatFromTemplate('one-battery', {
  alternatorCurrent: nameplate(70),
  bankCapacity: nameplate(220 * 3600),
  regulatorPlace: 'inside',
  excitation: 'lamp',
  bankChemistry: 'flooded',
});
const wantedFaults = [
  'all-well',
  'battery-flat@battery',
  'charge-cable-resistive@charge-cable',
  'belt-slipping@belt',
  'charge-lamp-blown@lamp',
];
const faults = placedFaults(description).filter(({ id }) => wantedFaults.includes(id));
const checks = placedChecks(description);
const boat = new BoatModel(description, faults, checks);
const unknowns = unknownsOf(description);
const chargeAt = unknowns.indexOf('battery: state of charge');
const severityAt = unknowns.length;

/** The boat with all but two unknowns fixed at their medians: state of charge, and severity of the fault. */
const small: Model = {
  dimensions: 2,
  observables: boat.observables,
  predict: (hypothesis, u, wanted, out) => {
    const all = new Float64Array(boat.dimensions);
    all[chargeAt] = u[0] ?? 0;
    all[severityAt] = u[1] ?? 0;
    boat.predict(hypothesis, all, wanted, out);
  },
};

const SLIP = 0.02;
const observableOf = (id: string): number => checks.findIndex((check) => check.id === id);
const numeric = (id: string, value: number): Reading => {
  const { outcome } = checks[observableOf(id)]!;
  if (outcome.kind !== 'number') throw new Error(id);
  return {
    kind: 'numeric',
    observable: observableOf(id),
    value,
    sigma: Math.hypot(outcome.meterSigma(value), outcome.modelSigma(value)),
    slip: SLIP,
  };
};
const readings: readonly Reading[] = [
  numeric('battery-volts-rest@battery', 12.3),
  numeric('battery-volts-fast@battery', 13.1),
  numeric('drop-positive@alternator', 0.45),
  { kind: 'categorical', observable: observableOf('look-lamp-key-on@lamp'), outcome: 2, slip: SLIP },
];

/** Evidence of each state by the midpoint rule over a dense grid, written without the inference code. */
function evidenceOnGrid(hypothesis: number): number {
  const steps = 41;
  const reach = 4;
  const wanted = [...new Set(readings.map(({ observable }) => observable))];
  const row = new Float64Array(16);
  let sum = 0;
  let weight = 0;
  for (let i = 0; i < steps; i++) {
    for (let j = 0; j < steps; j++) {
      const u = Float64Array.of(
        -reach + (2 * reach * (i + 0.5)) / steps,
        -reach + (2 * reach * (j + 0.5)) / steps,
      );
      const density = Math.exp(-0.5 * (u[0]! ** 2 + u[1]! ** 2));
      weight += density;
      small.predict(hypothesis, u, wanted, row);
      let likelihood = 1;
      let slot = 0;
      for (const reading of readings) {
        const observable = boat.observables[reading.observable]!;
        if (reading.kind === 'numeric' && observable.kind === 'numeric') {
          const z = (reading.value - row[slot]!) / reading.sigma;
          const normal = Math.exp(-0.5 * z * z) / (reading.sigma * Math.sqrt(2 * Math.PI));
          likelihood *= (1 - SLIP) * normal + SLIP / (observable.high - observable.low);
          slot += 1;
        } else if (reading.kind === 'categorical' && observable.kind === 'categorical') {
          likelihood *= (1 - SLIP) * row[slot + reading.outcome]! + SLIP / observable.outcomes;
          slot += observable.outcomes;
        }
      }
      sum += density * likelihood;
    }
  }
  return sum / weight;
}

describe('a boat with two unknowns', () => {
  it('[rival] chances equal those of a dense grid, within the stated error', () => {
    const priors = faults.map(({ prior }) => prior);
    const { posterior, reliability } = posteriorGiven(
      createCache(small, { seed: 3, draws: 512 }),
      priors,
      readings,
      {
        nothingFits: 0,
      },
    );
    const joint = faults.map(({ prior }, h) => prior * evidenceOnGrid(h));
    const whole = joint.reduce((total, one) => total + one, 0);
    expect(faults).toHaveLength(wantedFaults.length);
    joint.forEach((one, h) => {
      const error = Math.abs((posterior.probability[h] ?? 0) - one / whole);
      // Three stated standard errors, and half a per cent for the grid (a relay or belt bends within a cell).
      expect(error, faults[h]?.id).toBeLessThan(3 * (reliability.standardError[h] ?? 0) + 0.005);
    });
    expect(Math.max(...reliability.standardError)).toBeLessThan(0.03);
  });
});
