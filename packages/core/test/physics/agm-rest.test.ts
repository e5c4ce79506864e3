import { expect, test } from 'vitest';

import { advanceBattery, prepareBattery, restedState, terminalVoltage } from '../../src/physics/battery.ts';
import { chargeRun, lawOf } from './charge-run.ts';

test('[TM 9-6115-730-24; TB 9-6140-252-13] an AGM charged below 1 A for an hour rests at 12.8 to 13.0 V after 3 h and after 8 h', () => {
  const law = lawOf({ chemistry: 'agm' });
  const state = restedState(0.5);
  let below = 0;
  const points = chargeRun(law, state, 25, 14.4, ({ totalCurrent }) => {
    below = totalCurrent < 1 ? below + 60 : 0;
    return below >= 3600;
  });
  // Ended by its amps, not by the clock.
  expect(points.at(-1)?.totalCurrent).toBeLessThan(1);
  const out = { voltage: 0, dByCurrent: 0 };
  for (const more of [3, 5]) {
    advanceBattery(law, state, 0, 0, more * 3600);
    terminalVoltage(prepareBattery(law, state, 0), 0, out);
    expect(out.voltage).toBeGreaterThan(12.8);
    expect(out.voltage).toBeLessThan(13.0);
  }
});
