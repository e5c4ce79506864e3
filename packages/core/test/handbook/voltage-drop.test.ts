import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { conductorFor } from '../../src/handbook/conductor-sizing.ts';
import { ampacityAWG } from '../../src/handbook/ampacity.ts';
import { gaugesInUse, nextGaugeUp, saeMinimumArea } from '../../src/handbook/conductors.ts';
import { fuseWindow } from '../../src/handbook/overcurrent.ts';
import {
  areaForDropCircularMil,
  areaForDropHot,
  dropClasses,
  voltageDropHot,
  voltageDropISO,
} from '../../src/handbook/voltage-drop.ts';
import {
  areaOfGauge,
  celsius,
  circularMils,
  feet,
  gaugeLabel,
  squareMillimetres,
} from '../../src/units/index.ts';

describe('circular-mil rule', () => {
  // Recomputed from the formula as quoted from E-11 11.14.2.6.
  it.each([
    [10, 21, 12, 0.03, 6271, '12'],
    [10, 21, 12, 0.1, 1881, '16'],
    [25, 30, 12, 0.1, 6719, '10'],
    [60, 12, 12, 0.03, 21500, '6'],
    [100, 10, 12, 0.03, 29861, '4'],
    [100, 20, 12, 0.03, 59722, '2'],
    [100, 20, 24, 0.03, 29861, '4'],
    [150, 16, 12, 0.03, 71667, '1'],
  ])(
    '[E11, 11.14.2.6] %d A over %d ft at %d V, share %d: %d cmil, %s AWG',
    (current, length, nominalVoltage, dropShare, mils, gauge) => {
      const answer = areaForDropCircularMil({
        current,
        lengthRoundTrip: feet(length),
        nominalVoltage,
        dropShare,
      });
      expect(Math.abs(answer.value / circularMils(1) - mils)).toBeLessThan(0.51);
      expect(gaugeLabel(nextGaugeUp(answer.value)!)).toBe(gauge);
      expect(answer.citation).toMatchObject({ source: 'E11', seen: 'S2', edition: '2008' });
    },
  );

  it('[SAEJ1127, from memory] trap: SAE wire of 12 gauge (5833 cmil) is too thin where 6271 cmil are asked', () => {
    expect(saeMinimumArea(12)!.value).toBeLessThan(circularMils(6271));
    expect(saeMinimumArea(10)!.value).toBeGreaterThan(circularMils(6271));
  });
});

it.each([
  ['critical', 12, 0.36],
  ['other', 12, 1.2],
  ['critical', 24, 0.72],
  ['other', 24, 2.4],
])('[E11] %s circuits of %d V may lose %d V', (id, nominalVoltage, drop) => {
  const { share, circuits } = dropClasses.find((one) => one.id === id)!;
  expect(nominalVoltage * share).toBeCloseTo(drop, 9);
  // Navigation lights and bilge blowers are on the 3 % list, other lamps on the 10 % list.
  expect(
    circuits.some((words) => /^(navigation lights|lighting other than navigation lights)$/.test(words)),
  ).toBe(true);
  expect(circuits.includes('bilge blowers')).toBe(id === 'critical');
});

describe('hot copper', () => {
  const circuit = { current: 100, lengthRoundTrip: feet(20), nominalVoltage: 12, dropShare: 0.03 };

  it('[IEC60028] the drop at 29 °C is what the rule allows, at 75 °C it is 17 to 18 % more', () => {
    const area = areaForDropCircularMil(circuit).value;
    const cool = voltageDropHot({ ...circuit, area, temperature: celsius(29) });
    expect(Math.abs(cool.value / 0.36 - 1)).toBeLessThan(2e-3); // K is rounded to 10.75
    const hot = voltageDropHot({ ...circuit, area, temperature: celsius(75) });
    // 12.613 / 10.75 = 1.1733 (both derived values)
    expect(hot.value / 0.36).toBeCloseTo(1.1733, 3);
    expect(hot.margin!).toBeLessThan(0);
  });

  it('[law] the area for a hot drop gives back that drop', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 500, noNaN: true }),
        fc.double({ min: 0.2, max: 60, noNaN: true }),
        fc.double({ min: 250, max: 450, noNaN: true }),
        (current, lengthRoundTrip, temperature) => {
          const request = { ...circuit, current, lengthRoundTrip, temperature };
          const drop = voltageDropHot({ ...request, area: areaForDropHot(request) });
          expect(Math.abs(drop.value - 0.36)).toBeLessThan(1e-9);
          expect(Math.abs(drop.margin!)).toBeLessThan(1e-9);
        },
      ),
      { seed: 20260201, numRuns: 100 },
    );
  });

  it('[ISO13297, from memory] trap: the ISO constant 0.0164 gives less than copper at 20 °C', () => {
    const area = squareMillimetres(35);
    const iso = voltageDropISO({ current: 100, lengthRoundTrip: 6, area });
    expect(iso.value).toBeCloseTo((0.0164 * 100 * 6) / 35, 12);
    expect(iso.value).toBeLessThan(
      voltageDropHot({ ...circuit, lengthRoundTrip: 6, area, temperature: celsius(20) }).value,
    );
    expect(iso.citation.note).toMatch(/below/);
  });

  it("[limit] a caller's mistake throws", () => {
    expect(() => areaForDropCircularMil({ ...circuit, dropShare: 3 })).toThrow(/dropShare 3/);
    expect(() => areaForDropCircularMil({ ...circuit, current: 0 })).toThrow(/current 0 A/);
  });
});

