import { expect, it } from 'vitest';

import { gassing, prepareBattery, restedState } from '../../src/physics/battery.ts';
import { lawOf } from './charge-run.ts';

/** Cell voltage at which a full flooded 100 Ah battery gasses with `wanted` amps [V]. */
function voltageFor(wanted: number, temperature: number): number {
  const prepared = prepareBattery(lawOf({ temperature }), restedState(1));
  const gas = { current: 0, dByVoltage: 0 };
  let low = 2;
  let high = 2.8;
  for (let step = 0; step < 50; step++) {
    const cell = (low + high) / 2;
    gassing(prepared, 6 * cell, gas);
    if (gas.current < wanted) low = cell;
    else high = cell;
  }
  return (low + high) / 2;
}

it.each([0.5, 1, 2])(
  '[common practice, −3 to −6 mV/K per cell] compensation is what keeps a flooded cell gassing at %d A',
  (current) => {
    for (const [cold, warm] of [
      [10, 25],
      [25, 40],
    ] as const) {
      const slope = (voltageFor(current, warm + 273.15) - voltageFor(current, cold + 273.15)) / (warm - cold);
      expect(slope).toBeGreaterThan(-0.006);
      expect(slope).toBeLessThan(-0.003);
    }
  },
);
