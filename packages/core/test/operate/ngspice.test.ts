import { expect, test } from 'vitest';
import { boatAt } from '../../src/boat/index.ts';
import { Operator } from '../../src/operate/index.ts';
import { expectSameAsNgspice, exportedPoint } from '../oracle/operating-points.ts';
import { randomFleets } from './random-boat.ts';

const BOATS_EACH = 13; // 24 fleets: 312 boats

test('[rival] ngspice finds the same operating points for 312 random boats', { timeout: 300_000 }, () => {
  const exported = randomFleets(BOATS_EACH, 4100).flatMap(({ name, description, conditions, boats }) => {
    const operator = new Operator(boatAt(description));
    return boats.map(({ name: fault, boat }, b) => {
      const condition = conditions[b % conditions.length]!;
      const words = `${name}, ${fault}, ${condition.engine} ${condition.sinceStart} s`;
      return exportedPoint(operator, boat, condition, words);
    });
  });
  expect(exported.length).toBeGreaterThanOrEqual(300);
  expectSameAsNgspice(exported);
});
