import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  areaOfGauge,
  celsius,
  diameterOfGauge,
  dimensions,
  formatDuration,
  formatQuantity,
  formatRange,
  formatSideBySide,
  fromSI,
  gaugeLabel,
  gaugeNumber,
  gaugeOfArea,
  horsepower,
  nearestNames,
  parseQuantity,
  requireSI,
  squareMillimetres,
  toSI,
  usPreference,
  wireGauge,
  type Dimension,
} from '../../src/units/index.ts';

const allUnits = (Object.keys(dimensions) as Dimension[]).flatMap((dimension) =>
  dimensions[dimension].units.map((definition) => ({ dimension, unit: definition.unit })),
);

describe('conversion', () => {
  // Exact by definition (NIST SP 811, appendix B.8), so compared to 1e-12 relative: rounding of doubles only.
  it.each([
    [1, 'in', 'length', 0.0254],
    [1, 'ft', 'length', 0.3048],
    [1, 'lb', 'mass', 0.45359237],
    [1, 'lbf', 'force', 4.4482216152605],
    [1, 'hp', 'power', 745.69987158227],
    [1, 'lbf.ft', 'torque', 1.3558179483314],
    [1, 'Ah', 'charge', 3600],
    [60, 'rpm', 'speed', 2 * Math.PI],
    [212, 'degF', 'temperature', 373.15],
    [-40, 'degC', 'temperature', 233.15],
    [18, 'degF', 'temperatureDifference', 10],
    [1, 'cfm', 'volumeFlow', 4.719474432e-4],
    [1, 'gal', 'volume', 3.785411784e-3],
  ] as const)('[SI811, app. B] %d %s of %s is %d in SI', (value, unit, dimension, si) => {
    const result = toSI({ value, unit }, dimension);
    expect(result.kind).toBe('ok');
    expect(result.kind === 'ok' && Math.abs(result.value / si - 1)).toBeLessThan(1e-12);
  });

  it('[law] there and back changes nothing, for every unit of every dimension', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...allUnits),
        fc.double({ min: 0.001, max: 1000, noNaN: true }),
        ({ dimension, unit }, size) => {
          const value = unit === 'AWG' ? (size % 43) - 3 : size;
          const si = requireSI({ value, unit }, dimension);
          const back = fromSI(si, unit, dimension);
          // Offsets (°C, °F) lose digits against 273.15, so absolute 1e-9; otherwise a few units in the last place.
          expect(Math.abs(back.value - value)).toBeLessThan(1e-9 + 1e-12 * Math.abs(value));
          expect(back.unit).toBe(unit);
        },
      ),
      { seed: 20260101, numRuns: 500 },
    );
  });

  it('[law] what is shown can be typed again, to the digits shown', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...allUnits.filter(({ unit }) => unit !== 'AWG')),
        fc.double({ min: 1, max: 90000, noNaN: true }),
        ({ dimension, unit }, size) => {
          const si = requireSI({ value: size, unit }, dimension);
          const text = formatQuantity(si, dimension, { [dimension]: unit });
          const parsed = parseQuantity(text, dimension, unit);
          expect(parsed.kind, text).toBe('ok');
          // Three significant digits: half a unit in the third; whole degrees, V and rpm round to half a unit.
          if (parsed.kind === 'ok')
            expect(Math.abs(parsed.quantity.value - size)).toBeLessThanOrEqual(0.006 * size + 0.5);
        },
      ),
      { seed: 20260102, numRuns: 500 },
    );
  });

  it('[limit] an unknown unit comes back with what is allowed and what is near', () => {
    expect(toSI({ value: 3, unit: 'Vots' }, 'voltage')).toMatchObject({
      kind: 'unknown-unit',
      unit: 'Vots',
      allowed: ['V', 'mV'],
      nearest: ['V'],
    });
    expect(toSI({ value: 3, unit: 'mm2' }, 'length')).toMatchObject({ kind: 'unknown-unit' });
  });

  it.each([
    [NaN, 'V', 'voltage'],
    [-274, 'degC', 'temperature'],
    [-4, 'AWG', 'area'],
    [41, 'AWG', 'area'],
    [0, 'mm2', 'area'],
    [-1, 'ohm', 'resistance'],
  ] as const)('[limit] %d %s of %s is out of range', (value, unit, dimension) => {
    expect(toSI({ value, unit }, dimension).kind).toBe('out-of-range');
  });

  it("[limit] a caller's mistake throws and says what is allowed", () => {
    expect(() => fromSI(1, 'volts per hour', 'voltage')).toThrow(/fromSI.*V, mV/);
    expect(() => requireSI({ value: -300, unit: 'degC' }, 'temperature')).toThrow(/-300 degC.*at least 0 K/);
  });

  it('[limit] mΩ and MΩ stay apart, other units forgive capitals', () => {
    expect(requireSI({ value: 1, unit: 'mohm' }, 'resistance')).toBe(1e-3);
    expect(requireSI({ value: 1, unit: 'Mohm' }, 'resistance')).toBe(1e6);
    expect(toSI({ value: 1, unit: 'MOHM' }, 'resistance').kind).toBe('unknown-unit');
    expect(toSI({ value: 1, unit: 'AH' }, 'charge')).toEqual({ kind: 'ok', value: 3600 });
  });
});

