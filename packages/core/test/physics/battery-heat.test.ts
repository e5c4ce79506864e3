import { describe, expect, it } from 'vitest';
import { batteryNode } from '../../src/physics/index.ts';

const AMP_HOUR = 3600;
const HOUR = 3600;

describe('warmth of a bank', () => {
  it('[common practice] a 12 V bank of 100 Ah weighs 25 to 35 kg, of LiFePO4 10 to 15 kg', () => {
    // Specific heats: flooded 1000, LiFePO4 1000 J/(kg·K) (from memory).
    const lead = batteryNode('flooded', 6, 100 * AMP_HOUR).capacity / 1000;
    const lithium = batteryNode('lifepo4', 4, 100 * AMP_HOUR).capacity / 1000;
    expect(lead).toBeGreaterThan(25);
    expect(lead).toBeLessThan(36);
    expect(lithium).toBeGreaterThan(10);
    expect(lithium).toBeLessThan(15);
  });

  it('[common practice] a battery takes hours to follow its place: a night, not minutes nor days', () => {
    for (const chemistry of ['flooded', 'agm', 'gel', 'lifepo4'] as const) {
      for (const ampHours of [80, 200, 600]) {
        const { capacity, conductance } = batteryNode(
          chemistry,
          chemistry === 'lifepo4' ? 4 : 6,
          ampHours * AMP_HOUR,
        );
        expect(capacity / conductance / HOUR).toBeGreaterThan(1);
        expect(capacity / conductance / HOUR).toBeLessThan(12);
      }
    }
  });

  it('[law] a body of eight times the volume holds eight times the heat and has four times the surface', () => {
    const one = batteryNode('agm', 6, 100 * AMP_HOUR);
    const eight = batteryNode('agm', 6, 800 * AMP_HOUR);
    expect(eight.capacity / one.capacity).toBeCloseTo(8, 9);
    expect(eight.conductance / one.conductance).toBeCloseTo(4, 9);
    // 24 V of half the ampere-hours is the same bank.
    expect(batteryNode('agm', 12, 50 * AMP_HOUR)).toEqual(one);
  });

  it("[limit] a bank without charge or cells is a caller's mistake", () => {
    expect(() => batteryNode('agm', 6, 0)).toThrow(/charge/);
    expect(() => batteryNode('agm', 0, 100)).toThrow(/cells/);
  });
});
