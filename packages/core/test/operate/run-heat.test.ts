import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate } from '../../src/boat/index.ts';
import { windingAfter, windingNodes } from '../../src/operate/run-heat.ts';
import { coolingResistance } from '../../src/physics/index.ts';

const RPM = (2 * Math.PI) / 60;

describe('heat of a run', () => {
  it('[law] heat made is heat kept and heat given off, over any step', () => {
    const [node] = windingNodes(boatAt(boatFromTemplate('one-battery')));
    const celsius = (low: number, high: number) =>
      fc.double({ min: 273 + low, max: 273 + high, noNaN: true });
    fc.assert(
      fc.property(
        celsius(0, 150),
        celsius(0, 80),
        celsius(0, 80),
        fc.double({ min: 0, max: 1500, noNaN: true }),
        fc.double({ min: 0, max: 1500, noNaN: true }),
        fc.double({ min: 1, max: 7200, noNaN: true }),
        fc.double({ min: 500, max: 8000, noNaN: true }),
        (start, space0, space1, heat0, heat1, step, rpm) => {
          const speed = rpm * RPM;
          const resistance = coolingResistance(node!.node, speed, node!.dust);
          const at = (time: number): number => {
            const share = time / step;
            const straight = (from: number, to: number): number => from + (to - from) * share;
            return windingAfter(
              node!,
              start,
              { speed, space: [space0, straight(space0, space1)], heat: [heat0, straight(heat0, heat1)] },
              time,
            );
          };
          // Given off: (T − T_space) / R summed by Simpson's rule over the temperatures between.
          const pieces = 200;
          let given = 0;
          for (let k = 0; k <= pieces; k++) {
            const time = (step * k) / pieces;
            const weight = k === 0 || k === pieces ? 1 : k % 2 === 1 ? 4 : 2;
            const space = space0 + ((space1 - space0) * k) / pieces;
            const now = time === 0 ? start : at(time);
            given += (weight * (now - space)) / resistance;
          }
          given *= step / pieces / 3;
          const made = ((heat0 + heat1) / 2) * step;
          const kept = node!.node.capacity * (at(step) - start);
          // 0.1 % of what moved: Simpson over steps of up to a seventh of the time constant.
          const moved = made + Math.abs(kept) + Math.abs(given) + 1;
          expect(Math.abs(made - kept - given) / moved).toBeLessThan(1e-3);
        },
      ),
      { seed: 6, numRuns: 60 },
    );
  });
});