describe('wire gauge', () => {
  // ASTM B258 by formula; printed to the digits given in the table, so half a unit of the last digit.
  it.each([
    [18, 1.0237, 0.823],
    [10, 2.5882, 5.2612],
    [6, 4.1154, 13.302],
    [0, 8.2515, 53.475],
    [-1, 9.2658, 67.431],
    [-3, 11.684, 107.22],
  ])('[ASTMB258] gauge %d is %d mm across and %d mm²', (gauge, diameter, area) => {
    expect(Math.abs(diameterOfGauge(gauge) * 1e3 - diameter)).toBeLessThan(0.0006);
    expect(Math.abs(areaOfGauge(gauge) * 1e6 - area)).toBeLessThan(0.006);
    expect(gaugeOfArea(areaOfGauge(gauge))).toBeCloseTo(gauge, 9);
  });

  it('[law] every gauge label reads back as its number', () => {
    for (let gauge = -3; gauge <= 40; gauge++) expect(gaugeNumber(gaugeLabel(gauge))).toBe(gauge);
    expect(gaugeNumber('0000')).toBe(-3);
    expect(gaugeNumber('5/0')).toBeUndefined();
  });
});

describe('typing', () => {
  it.each([
    ['2/0 AWG', 'area', undefined, wireGauge(-1)],
    ['2/0', 'area', undefined, wireGauge(-1)],
    ['AWG 4', 'area', undefined, wireGauge(4)],
    ['#6', 'area', undefined, wireGauge(6)],
    ['0000', 'area', 'AWG', wireGauge(-3)],
    ['70 mm2', 'area', undefined, squareMillimetres(70)],
    ['2,5 mm²', 'area', undefined, squareMillimetres(2.5)],
    ['13,4', 'voltage', undefined, 13.4],
    ['12,345 V', 'voltage', undefined, 12.345],
    ['−0.25V', 'voltage', undefined, -0.25],
    ['850 mV', 'voltage', undefined, 0.85],
    ['1 850 rpm', 'speed', undefined, (1850 * Math.PI) / 30],
    ['1,850 rpm', 'speed', undefined, (1850 * Math.PI) / 30],
    ['35 °C', 'temperature', undefined, 308.15],
    ['35', 'temperature', 'degC', 308.15],
    ['95F', 'temperature', undefined, 308.15],
    ['1.234,5 W', 'power', undefined, 1234.5],
    ['75%', 'ratio', undefined, 0.75],
    ['6 ft 4 in', 'length', undefined, 76 * 0.0254],
    [`6' 4"`, 'length', undefined, 76 * 0.0254],
    ['2h 30min', 'time', undefined, 9000],
  ] as const)('[limit] "%s" as %s (meant in %s) is %d', (text, dimension, fallback, si) => {
    const result = parseQuantity(text, dimension, fallback);
    expect(result.kind, JSON.stringify(result)).toBe('ok');
    if (result.kind === 'ok')
      expect(Math.abs(result.value - si)).toBeLessThan(1e-9 * Math.max(1, Math.abs(si)));
  });

  it('[limit] a comma that could part thousands is asked about, not guessed', () => {
    expect(parseQuantity('1,200 W', 'power')).toMatchObject({
      kind: 'ambiguous',
      choices: [
        { value: 1.2, unit: 'W' },
        { value: 1200, unit: 'W' },
      ],
    });
  });

  it.each(['', 'volts', '1 2 V', '--3', '12.3.4', '4 in 6 ft'])('[limit] "%s" is not a number', (text) => {
    expect(parseQuantity(text, 'length').kind).toBe('not-a-number');
  });

  it('[law] no text makes it throw', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom(...allUnits), (text, { dimension, unit }) => {
        expect(parseQuantity(text, dimension, unit).kind).toMatch(/./);
      }),
      { seed: 20260103, numRuns: 300 },
    );
  });
});

