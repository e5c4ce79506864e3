import { describe, expect, it } from 'vitest';
import {
  aircraftWire,
  conductorResistance,
  conductorTemperature,
  copperResistanceRatio,
  copperResistanceRatioIEC60228,
  copperResistanceRatioInferredZero,
  gaugesInUse,
  iec60228MaximumResistance,
  lengthAllowedWhenHot,
  metricSizesInUse,
  necStrandedResistance,
  nextGaugeUp,
  nextMetricSizeUp,
  saeMinimumArea,
} from '../../src/handbook/conductors.ts';
import {
  areaOfGauge,
  celsius,
  circularMils,
  diameterOfGauge,
  feet,
  inches,
  squareMillimetres,
} from '../../src/units/index.ts';

const thousandFeet = feet(1000);

describe('gauge table', () => {
  // [gauge, inch, mm, mm², cmil, Ω/kft and mΩ/m at 20 °C]: the formula of ASTM B258 with copper of IEC 60028.
  const rows: [number, number, number, number, number, number, number][] = [
    [18, 0.0403, 1.0237, 0.823, 1624, 6.385, 20.948],
    [16, 0.0508, 1.2908, 1.3087, 2583, 4.016, 13.174],
    [14, 0.0641, 1.6277, 2.0809, 4107, 2.525, 8.285],
    [12, 0.0808, 2.0525, 3.3088, 6530, 1.588, 5.211],
    [10, 0.1019, 2.5882, 5.2612, 10383, 0.9988, 3.277],
    [8, 0.1285, 3.2636, 8.3656, 16510, 0.6282, 2.061],
    [6, 0.162, 4.1154, 13.302, 26251, 0.3951, 1.296],
    [4, 0.2043, 5.1894, 21.151, 41741, 0.2485, 0.8152],
    [3, 0.2294, 5.8273, 26.671, 52635, 0.197, 0.6464],
    [2, 0.2576, 6.5437, 33.631, 66371, 0.1563, 0.5127],
    [1, 0.2893, 7.3481, 42.408, 83693, 0.1239, 0.4066],
    [0, 0.3249, 8.2515, 53.475, 105535, 0.0983, 0.3224],
    [-1, 0.3648, 9.2658, 67.431, 133077, 0.0779, 0.2557],
    [-2, 0.4096, 10.405, 85.029, 167806, 0.0618, 0.2028],
    [-3, 0.46, 11.684, 107.22, 211600, 0.049, 0.1608],
  ];
  it.each(rows)('[ASTMB258, formula] gauge %d', (gauge, inch, mm, mm2, cmil, perThousandFeet, perMetre) => {
    const area = areaOfGauge(gauge);
    // Half a unit in the last printed digit: 0.0005/0.0403 at worst for inches, 1e-4 relative elsewhere.
    expect(diameterOfGauge(gauge) / inches(1)).toBeCloseTo(inch, 4);
    expect(Math.abs((diameterOfGauge(gauge) * 1e3) / mm - 1)).toBeLessThan(1e-4);
    expect(Math.abs((area * 1e6) / mm2 - 1)).toBeLessThan(1e-4);
    expect(Math.abs(area / circularMils(cmil) - 1)).toBeLessThan(3.1e-4);
    expect(Math.abs(conductorResistance({ area, length: thousandFeet }) - perThousandFeet)).toBeLessThan(
      perThousandFeet < 0.1 ? 5.1e-5 : 5.1e-4,
    );
    expect(Math.abs((conductorResistance({ area, length: 1 }) * 1e3) / perMetre - 1)).toBeLessThan(3e-4);
  });

  // NBS Handbook 100, from memory: four printed digits; the formula agrees within 0.02 %.
  it.each([
    [10, 0.9989],
    [12, 1.588],
    [4, 0.2485],
    [-3, 0.04901],
  ])('[NBS100, from memory] gauge %d has %d Ω per 1000 ft at 20 °C', (gauge, ohms) => {
    expect(
      Math.abs(conductorResistance({ area: areaOfGauge(gauge), length: thousandFeet }) / ohms - 1),
    ).toBeLessThan(2e-4);
  });

  it.each([
    [18, 7.95],
    [16, 4.99],
    [14, 3.14],
    [12, 1.98],
    [10, 1.24],
    [8, 0.778],
    [6, 0.491],
    [4, 0.308],
    [3, 0.245],
    [2, 0.194],
    [1, 0.154],
    [0, 0.122],
    [-1, 0.0967],
    [-2, 0.0766],
    [-3, 0.0608],
  ])('[NECT8, from memory] gauge %d, stranded, 75 °C: %d Ω per 1000 ft', (gauge, ohms) => {
    expect(necStrandedResistance(gauge)!.value * thousandFeet).toBeCloseTo(ohms, 9);
  });

  it('[NECT8, from memory] stranded wire at 75 °C has 1.018 to 1.025 times solid copper', () => {
    for (const gauge of gaugesInUse) {
      const solid = conductorResistance({ area: areaOfGauge(gauge), length: 1, temperature: celsius(75) });
      const ratio = necStrandedResistance(gauge)!.value / solid;
      // The band of the table itself; three printed digits allow 0.001 more each way.
      expect(ratio, `gauge ${gauge}`).toBeGreaterThan(1.016);
      expect(ratio, `gauge ${gauge}`).toBeLessThan(1.026);
    }
  });
});

