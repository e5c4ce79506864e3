import { expect, it } from 'vitest';

import { loadedConductorTemperature } from '../../src/physics/conductor.ts';

// 80, 105 and 200 °C wire is left out: its factors are printed off the square-root law (test/handbook/ampacity.test.ts).
it.each([
  [60, 0.58],
  [75, 0.75],
  [90, 0.82],
  [125, 0.89],
])(
  '[CFR425, table 5 note 1, from memory] wire of %d °C at %d of its ampacity in 50 °C reaches its rating',
  (rating, factor) => {
    const celsius = (t: number): number => t + 273.15;
    const ampacity = { current: 100, ambient: celsius(30), rating: celsius(rating) };
    const reached = loadedConductorTemperature(100 * factor, ampacity, celsius(50));
    // Half a unit of the factor's last digit, as temperature.
    expect(Math.abs(reached - celsius(rating))).toBeLessThan(2 * factor * 0.005 * (rating - 30));
  },
);
