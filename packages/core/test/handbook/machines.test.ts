import { describe, expect, it } from 'vitest';
import { acceptanceIds, acceptanceLimit, acceptanceOf } from '../../src/handbook/acceptance.ts';
import {
  alternatorRatingForBank,
  baselineEfficiencyEU,
  currentPerHorsepower,
  designationOf,
  engineShareForOutput,
  shaftPowerForOutput,
  shaftPowerSaved,
  shopRule,
  standardTest,
  weightedEfficiencyEU,
} from '../../src/handbook/alternator-sizing.ts';
import {
  beltDeflection,
  beltDeflectionForce,
  beltElectricalPowerLimit,
  beltForOutput,
  beltPractice,
  beltSection,
  beltSectionNames,
} from '../../src/handbook/belts.ts';
import { fuelForLoad, fuelWithoutLoad } from '../../src/handbook/fuel.ts';
import {
  airDensity,
  alternatorCaseLimit,
  ambientFigures,
  hotAlternatorShare,
  insulationLifeRatio,
  shareOfFortyDegreeMachineAtFifty,
  thermalClassLimit,
  ventilationAirFlow,
} from '../../src/handbook/thermal.ts';
import { ampereHours, celsius, horsepower, inches, revolutionsPerMinute } from '../../src/units/index.ts';

describe('belts', () => {
  it.each([
    ['v-10', 70, 80],
    ['v-13', 100, 110],
    ['two-v-13', 190, 200],
    ['ribbed-6', 150, 200],
    ['ribbed-8', 220, 270],
  ] as const)('[common practice] %s carries %d to %d A at 14 V', (name, low, high) => {
    const section = beltSection(name);
    expect(section.current).toEqual([low, high]);
    expect(section.currentCitation.seen).toBe('C');
    expect(beltElectricalPowerLimit(name).value).toBe(high * 14);
  });

  it('[common practice] 140 A at 14 V is beyond one 13 mm belt and within six ribs; half the amps at 28 V is the same', () => {
    expect(beltForOutput('v-13', 140 * 14)).toMatchObject({
      verdict: 'beyond',
      enough: ['two-v-13', 'ribbed-6', 'ribbed-8'],
    });
    expect(beltForOutput('ribbed-6', 70 * 28).verdict).toBe('within');
    expect(beltForOutput('v-13', 105 * 14)).toMatchObject({ verdict: 'near' });
    expect(beltForOutput('v-13', 140 * 14).margin).toBeLessThan(0);
  });

  it('[ISO2790] [SAEJ1459] V grooves 36°, ribbed 40°', () => {
    expect(
      beltSectionNames.map((name) => Math.round((beltSection(name).grooveAngle * 180) / Math.PI)),
    ).toEqual([36, 36, 36, 40, 40]);
    expect(beltSection('ribbed-6').width).toBeCloseTo(3.56e-3, 9);
    expect(beltSection('v-10').leastDiameter).toBeCloseTo(inches(2.4), 9);
    expect(beltSection('v-13').leastDiameter).toBeCloseTo(inches(3), 9);
    // SAE J636: 0.380 in is about 10 mm and 0.500 in about 13 mm.
    expect(Math.abs(beltSection('v-10').width / inches(0.38) - 1)).toBeLessThan(0.04);
    expect(Math.abs(beltSection('v-13').width / inches(0.5) - 1)).toBeLessThan(0.04);
    expect(beltSection('v-10').leastDiameterCitation).toMatchObject({ seen: 'M', confidence: 'low' });
    expect(beltSection('ribbed-6').leastDiameter).toBeUndefined();
  });

  it('[PMM, fig. 7-14] deflection is 1/64 in per inch of span; then T is 16 F by statics', () => {
    expect(beltDeflection(inches(16)).value).toBeCloseTo(inches(0.25), 9);
    // A string with a load F at mid-span and sag s: F = 4 T s / span exactly for small s.
    const tension = 400;
    const sagPerSpan = 1 / 64;
    const exact = 4 * tension * (sagPerSpan / Math.sqrt(1 + 4 * sagPerSpan ** 2));
    expect(beltDeflectionForce(tension).value / exact).toBeCloseTo(1, 3); // small-angle error is 0.05 %
  });

  it.each([
    [34, 3.42, 0.15],
    [36, 3.236, 0.158],
    [38, 3.072, 0.167],
  ])(
    '[SHIG, chapter 17] groove of %d°: wedging %d, the fitted 0.5123 is a true friction of %d',
    (degrees, wedge, friction) => {
      const half = (degrees * Math.PI) / 360;
      expect(1 / Math.sin(half)).toBeCloseTo(wedge, 3);
      expect(beltPractice.effectiveFriction * Math.sin(half)).toBeCloseTo(friction, 3);
    },
  );

  it('[common practice] [ISO9982] [IP26, from memory] seating, efficiency and power of a rib', () => {
    expect(beltPractice.retensionAfter).toEqual([1800, 3600]);
    expect(beltPractice.newBeltTensionRatio).toEqual([1.3, 1.5]);
    expect(beltPractice.ribbedEfficiency).toEqual([0.97, 0.98]);
    // A rib's power is doubtful: six ribs of it carry 4.8 to 9 kW, and 150 to 200 A at 14 V need 4.2 to 5.6 kW at 50 %.
    expect(beltPractice.powerPerRib).toEqual([800, 1500]);
    for (const name of ['ribbed-6', 'ribbed-8'] as const) {
      const { current, count } = beltSection(name);
      expect((current[1] * 14) / 0.5).toBeLessThan(count * beltPractice.powerPerRib[1]!);
    }
  });
});