describe('copper against temperature', () => {
  it.each([
    [50, 1.1179],
    [75, 1.2161],
    [110, 1.354],
  ])('[AC43] the 234.5 form at %d °C is %d', (temperature, ratio) => {
    // The last is printed to three decimals.
    expect(Math.abs(copperResistanceRatioInferredZero(celsius(temperature)) - ratio)).toBeLessThan(6e-4);
    // Two forms of one law: 1/0.00393 − 20 = 234.45.
    expect(Math.abs(copperResistanceRatio(celsius(temperature)) / ratio - 1)).toBeLessThan(5e-4);
  });

  it.each([
    [50, 0.893],
    [75, 0.82],
  ])('[IEC60228] factor to 20 °C at %d °C is printed as %d', (temperature, factor) => {
    expect(1 / copperResistanceRatioIEC60228(celsius(temperature))).toBeCloseTo(factor, 3);
  });

  it('[IEC60228] trap: its rounded form differs from the 234.5 form by 0.2 to 0.4 %', () => {
    const difference =
      copperResistanceRatioIEC60228(celsius(75)) / copperResistanceRatioInferredZero(celsius(75)) - 1;
    expect(difference).toBeGreaterThan(0.002);
    expect(difference).toBeLessThan(0.004);
  });

  it('[E11] trap: K = 10.75 Ω·cmil/ft is solid copper at about 29 °C, not hot copper', () => {
    const constantAt = (t: number) =>
      conductorResistance({ area: circularMils(1), length: feet(1), temperature: celsius(t) });
    for (const [t, k] of [
      [20, 10.371],
      [25, 10.575],
      [30, 10.779],
      [50, 11.594],
      [75, 12.613],
    ] as const)
      expect(Math.abs(constantAt(t) / k - 1)).toBeLessThan(2e-4);
    expect(constantAt(29)).toBeGreaterThan(10.7);
    expect(constantAt(29)).toBeLessThan(10.8);
  });
});

