import { describe, expect, it } from 'vitest';
import {
  ampacityAWG,
  ampacityMetric,
  bundleFactor,
  deratingSquareRoot,
  insulationClasses,
  leastConductors,
  type InsulationClass,
} from '../../src/handbook/ampacity.ts';
import { celsius, squareMillimetres } from '../../src/units/index.ts';

const open = { engineSpace: false, bundled: false };

describe('AWG', () => {
  // As printed in 33 CFR 183.425 Table 5.
  const printed: Record<number, number[]> = {
    18: [10, 10, 15, 20, 20, 25, 25],
    16: [15, 15, 20, 25, 25, 30, 35],
    14: [20, 20, 25, 30, 35, 40, 45],
    12: [25, 25, 35, 40, 45, 50, 55],
    10: [40, 40, 50, 55, 60, 70, 70],
    8: [55, 65, 70, 70, 80, 90, 100],
    6: [80, 95, 100, 100, 120, 125, 135],
    4: [105, 125, 130, 135, 160, 170, 180],
    3: [120, 145, 150, 155, 180, 195, 210],
    2: [140, 170, 175, 180, 210, 225, 240],
    1: [165, 195, 210, 210, 245, 265, 280],
    0: [195, 230, 245, 245, 285, 305, 325],
    [-1]: [225, 265, 285, 285, 330, 355, 370],
    [-2]: [260, 310, 330, 330, 385, 410, 430],
    [-3]: [300, 360, 385, 385, 445, 475, 510],
  };
  it.each(Object.entries(printed))('[CFR425, table 5] gauge %s as printed', (gauge, row) => {
    const found = insulationClasses.map(
      (insulationClass) => ampacityAWG(Number(gauge), { ...open, insulationClass })!.value,
    );
    expect(found).toEqual(row);
  });

  const factors: [InsulationClass, number][] = [
    [60, 0.58],
    [75, 0.75],
    [80, 0.78],
    [90, 0.82],
    [105, 0.85],
    [125, 0.89],
    [200, 1],
  ];
  it.each(factors)(
    '[CFR425, table 5 note 1, from memory] engine-space factor of %d °C wire is %d',
    (insulationClass, factor) => {
      const inside = ampacityAWG(2, { insulationClass, engineSpace: true, bundled: false })!;
      expect(inside.engineSpaceFactor).toBe(factor);
      expect(inside.value).toBeCloseTo(inside.tableCurrent * factor, 9);
    },
  );

  it('[law] the square-root law gives the printed factors to rounding', () => {
    // Traps: 80 °C gives 0.7746 (printed 0.78, rounded twice), 105 °C 0.856 (printed 0.85), 200 °C 0.939 (printed 1.00).
    const traps: InsulationClass[] = [80, 105, 200];
    for (const [insulationClass, factor] of factors.filter(([name]) => !traps.includes(name)))
      expect(Math.abs(deratingSquareRoot(celsius(insulationClass), celsius(50)) - factor)).toBeLessThan(
        0.0051,
      );
    expect(deratingSquareRoot(celsius(80), celsius(50))).toBeCloseTo(0.7746, 4);
    expect(deratingSquareRoot(celsius(105), celsius(50))).toBeCloseTo(0.856, 3);
    expect(deratingSquareRoot(celsius(200), celsius(50))).toBeCloseTo(0.939, 3);
    expect(deratingSquareRoot(celsius(90), celsius(95))).toBe(0);
  });

  it('[E11, table VI] a d.c. bundle of more than 24 in carries 70 %, engine space on top', () => {
    const both = ampacityAWG(4, { insulationClass: 105, engineSpace: true, bundled: true })!;
    expect(both.value).toBeCloseTo(160 * 0.85 * 0.7, 9);
    expect(both.citations.map((citation) => citation.source)).toEqual(['CFR425', 'CFR425', 'E11']);
    expect(both.citations[2]!.seen).toBe('S2');
  });

  it('[limit] a gauge that is not listed has no figure', () => {
    expect(ampacityAWG(5, { ...open, insulationClass: 105 })).toBeUndefined();
  });
});

describe('bundles', () => {
  it('[CFR435] trap: count-stepped factors belong to 50 V and more; under it the flat 0.7', () => {
    expect(bundleFactor(7, 'direct-current').factor).toBe(0.7);
    expect([1, 2, 3, 4, 6, 7, 24, 25].map((n) => bundleFactor(n, 'fifty-volts-up').factor)).toEqual([
      1, 1, 0.7, 0.6, 0.6, 0.5, 0.5, 0.4,
    ]);
    expect(bundleFactor(1, 'direct-current').factor).toBe(1);
    // [ISO13297], from memory, low confidence.
    expect([3, 4, 6, 7, 24, 25].map((n) => bundleFactor(n, 'iso').factor)).toEqual([
      1, 0.7, 0.7, 0.6, 0.6, 0.5,
    ]);
    expect(() => bundleFactor(0, 'iso')).toThrow(/conductors 0/);
  });
});