describe('heat', () => {
  it.each([
    ['A', 105],
    ['E', 120],
    ['B', 130],
    ['F', 155],
    ['H', 180],
    ['N', 200],
  ] as const)('[IEC60085, from memory] class %s ends at %d °C', (thermalClass, limit) => {
    expect(thermalClassLimit(thermalClass).value).toBeCloseTo(celsius(limit), 9);
  });

  it('[CFR46, 183.320(b)] a 40 °C machine gives 80 % at 50 °C', () => {
    expect(shareOfFortyDegreeMachineAtFifty.value).toBe(0.8);
    expect(shareOfFortyDegreeMachineAtFifty.citation.seen).toBe('S');
  });

  it('[MONTSINGER, from memory] ten kelvin halve the life of insulation', () => {
    expect(insulationLifeRatio(10)).toMatchObject({ typical: 0.5 });
    const cooler = insulationLifeRatio(-10);
    expect(cooler.typical).toBe(2);
    expect(cooler.low).toBeLessThan(cooler.typical);
    expect(cooler.high).toBeGreaterThan(cooler.typical);
  });

  it('[TEXTBOOK] air: 1.204 kg/m³ at 20 °C; 1 kW raises 0.0826 m³/s by 10 K', () => {
    expect(airDensity(293.15)).toBeCloseTo(1.204, 3);
    // 1000 / (1.204 · 1006 · 10) by hand
    expect(ventilationAirFlow({ heat: 1000, rise: 10 }).value).toBeCloseTo(0.0826, 4);
    // The US trade form of the same, V[cfm] = 3.16 · P[W] / ΔT[°F], is common practice for standard air; 1 % for its rounding.
    const cfm =
      ventilationAirFlow({ heat: 1000, rise: 10, inletTemperature: celsius(21) }).value / 4.719474432e-4;
    expect(Math.abs(cfm / ((3.16 * 1000) / 18) - 1)).toBeLessThan(0.01);
  });

  it('[common practice] the hot share of an alternator, and where a heat-limited regulator holds its case', () => {
    expect(hotAlternatorShare).toMatchObject({ low: 0.75, high: 0.9, citation: { seen: 'C' } });
    expect(alternatorCaseLimit.low).toBeCloseTo(celsius(100), 9);
    expect(alternatorCaseLimit.high).toBeCloseTo(celsius(110), 9);
  });

  it('[law] ambient figures: every one names its source', () => {
    expect(ambientFigures.map((figure) => Math.round(figure.temperature - 273.15))).toEqual([
      30, 50, 60, 50, 45, 23,
    ]);
    for (const figure of ambientFigures) expect(figure.citation.source).not.toBe('');
  });
});