describe('IEC 60228', () => {
  it('[IEC60228] computed 20 °C resistance lies 0 to 10 % below the maxima of class 2', () => {
    for (const area of metricSizesInUse) {
      const maximum = iec60228MaximumResistance({ area, conductorClass: 2, tinned: false })!.value;
      const ratio = conductorResistance({ area, length: 1 }) / maximum;
      expect(ratio, `${area * 1e6} mm²`).toBeLessThanOrEqual(1);
      expect(ratio, `${area * 1e6} mm²`).toBeGreaterThan(0.88); // 50 mm² has 0.891: nominal area is a name, not a measure
    }
  });

  it.each([
    [0.5, 36.0, 36.7, 39.0, 40.1],
    [0.75, 24.5, 24.8, 26.0, 26.7],
    [1, 18.1, 18.2, 19.5, 20.0],
    [1.5, 12.1, 12.2, 13.3, 13.7],
    [2.5, 7.41, 7.56, 7.98, 8.21],
    [4, 4.61, 4.7, 4.95, 5.09],
    [6, 3.08, 3.11, 3.3, 3.39],
    [10, 1.83, 1.84, 1.91, 1.95],
    [16, 1.15, 1.16, 1.21, 1.24],
    [25, 0.727, 0.734, 0.78, 0.795],
    [35, 0.524, 0.529, 0.554, 0.565],
    [50, 0.387, 0.391, 0.386, 0.393],
    [70, 0.268, 0.27, 0.272, 0.277],
    [95, 0.193, 0.195, 0.206, 0.21],
    [120, 0.153, 0.154, 0.161, 0.164],
    [150, 0.124, 0.126, 0.129, 0.132],
  ])('[IEC60228] %d mm² as printed', (mm2, plain2, tinned2, plain5, tinned5) => {
    const perKilometre = (conductorClass: 2 | 5, tinned: boolean) =>
      iec60228MaximumResistance({ area: squareMillimetres(mm2), conductorClass, tinned })!.value * 1000;
    expect(perKilometre(2, false)).toBeCloseTo(plain2, 9);
    expect(perKilometre(2, true)).toBeCloseTo(tinned2, 9);
    expect(perKilometre(5, false)).toBeCloseTo(plain5, 9);
    expect(perKilometre(5, true)).toBeCloseTo(tinned5, 9);
  });

  it('[IEC60228] trap: 50 mm² class 5 is lower than class 2, as printed', () => {
    const of = (conductorClass: 2 | 5) =>
      iec60228MaximumResistance({ area: squareMillimetres(50), conductorClass, tinned: false })!.value;
    expect(of(5)).toBeLessThan(of(2));
  });

  it('[limit] a size that is not listed has no figure', () => {
    expect(
      iec60228MaximumResistance({ area: squareMillimetres(42), conductorClass: 2, tinned: false }),
    ).toBeUndefined();
  });
});