describe('showing', () => {
  it.each([
    [13.42, 'voltage', '13.42 V'],
    [0.085, 'voltage', '85 mV'],
    [0, 'voltage', '0.00 V'],
    [-0.001, 'voltage', '−1 mV'],
    [0.00042, 'resistance', '0.42 mΩ'],
    [2.9, 'resistance', '2.9 Ω'],
    [squareMillimetres(70), 'area', '70 mm²'],
    [squareMillimetres(2.5), 'area', '2.5 mm²'],
    [(1850 * Math.PI) / 30, 'speed', '1850 rpm'],
    [celsius(35), 'temperature', '35 °C'],
    [0.734, 'ratio', '73.4 %'],
    [400 * 3600, 'charge', '400 Ah'],
    [86.24, 'current', '86.2 A'],
  ] as const)('[limit] %d as %s shows "%s"', (value, dimension, text) => {
    expect(formatQuantity(value, dimension)).toBe(text);
  });

  it.each([
    [wireGauge(-1), 'area', '2/0 AWG'],
    [squareMillimetres(70), 'area', '≈ 2/0 AWG'],
    [squareMillimetres(150), 'area', '296 kcmil'],
    [celsius(35), 'temperature', '95 °F'],
    [horsepower(40), 'power', '40 hp'],
  ] as const)('[limit] %d as %s shows "%s" in US units', (value, dimension, text) => {
    expect(formatQuantity(value, dimension, usPreference)).toBe(text);
  });

  it('[limit] durations read as people say them', () => {
    expect([45, 720, 19200, 3600, 273600].map(formatDuration)).toEqual([
      '45 s',
      '12 min',
      '5 h 20 min',
      '1 h',
      '3 d 4 h',
    ]);
  });

  it('[limit] near names come first', () => {
    expect(nearestNames('altrnator', ['battery', 'alternator', 'belt'])).toEqual(['alternator']);
  });

  it('[common practice] numbers side by side keep one unit and one last digit, those of the largest', () => {
    const volts = (...values: number[]) => formatSideBySide(values, 'voltage');
    expect(volts(-0.000489, 0.2)).toEqual(['0.00 V', '0.20 V']);
    expect(volts(0.012, 0.045)).toEqual(['12 mV', '45 mV']);
    expect(volts(-14.2, 0.05)).toEqual(['−14.20 V', '0.05 V']);
    expect(formatSideBySide([-0.771, 18.83], 'current')).toEqual(['−0.8 A', '18.8 A']);
    expect(formatSideBySide([wireGauge(2), wireGauge(6)], 'area', usPreference)).toEqual(['2 AWG', '6 AWG']);
  });

  it('[common practice] a range says its unit once', () => {
    expect(formatRange(13.6, 14.5, 'voltage')).toBe('13.60 to 14.50 V');
    expect(formatRange(10, 51.64, 'current')).toBe('10.0 to 51.6 A');
    expect(formatRange(0, 0, 'current')).toBe('0 to 0 A');
    expect(formatRange(Number.NaN, 14.5, 'voltage')).toBe('– to 14.50 V');
  });
});