describe('fuel', () => {
  it('[white paper, second-hand] an engine of 40 %, belt of 98 % and alternator of 55 %: 21 % of the fuel arrives', () => {
    // Diesel 42.5 MJ/kg and 0.84 kg/L, from memory: 35.7 MJ/L.
    const engine = 1 / (fuelForLoad.value * 35.7e9);
    expect(engine).toBeCloseTo(0.4, 2);
    // 0.003: 0.40 is printed to two digits.
    expect(Math.abs(engine * 0.98 * 0.55 - 0.2156)).toBeLessThan(0.003);
  });

  it('[common practice, from memory] a 22 kW engine idling takes about a third of a litre an hour', () => {
    const engine = { ratedPower: 22000, ratedSpeed: revolutionsPerMinute(3000) };
    const litresPerHour = fuelWithoutLoad(engine, revolutionsPerMinute(800)).value * 3600 * 1000;
    expect(Math.abs(litresPerHour - 1 / 3)).toBeLessThan(0.03);
  });
});

describe('acceptance', () => {
  it.each([
    ['positive-path-at-20A', undefined, 0.7, 'NAVED', 'S'],
    ['joint', undefined, 0.1, 'NAVED', 'S'],
    ['ground-path-joint', undefined, 0.1, 'NAVED', 'S'],
    ['system-drop-at-10A', undefined, 0.3, 'TM', 'S'],
    ['charging-voltage', 13, 15, 'TM', 'S'],
    ['overvoltage', undefined, 16, 'NAVED', 'S'],
    ['full-field', undefined, 16, 'COMMON', 'C'],
    ['rated-output', 0.9, 1.1, 'NAVED', 'S'],
    ['ripple-good', undefined, 0.1, 'COMMON', 'C'],
    ['ripple-suspect', undefined, 0.5, 'COMMON', 'C'],
    ['diode-forward', 0.4, 0.7, 'TEXTBOOK', 'M'],
    ['rotor', 2, 6, 'COMMON', 'C'],
    ['rotor-to-shaft', 1e6, undefined, 'COMMON', 'C'],
    ['ground-path', undefined, 0.2, 'COMMON', 'C'],
    ['positive-path', undefined, 0.5, 'COMMON', 'C'],
    ['cable', undefined, 0.2, 'COMMON', 'C'],
    ['tap-at-rest', undefined, 0.05, 'TM', 'S'],
    ['ripple-ships', undefined, 0.1, 'IACSE5', 'M'],
    ['ripple-battery-maker', undefined, 0.015, 'IEEE1188', 'M'],
  ])('[as printed] %s lies from %s to %s, by %s, marked %s', (id, least, most, source, seen) => {
    expect(acceptanceLimit(id, 12)).toMatchObject({ least, most, citation: { source, seen } });
  });

  it('[common practice] full field stops at 32 V on 24 V, with its caution', () => {
    const limit = acceptanceLimit('full-field', 24);
    expect(limit.most).toBe(32);
    expect(limit.caution).toMatch(/Seconds only/);
  });

  it('[limit] a joint may drop no more on 24 V, a 24 V rotor has its own band, and doubling is marked as ours', () => {
    expect(acceptanceLimit('joint', 24)).toMatchObject({ most: 0.1, citation: { seen: 'S' } });
    expect(acceptanceLimit('rotor', 24)).toMatchObject({ least: 8, most: 15 });
    expect(acceptanceLimit('charging-voltage', 24)).toMatchObject({
      least: 26,
      most: 30,
      citation: { seen: 'D' },
    });
  });

  it('[limit] readings are judged with their margin', () => {
    expect(acceptanceOf('joint', 0.05, 12)).toMatchObject({ kind: 'within', margin: 0.5 });
    expect(acceptanceOf('joint', 0.25, 12).kind).toBe('above');
    expect(acceptanceOf('charging-voltage', 12.6, 12).kind).toBe('below');
    expect(() => acceptanceLimit('joints', 12)).toThrow(/"joints" is not one of/);
    expect(() => acceptanceOf('joint', NaN, 12)).toThrow(/reading NaN/);
  });

  it('[law] every limit bounds something and has a known dimension', () => {
    for (const id of acceptanceIds) {
      const limit = acceptanceLimit(id, 12);
      expect(limit.least ?? limit.most, id).toBeDefined();
      if (limit.least !== undefined && limit.most !== undefined) expect(limit.least).toBeLessThan(limit.most);
    }
  });
});