describe('FAA AC 43.13-1B', () => {
  // Worked examples of tables 11-7 and 11-8: Ω/ft · ft · A. Where the print is a misprint the arithmetic is tested.
  it.each([
    [6, 107, 20, 0.942],
    [4, 90, 20, 0.504],
    [12, 88, 20, 3.555], // printed 3.60
    [14, 100, 20, 6.12],
    [10, 39, 20, 0.98],
    [10, 19.5, 20, 0.491], // printed 0.366
    [10, 156, 20, 3.93],
    [10, 273, 20, 6.88],
  ])('[AC43, tables 11-7 and 11-8] No. %d, %d ft, %d A drops %d V', (gauge, lengthFeet, current, drop) => {
    // Half a unit in the last digit printed.
    expect(Math.abs(aircraftWire(gauge)!.resistance.value * feet(lengthFeet) * current - drop)).toBeLessThan(
      0.006,
    );
  });

  it.each([
    [18, 6.23, 1900],
    [16, 4.81, 2426],
    [14, 3.06, 3831],
    [12, 2.02, 5874],
    [10, 1.26, 9354],
    [8, 0.7, 16983],
    [6, 0.44, 26818],
    [4, 0.28, 42615],
    [2, 0.18, 66500],
    [1, 0.15, 81700],
    [0, 0.12, 104500],
    [-1, 0.09, 133000],
    [-2, 0.07, 166500],
    [-3, 0.06, 210900],
  ])('[AC43, table 11-9] gauge %d as printed: %d Ω per 1000 ft, %d cmil', (gauge, ohms, mils) => {
    const wire = aircraftWire(gauge)!;
    expect(wire.resistance.value * thousandFeet).toBeCloseTo(ohms, 9);
    expect(wire.area.value / circularMils(1)).toBeCloseTo(mils, 4);
    expect(wire.area.citation.seen).toBe('S');
    // Tinned stranded wire is never better than copper of its area; two printed digits round down by up to 8 %.
    expect(ohms / conductorResistance({ area: wire.area.value, length: thousandFeet })).toBeGreaterThan(0.92);
  });

  it('[AC43, p. 11-26] 50 ft, 20 A, 28 V, lasting: 1 V may be lost, so No. 8 and not No. 10', () => {
    const drop = (gauge: number) => aircraftWire(gauge)!.resistance.value * feet(50) * 20;
    expect(drop(8)).toBeLessThan(1);
    expect(drop(10)).toBeGreaterThan(1);
  });

  it('[limit] an aircraft size that is not listed has no figure', () =>
    expect(aircraftWire(5)).toBeUndefined());

  it('[AC43] hot copper shortens the run: 254.5/(234.5 + t)', () => {
    expect(lengthAllowedWhenHot(100, celsius(20))).toBeCloseTo(100, 9);
    expect(lengthAllowedWhenHot(100, celsius(75))).toBeCloseTo(100 / 1.2161, 1);
  });

  it('[AC43; formula from memory] conductor temperature runs from ambient to its rating', () => {
    const at = (current: number) =>
      conductorTemperature({ ambient: celsius(50), insulationRating: celsius(105), current, ampacity: 100 });
    expect(at(0)).toBeCloseTo(celsius(50), 9);
    expect(at(100)).toBeCloseTo(celsius(105), 9);
    expect(at(25)).toBeCloseTo(celsius(77.5), 9);
  });
});

describe('sizes', () => {
  it('[SAEJ1127, from memory] SAE wire of sizes 16 to 8 holds 9 to 11 % less copper than AWG', () => {
    for (const gauge of [16, 14, 12, 10, 8]) {
      const ratio = saeMinimumArea(gauge)!.value / areaOfGauge(gauge);
      expect(ratio).toBeGreaterThan(0.89);
      expect(ratio).toBeLessThan(0.91);
    }
  });

  it.each([
    [18, 1537, 0.946],
    [16, 2336, 0.904],
    [14, 3702, 0.901],
    [12, 5833, 0.893],
    [10, 9343, 0.9],
    [8, 14810, 0.897],
    [4, 37360, 0.895],
    [2, 62450, 0.941],
    [1, 77790, 0.929],
    [0, 98980, 0.938],
    [-1, 125100, 0.94],
    [-2, 158600, 0.945],
    [-3, 205500, 0.971],
  ])('[SAEJ1127, from memory] gauge %d holds at least %d cmil, %d of AWG', (gauge, mils, ratio) => {
    const area = saeMinimumArea(gauge)!.value;
    expect(area / circularMils(1)).toBeCloseTo(mils, 6);
    expect(area / areaOfGauge(gauge)).toBeCloseTo(ratio, 3);
    // Size 6 is out of line with its neighbours (0.987): marked, not asserted.
    expect(saeMinimumArea(6)!.citation.confidence).toBe('low');
  });

  it('[limit] next size up', () => {
    expect(nextGaugeUp(circularMils(6271))).toBe(12);
    expect(nextGaugeUp(areaOfGauge(-1))).toBe(-1);
    expect(nextGaugeUp(squareMillimetres(120))).toBeUndefined();
    expect(nextMetricSizeUp(squareMillimetres(36))! * 1e6).toBeCloseTo(50, 9);
    expect(nextMetricSizeUp(squareMillimetres(151))).toBeUndefined();
  });

  it("[limit] a caller's mistake throws", () => {
    expect(() => conductorResistance({ area: 0, length: 1 })).toThrow(/conductorResistance: area 0 m²/);
    expect(() => conductorResistance({ area: 1e-6, length: -1 })).toThrow(/length -1 m/);
  });
});
