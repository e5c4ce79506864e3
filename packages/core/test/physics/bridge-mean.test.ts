import { expect, it } from 'vitest';

import { alternatorFlux } from '../../src/physics/alternator.ts';
import { openExcitationVoltage } from '../../src/physics/excitation.ts';
import { machineRivas, perMinute } from './machines.ts';

it('[definition] a three-phase bridge gives 1.3505 times the line rms, 0.9549 times its peak, less two diodes', () => {
  for (const revolutions of [1000, 6000]) {
    const speed = perMinute(revolutions);
    const linePeak = Math.sqrt(3) * machineRivas.polePairs * speed * alternatorFlux(machineRivas, 2);
    // Two drops of 0.7 V (textbook, from memory).
    const mean = openExcitationVoltage(machineRivas, speed, 2) + 1.4;
    expect(mean / (linePeak / Math.SQRT2)).toBeCloseTo(1.3505, 4);
    expect(mean / linePeak).toBeCloseTo(0.9549, 4);
  }
});