describe('alternator', () => {
  it.each([
    [100, 14, 0.55, 2545, 3.41],
    [100, 14, 0.5, 2800, 3.75],
    [100, 28, 0.55, 5091, 6.83],
  ])('[law] %d A at %d V and efficiency %d takes %d W, %d hp', (current, voltage, efficiency, watts, hp) => {
    const shaft = shaftPowerForOutput({ current, voltage, efficiency }).value;
    expect(Math.abs(shaft - watts)).toBeLessThan(0.6);
    expect(shaft / horsepower(1)).toBeCloseTo(hp, 2);
  });

  it('[law] torque at the shaft: 4.05 N·m at 6000, 8.10 N·m at 3000 min⁻¹', () => {
    const shaft = shaftPowerForOutput({ current: 100, voltage: 14, efficiency: 0.55 }).value;
    expect(shaft / revolutionsPerMinute(6000)).toBeCloseTo(4.05, 2);
    expect(shaft / revolutionsPerMinute(3000)).toBeCloseTo(8.1, 2);
  });

  it('[law] amps per horsepower, and what the shop rule of 25 A implies', () => {
    expect(currentPerHorsepower(14, 0.55)).toBeCloseTo(29.3, 1);
    expect(currentPerHorsepower(14, 0.5)).toBeCloseTo(26.6, 1);
    expect(currentPerHorsepower(28, 0.55)).toBeCloseTo(14.6, 1);
    expect(14 / shopRule.powerPerAmpere).toBeCloseTo(0.47, 2);
  });

  it('[EU785] baseline 67 %; 750 W at 67 % against 80 % saves 181.9 W', () => {
    expect(baselineEfficiencyEU.value).toBe(0.67);
    expect(shaftPowerSaved(750, 0.67, 0.8)).toBeCloseTo(181.9, 1);
    // Weights 0.25, 0.40, 0.25, 0.10 as printed: a machine that differs at one point shows each alone.
    const base = { rpm1800: 0, rpm3000: 0, rpm6000: 0, rpm10000: 0 };
    expect(weightedEfficiencyEU({ ...base, rpm3000: 0.5 })).toBeCloseTo(0.2, 12);
    expect(weightedEfficiencyEU({ rpm1800: 0.7, rpm3000: 0.7, rpm6000: 0.7, rpm10000: 0.7 })).toBeCloseTo(
      0.7,
      12,
    );
    expect(() => weightedEfficiencyEU({ ...base, rpm3000: 67 })).toThrow(/rpm3000 67/);
  });

  it('[ISO8854, from memory] test speeds and voltages; designation', () => {
    expect(standardTest.ratedSpeed).toBeCloseTo(revolutionsPerMinute(6000), 9);
    expect(standardTest.lowSpeed1988).toBeCloseTo(revolutionsPerMinute(1500), 9);
    expect(standardTest.lowSpeed2012).toBeCloseTo(revolutionsPerMinute(1800), 9);
    expect(standardTest.testVoltage).toEqual({ 12: 13.5, 24: 27 });
    expect(designationOf('70/140 A 14 V')).toEqual({ lowSpeedCurrent: 70, ratedCurrent: 140, voltage: 14 });
    expect(designationOf('14V 90A')).toBeUndefined();
  });

  it('[common practice] a 400 Ah flooded bank with 15 A of loads wants 73 to 128 A', () => {
    // (0.10 · 400 + 15) / 0.75 and (0.25 · 400 + 15) / 0.90
    const window = alternatorRatingForBank({ chemistry: 'flooded', capacity: ampereHours(400), loads: 15 });
    expect(window.least.value).toBeCloseTo(73.3, 1);
    expect(window.most.value).toBeCloseTo(127.8, 1);
  });

  it('[law] share of engine power and what is left', () => {
    const share = engineShareForOutput({ current: 100, voltage: 14, efficiency: 0.5, powerAvailable: 7000 });
    expect(share.value).toBeCloseTo(0.4, 12);
    expect(share.margin).toBeCloseTo(0.6, 12);
  });
});
