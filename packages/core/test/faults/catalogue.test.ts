import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { boatFromTemplate, changes, templateIds, type BoatDescription } from '../../src/boat/index.ts';
import { families, faultById, faultCatalogue, placedFaults, priceTable } from '../../src/faults/index.ts';
import { joinedFaults } from '../../src/faults/behaviour.ts';

const folder = new URL('../../data/faults/', import.meta.url);
const files = readdirSync(folder).map((name) => ({
  name,
  data: JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as {
    family: string;
    faults: { id: string }[];
  },
}));

const share = (description: BoatDescription, wanted: (id: string) => boolean): number =>
  placedFaults(description)
    .filter(({ fault }) => wanted(fault.id))
    .reduce((sum, { prior }) => sum + prior, 0);

const placesOf = (description: BoatDescription, id: string): string[] =>
  placedFaults(description)
    .filter(({ fault }) => fault.id === id)
    .map(({ part }) => part);

describe('the catalogue as data', () => {
  it('[rule] ids are unique and in kebab case', () => {
    const ids = faultCatalogue.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.filter((id) => !/^[a-z]+(-[a-z]+)*$/.test(id))).toEqual([]);
    expect(ids.length).toBeGreaterThanOrEqual(45);
  });

  it('[rule] every row of every data file has a fault and every fault a row, in the file of its family', () => {
    expect(files.map(({ name }) => name).sort()).toEqual(families.map((family) => `${family}.json`).sort());
    for (const { name, data } of files) {
      expect(`${data.family}.json`).toBe(name);
      const coded = faultCatalogue.filter(({ family }) => family === data.family).map(({ id }) => id);
      expect(coded).toEqual(data.faults.map(({ id }) => id));
    }
  });

  it('[rule] a row says something under every heading, and what it names exists', () => {
    for (const fault of faultCatalogue) {
      const { id, prior, source, words, ownerWords, remedy, causes, alsoCheck, buys, labourHours } = fault;
      for (const text of [source, words, ownerWords, remedy, ...causes]) expect(text.trim(), id).not.toBe('');
      expect(prior, id).toBeGreaterThan(0);
      expect(causes.length, id).toBeGreaterThan(0);
      expect(labourHours, id).toBeGreaterThan(0);
      for (const other of alsoCheck) expect(faultById(other).id, id).not.toBe(id);
      for (const key of buys) expect(priceTable.parts, id).toHaveProperty(key);
    }
  });

  it('[rule] a remedy for a broken thing points to the instructions of its maker', () => {
    const silent = faultCatalogue.filter(({ nature, remedy }) => nature === 'fault' && !/maker/.test(remedy));
    expect(silent.map(({ id }) => id)).toEqual([]);
  });

  it('[rule] a normal state buys nothing', () => {
    const sold = faultCatalogue.filter(({ nature, buys }) => nature === 'normal' && buys.length > 0);
    expect(sold.map(({ id }) => id)).toEqual([]);
  });

  it('[rule] a row without behaviour, a behaviour without row and a value off its list are refused', () => {
    const row = { ...faultById('belt-broken'), raisedBy: {} };
    const behaviour = { places: () => [''], apply: () => undefined };
    expect(() => joinedFaults('drive', [row], {})).toThrow(/"belt-broken" has no behaviour/);
    expect(() => joinedFaults('drive', [], { gone: behaviour })).toThrow(/no row for gone/);
    const joined = (change: object) =>
      joinedFaults('drive', [{ ...row, ...change }], { 'belt-broken': behaviour });
    expect(() => joined({ question: 'why' })).toThrow(RangeError);
    expect(() => joined({ nature: 'odd' })).toThrow(RangeError);
    expect(() => joined({ prior: 0 })).toThrow(RangeError);
    expect(() => joined({ raisedBy: { 'painted-blue': 2 } })).toThrow(/raisedBy is painted-blue/);
    expect(joined({})).toHaveLength(1);
  });

  it('[rule] an unknown id names its neighbours', () => {
    expect(() => faultById('belt-loose')).toThrow(/belt-slipping/);
  });
});

