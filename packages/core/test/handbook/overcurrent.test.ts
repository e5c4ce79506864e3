import { describe, expect, it } from 'vitest';
import {
  alternatorDeviceLimit,
  floodedBankResistance,
  fuseFamily,
  fuseWindow,
  interruptingNeed,
  prospectiveShortCircuitCurrent,
  protectionExemptions,
  protectionPlace,
  protectionPlaces,
  standardRatings,
} from '../../src/handbook/overcurrent.ts';
import { ampereHours, inches } from '../../src/units/index.ts';

describe('place', () => {
  it.each([
    ['battery-terminal', false, 7],
    ['other-source', false, 7],
    ['battery-terminal', true, 72],
    ['other-source', true, 40],
  ] as const)('[E11, 11.10.1.1.1] from %s, sheathed %s: within %d in', (from, sheathed, distance) => {
    const place = protectionPlace({ from, sheathed });
    expect(place.distance).toBeCloseTo(inches(distance), 9);
    expect(place.citation).toMatchObject({ source: 'E11', seen: 'S2' });
  });

  it.each([
    ['law-source', 'CFR455', 'S', inches(7)],
    ['law-sheathed', 'CFR455', 'S', inches(40)],
    ['law-battery', 'CFR460', 'M', inches(72)],
    ['iso-2000', 'ISO10133', 'M', 0.2],
    ['watercraft', 'ISO13590', 'S2', 0.18],
    ['watercraft-sheathed', 'ISO13590', 'S2', 0.5],
    ['watercraft-battery', 'ISO13590', 'S2', 0.9],
  ])('[%s] of %s, marked %s: %d m', (id, source, seen, distance) => {
    const place = protectionPlaces.find((entry) => entry.id === id)!;
    expect(place.citation).toMatchObject({ source, seen });
    expect(place.distance).toBeCloseTo(distance, 9);
  });
});

it('[E11, 11.10.1.1.1] what needs no device: cranking, pigtails under 7 in, some alternators under 40 in', () => {
  const words = new Map(protectionExemptions.map((one) => [one.id, one]));
  expect([...words.keys()].sort()).toEqual(['alternator', 'cranking', 'pigtail']);
  expect(words.get('pigtail')!.words).toMatch(/7 in \(175 mm\)/);
  expect(words.get('alternator')!.words).toMatch(
    /under 40 in \(1.02 m\), sheathed, .*other than the battery/,
  );
  expect(words.get('alternator')!.citation).toMatchObject({ seen: 'M', confidence: 'medium' });
});

describe('rating', () => {
  it('[E11, 11.10.2.3] at most ampacity; the next size when none matches and it is within 150 %', () => {
    // 80 A matches a standard size; 85 A does not, so 90 A; 160 A → 175 A; 16 A → 20 A (125 %).
    const most = (ampacity: number) => fuseWindow({ loadCurrent: 1, ampacity }).most;
    expect([80, 85, 160, 16].map(most)).toEqual([80, 90, 175, 20]);
    // With ratings far apart the next one is above 150 %, so the one below stays.
    expect(fuseWindow({ loadCurrent: 10, ampacity: 20, ratings: [15, 40] }).most).toBe(15);
  });

  it('[CFR455(c)(1)] US law under 50 V allows 150 %, above it 100 % or the next size', () => {
    expect(fuseWindow({ loadCurrent: 1, ampacity: 100, rule: 'law-under-50' }).most).toBe(150);
    expect(fuseWindow({ loadCurrent: 1, ampacity: 100, rule: 'law-50-up' }).most).toBe(100);
  });

  it('[NEC240, from memory] a lasting load takes 80 % of the rating, 75 % in a hot space (common practice)', () => {
    expect(fuseWindow({ loadCurrent: 80, ampacity: 160 })).toMatchObject({
      kind: 'ok',
      least: 100,
      rating: { value: 100 },
    });
    const hot = fuseWindow({ loadCurrent: 80, ampacity: 160, hotSpace: true });
    expect(hot).toMatchObject({ kind: 'ok', rating: { value: 110 } });
    expect(hot.least).toBeCloseTo(106.67, 2);
  });

  it('[limit] no rating fits a conductor loaded to its ampacity', () => {
    expect(fuseWindow({ loadCurrent: 100, ampacity: 100 })).toMatchObject({
      kind: 'no-rating-fits',
      least: 125,
      most: 100,
    });
    expect(() => fuseWindow({ loadCurrent: -1, ampacity: 10 })).toThrow(/loadCurrent -1 A/);
  });

  it('[NEC240, 240.6(A), from memory] standard ratings', () => {
    expect(standardRatings).toEqual([
      ...[1, 3, 6, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200],
      ...[225, 250, 300, 350, 400, 450, 500, 600],
    ]);
  });

  it.each([
    ['blade', [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40]],
    ['bolt-in-small', [30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200]],
    ['bolt-in-large', [100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500]],
  ] as const)('[ISO8820, from memory] ratings of %s fuses', (id, ratings) => {
    expect(fuseFamily(id).ratings).toEqual(ratings);
  });

  it('[CFR460(b), from memory] alternator device at most 120 %', () => {
    expect(alternatorDeviceLimit(100).value).toBeCloseTo(120, 9);
  });
});