describe('conductorFor', () => {
  const request = {
    current: 100,
    lengthRoundTrip: feet(20),
    nominalVoltage: 12,
    dropShare: 0.03,
    insulationClass: 105,
    engineSpace: true,
    bundled: false,
  } as const;

  it('[E11, 11.14.2.6] a long run is governed by drop: 2 AWG, 35 mm²', () => {
    const { awg, metric, areaByDrop } = conductorFor(request);
    expect(areaByDrop.value / circularMils(1)).toBeCloseTo(59722, -1);
    expect(awg).toMatchObject({ kind: 'ok', choice: { label: '2 AWG', governedBy: 'drop' } });
    expect(metric).toMatchObject({ kind: 'ok', choice: { label: '35 mm²', governedBy: 'drop' } });
    if (awg.kind !== 'ok') return;
    // Hand: 2 AWG 105 °C in an engine space 210 · 0.85 = 178.5 A; T = 50 + 55·√(100/178.5) = 91.2 °C;
    // R = 1.7241e-8·(1 + 0.00393·71.2)·6.096/33.631e-6 = 4.000 mΩ, so 0.400 V: over the 0.36 V when hot.
    expect(awg.choice.ampacity.value).toBeCloseTo(178.5, 9);
    expect(awg.choice.temperature).toBeCloseTo(celsius(91.2), 1);
    expect(awg.choice.dropHot.value).toBeCloseTo(0.4, 3);
    expect(awg.choice.keepsDropWhenHot).toBe(false);
    expect(awg.choiceKeepingDropHot).toMatchObject({ label: '1 AWG', keepsDropWhenHot: true });
  });

  it('[CFR425, table 5] a short run is governed by ampacity', () => {
    // 95 A, 1 ft: drop asks 2 837 cmil. Ampacity 105 °C: 8 AWG 80 A is not enough, 6 AWG 120 A is.
    const { awg } = conductorFor({ ...request, current: 95, lengthRoundTrip: feet(1), engineSpace: false });
    expect(awg).toMatchObject({ kind: 'ok', choice: { label: '6 AWG', governedBy: 'ampacity' } });
    if (awg.kind === 'ok') expect(awg.choice.fuse).toMatchObject({ kind: 'ok', rating: { value: 125 } });
  });

  it('[E11, 11.10.2.3] where no fuse fits, protection governs', () => {
    // 120 A, 6 AWG just carries it, but 120/0.8 = 150 A fuse is above the 125 A next size; 4 AWG (160 A) takes 150 A.
    const { awg } = conductorFor({ ...request, current: 120, lengthRoundTrip: feet(1), engineSpace: false });
    expect(awg).toMatchObject({ kind: 'ok', choice: { label: '4 AWG', governedBy: 'protection' } });
  });

  it('[limit] beyond 4/0 the answer says so', () => {
    expect(conductorFor({ ...request, current: 400, lengthRoundTrip: 20 }).awg).toEqual({
      kind: 'beyond-table',
      thickest: '4/0 AWG',
    });
  });

  it('[law] every choice keeps every rule, and one size thinner breaks one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 250, noNaN: true }),
        fc.double({ min: 0.3, max: 15, noNaN: true }),
        fc.constantFrom(0.03, 0.1),
        fc.boolean(),
        fc.boolean(),
        (current, lengthRoundTrip, dropShare, engineSpace, bundled) => {
          const circuit = { ...request, current, lengthRoundTrip, dropShare, engineSpace, bundled };
          const { awg, metric, areaByDrop } = conductorFor(circuit);
          for (const side of [awg, metric]) {
            if (side.kind !== 'ok') continue;
            expect(side.choice.area).toBeGreaterThanOrEqual(areaByDrop.value * (1 - 1e-4));
            expect(side.choice.ampacity.value).toBeGreaterThanOrEqual(current);
            expect(side.choice.fuse.kind).toBe('ok');
            if (side.choiceKeepingDropHot)
              expect(side.choiceKeepingDropHot.dropHot.value).toBeLessThanOrEqual(
                12 * dropShare * (1 + 1e-9),
              );
          }
          if (awg.kind !== 'ok') return;
          const position = gaugesInUse.findIndex((gauge) => areaOfGauge(gauge) === awg.choice.area);
          if (position === 0) return;
          const thinner = gaugesInUse[position - 1]!;
          const ampacity = ampacityAWG(thinner, circuit)!.value;
          const fuse = fuseWindow({ loadCurrent: current, ampacity, hotSpace: engineSpace });
          expect(
            areaOfGauge(thinner) < areaByDrop.value || ampacity < current || fuse.kind === 'no-rating-fits',
            awg.choice.label,
          ).toBe(true);
        },
      ),
      { seed: 20260202, numRuns: 150 },
    );
  });
});