describe('faults placed on a boat', () => {
  it.each(templateIds)('[law] odds on the boat %s add up to 1, each placed once', (template) => {
    for (const regulatorPlace of ['inside', 'outside'] as const) {
      const placed = placedFaults(boatFromTemplate(template, { regulatorPlace }));
      const sum = placed.reduce((total, { prior }) => total + prior, 0);
      expect(sum).toBeCloseTo(1, 12); // rounding of some eighty sums
      expect(placed.every(({ prior }) => prior > 0)).toBe(true);
      expect(new Set(placed.map(({ id }) => id)).size).toBe(placed.length);
    }
  });

  it('[law] what was changed lately raises what such work brings, against all is well', () => {
    for (const change of changes) {
      const before = boatFromTemplate('selector-switch', { regulatorPlace: 'outside' });
      const after = { ...before, changed: [change] };
      for (const { id, fault, prior } of placedFaults(before)) {
        const well = (description: BoatDescription) => share(description, (one) => one === 'all-well');
        const now = placedFaults(after).find((one) => one.id === id)?.prior ?? 0;
        // Ratios of sums of the same rows, so only rounding parts them.
        expect(now / well(after) / (prior / well(before))).toBeCloseTo(fault.raisedBy[change] ?? 1, 9);
      }
    }
  });

  it('[rule] a fault stands only where the boat has the part for it', () => {
    const one = boatFromTemplate('one-battery');
    const selector = boatFromTemplate('selector-switch', { regulatorPlace: 'outside' });
    const twin = boatFromTemplate('twin-engines');
    const lithium = boatFromTemplate('selector-switch', { bankChemistry: 'lifepo4' });
    expect(placesOf(one, 'switch-wrong-bank')).toEqual([]);
    expect(placesOf(selector, 'switch-wrong-bank')).toEqual(['switch']);
    expect(placesOf(twin, 'switch-off')).toEqual([]); // its parallel switch is off when all is well
    expect(placesOf(one, 'field-lead-open')).toEqual([]);
    expect(placesOf(selector, 'field-lead-open')).toEqual(['field-lead']);
    expect(placesOf(selector, 'sense-lead-open')).toEqual(['sense-lead']);
    expect(placesOf(selector, 'internal-regulator-dead')).toEqual([]);
    expect(placesOf(selector, 'charge-lamp-blown')).toEqual([]);
    expect(placesOf(one, 'charge-lamp-blown')).toEqual(['lamp']);
    expect(placesOf(one, 'residual-lost')).toEqual([]);
    expect(placesOf(boatFromTemplate('one-battery', { excitation: 'none' }), 'residual-lost')).toEqual([
      'alternator',
    ]);
    expect(placesOf(one, 'protection-open')).toEqual([]);
    expect(placesOf(lithium, 'protection-open')).toEqual(['house']);
    expect(placesOf(lithium, 'battery-sulphated')).toEqual(['start']);
    expect(placesOf(one, 'other-source-hides')).toEqual([]);
    expect(placesOf(selector, 'charge-cable-open')).toEqual(['charge-cable']);
    expect(placesOf(selector, 'feed-cable-resistive')).toEqual(['start-cable', 'house-cable']);
    expect(placesOf(selector, 'return-resistive')).toEqual([
      'alternator-return',
      'return-cable',
      'start-return',
    ]);
  });

  it('[rule] known sizes steer whether the alternator can be small for the bank', () => {
    const boat = (amps: number, ampHours: number) =>
      boatFromTemplate('one-battery', {
        alternatorCurrent: { value: amps, origin: 'nameplate' },
        bankCapacity: { value: ampHours * 3600, origin: 'nameplate' },
      });
    const odds = (amps: number, ampHours: number) =>
      share(boat(amps, ampHours), (id) => id === 'alternator-small-for-bank');
    expect(odds(150, 100)).toBe(0);
    expect(odds(50, 1000)).toBeGreaterThan(
      share(boatFromTemplate('one-battery'), (id) => id === 'alternator-small-for-bank'),
    );
  });
});

describe('what the trade knows', () => {
  const usual = templateIds.map((template) => boatFromTemplate(template));

  it('[common practice] the alternator itself is the largest family of culprits', () => {
    for (const boat of usual) {
      const odds = families.map((family) => {
        const ids = new Set(faultCatalogue.filter((fault) => fault.family === family).map(({ id }) => id));
        return { family, odds: share(boat, (id) => ids.has(id)) };
      });
      expect(odds.sort((a, b) => b.odds - a.odds)[0]?.family).toBe('alternator');
    }
  });

  it('[common practice] a regulator inside the alternator is blamed more often than it fails', () => {
    for (const boat of usual) {
      const regulator = share(boat, (id) => id.startsWith('internal-regulator'));
      const wear = share(boat, (id) => id === 'brushes-worn' || id.startsWith('diode-'));
      expect(regulator).toBeLessThan(wear / 2);
      expect(regulator).toBeLessThan(0.06);
    }
  });

  it('[common practice] about a quarter of complaints have nothing broken behind them', () => {
    const normal = new Set(faultCatalogue.filter(({ nature }) => nature === 'normal').map(({ id }) => id));
    for (const boat of usual) {
      const odds = share(boat, (id) => normal.has(id));
      expect(odds).toBeGreaterThan(0.2);
      expect(odds).toBeLessThan(0.33);
    }
  });

  it('[common practice] an uprated alternator on its old cable and belt makes those the first to look at', () => {
    const uprated = boatFromTemplate('selector-switch', { changed: ['alternator-uprated'] });
    const [first, second] = placedFaults(uprated)
      .sort((a, b) => b.prior - a.prior)
      .map(({ fault }) => fault.id);
    expect([first, second].sort()).toEqual(['belt-slipping', 'charge-cable-undersized']);
  });
});