describe('interrupting capacity', () => {
  it('[TEXTBOOK] a flooded 100 Ah battery drives 2 to 4 kA into a short', () => {
    const { low, high } = floodedBankResistance(ampereHours(100));
    const current = (bankResistance: number) =>
      prospectiveShortCircuitCurrent({ restVoltage: 12.65, bankResistance }).value;
    // The source rounds 2.1 to 4.2 kA to "2 to 4 kA": 10 % allowed.
    expect(Math.abs(current(high) / 2000 - 1)).toBeLessThan(0.1);
    expect(Math.abs(current(low) / 4000 - 1)).toBeLessThan(0.1);
    expect(floodedBankResistance(ampereHours(400)).low).toBeCloseTo(low / 4, 9);
  });

  it.each([
    [650, 1500, 750],
    [651, 3000, 1500],
    [1100, 3000, 1500],
    [1101, 5000, 2500],
  ])(
    '[E11, table IV-B, from memory] %d cranking amps: main %d A, branch %d A',
    (crankingCurrent, main, branch) => {
      const least = (position: 'main' | 'branch') =>
        interruptingNeed({ chemistry: 'flooded', position, crankingCurrent }).least;
      expect(least('main')).toBe(main);
      expect(least('branch')).toBe(branch);
    },
  );

  it('[E13, from memory] lithium asks for the 20 kA class, and more where the bank gives more', () => {
    expect(interruptingNeed({ chemistry: 'lifepo4', position: 'main' })).toMatchObject({
      least: 20000,
      families: ['class-t'],
    });
    expect(
      interruptingNeed({ chemistry: 'lifepo4', position: 'main', prospectiveCurrent: 26000 }),
    ).toMatchObject({
      least: 26000,
      families: [],
    });
  });

  it('[ISO8820, from memory] blade fuses break 1 kA, bolt-in ones 2 kA at 32 V', () => {
    expect(fuseFamily('blade')).toMatchObject({ breakingCurrent: 1000, voltage: 32 });
    expect(fuseFamily('bolt-in-large').breakingCurrent).toBe(2000);
    expect(
      interruptingNeed({ chemistry: 'agm', position: 'main', prospectiveCurrent: 1500 }).families,
    ).toEqual(['bolt-in-small', 'bolt-in-large', 'class-t']);
  });

  it('[limit] lead-acid without cranking amps needs the prospective current', () => {
    expect(() => interruptingNeed({ chemistry: 'gel', position: 'main' })).toThrow(/prospectiveCurrent 0 A/);
  });
});