describe('metric', () => {
  it('[ISO13297, from memory] every answer says that the table was not seen', () => {
    const answer = ampacityMetric(squareMillimetres(70), { ...open, insulationClass: 105 })!;
    expect(answer.value).toBe(330);
    expect(answer.citation).toMatchObject({ source: 'ISO13297', seen: 'M', confidence: 'medium' });
    expect(answer.citation.note).toMatch(/verify/);
  });

  // Columns 60, 70, 85 to 90, 105, 125 and 200 °C; 75 and 80 °C wire takes the 70 column.
  it.each([
    [0.75, 6, 10, 12, 16, 20, 25],
    [1, 8, 14, 18, 20, 25, 35],
    [1.5, 12, 18, 21, 25, 30, 40],
    [2.5, 17, 25, 30, 35, 40, 45],
    [4, 22, 35, 40, 45, 50, 55],
    [6, 29, 45, 50, 60, 70, 75],
    [10, 40, 65, 70, 90, 100, 120],
    [16, 54, 90, 100, 130, 150, 170],
    [25, 71, 120, 140, 170, 185, 200],
    [35, 87, 160, 185, 210, 225, 240],
    [50, 105, 210, 230, 270, 300, 325],
    [70, 135, 265, 285, 330, 360, 375],
    [95, 165, 310, 330, 390, 410, 430],
    [120, 190, 360, 400, 450, 480, 520],
    [150, 220, 380, 430, 475, 520, 560],
  ])('[ISO13297, from memory, not seen] %d mm²', (mm2, at60, at70, at90, at105, at125, at200) => {
    const found = insulationClasses.map(
      (insulationClass) => ampacityMetric(squareMillimetres(mm2), { ...open, insulationClass })!.value,
    );
    expect(found).toEqual([at60, at70, at70, at90, at105, at125, at200]);
  });

  it('[law] metric and AWG tables agree where sizes are close', () => {
    // 2/0 AWG is 67.4 mm² and 70 mm² carries 330 A at 105 °C like it; 33.6 and 35 mm² both 210 A. One column step
    // (10 %) is the most that two tables of the same physics should differ; classes below 75 °C differ more (not compared).
    for (const [gauge, mm2] of [
      [-1, 70],
      [2, 35],
      [10, 6],
    ] as const)
      for (const insulationClass of [105, 125] as const) {
        const awg = ampacityAWG(gauge, { ...open, insulationClass })!.value;
        const metric = ampacityMetric(squareMillimetres(mm2), { ...open, insulationClass })!.value;
        expect(Math.abs(metric / awg - 1)).toBeLessThan(0.1);
      }
  });

  it('[ISO13297, from memory] trap: the "60 °C" engine-room factors follow the square-root law at 50 °C', () => {
    for (const [insulationClass, factor] of [
      [75, 0.75],
      [90, 0.82],
      [105, 0.86],
      [125, 0.89],
    ] as const) {
      const inside = ampacityMetric(squareMillimetres(35), {
        insulationClass,
        engineSpace: true,
        bundled: false,
      })!;
      expect(inside.engineSpaceFactor).toBe(factor);
    }
    expect(deratingSquareRoot(celsius(105), celsius(50))).toBeCloseTo(0.86, 2);
    expect(deratingSquareRoot(celsius(105), celsius(60))).toBeCloseTo(0.77, 2);
  });

  it('[law] more copper or better insulation never carries less', () => {
    let previous = 0;
    for (const mm2 of [0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150]) {
      const row = insulationClasses.map(
        (insulationClass) => ampacityMetric(squareMillimetres(mm2), { ...open, insulationClass })!.value,
      );
      expect([...row].sort((a, b) => a - b)).toEqual(row);
      expect(row[4]!).toBeGreaterThan(previous);
      previous = row[4]!;
    }
  });
});

it('[CFR425] [ISO10133] thinnest conductors allowed, and their supports', () => {
  expect(leastConductors.singleGauge).toBe(16);
  expect(leastConductors.sheathedGauge).toBe(18);
  expect(leastConductors.singleArea).toBeCloseTo(1e-6, 12);
  expect(leastConductors.sheathedArea).toBeCloseTo(0.75e-6, 12);
  // Supports of conductors, and of battery leads to the disconnect switch.
  expect([leastConductors.supportSpacing, leastConductors.batteryLeadSpacing]).toEqual([0.45, 0.3]);
});
