import { describe, expect, it } from 'vitest';
import {
  boatAt,
  boatFromTemplate,
  chargingPaths,
  partKinds,
  templateIds,
  type TemplateId,
} from '../../src/boat/index.ts';
import { chargeRunOf, type Phase } from '../../src/operate/index.ts';
import {
  compareRuns,
  proposedVariants,
  variantOf,
  type Variant,
  type VariantId,
} from '../../src/planning/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'told' }) as const;
const boat = (template: TemplateId) =>
  boatFromTemplate(template, {
    alternatorCurrent: told(80),
    bankCapacity: told(400 * HOUR),
    bankChemistry: 'agm',
    loadsCurrent: told(8),
    cableArea: told(16e-6),
    cableLength: told(2),
  });
const motoring: Phase[] = [{ duration: 6 * HOUR, engine: 'running', engineSpeed: 1500 * RPM }];

function variant(template: TemplateId, id: VariantId, size?: number): Variant {
  const result = variantOf(boat(template), id, size);
  if (result.kind !== 'variant') throw new Error(`${id}: ${result.why}`);
  return result.variant;
}

describe('what-ifs', () => {
  it.each(templateIds)(
    '[law] each yields a whole boat that runs, and changes nothing else: %s',
    (template) => {
      const before = boat(template);
      const kept = JSON.stringify(before);
      for (const { id, description } of proposedVariants(before)) {
        const ids = description.parts.map((part) => part.id);
        expect(new Set(ids).size, id).toBe(ids.length);
        for (const part of description.parts) {
          if (part.kind !== 'cable') continue;
          for (const end of [part.from, part.to]) {
            const [owner = '', terminal = ''] = (end ?? '').split('.');
            const found = description.parts.find((one) => one.id === owner);
            expect(found && partKinds[found.kind].terminals, `${id}: ${part.id} at ${end}`).toContain(
              terminal,
            );
          }
        }
        const run = chargeRunOf(description, [{ duration: HOUR, engine: 'running' }]);
        expect(run.ended, id).toBe('plan-done');
        expect(run.notConverged, id).toBe(0);
        expect(Math.abs(run.energy.imbalance), id).toBeLessThan(1e-3);
      }
      expect(JSON.stringify(before)).toBe(kept);
    },
  );

  it.each(['selector-switch', 'combining-relay', 'diode-isolator'] as const)(
    '[law] a second alternator leaves each bank its own machine, and nothing joins them: %s',
    (template) => {
      const { description } = variant(template, 'second-alternator');
      const paths = chargingPaths(description);
      expect(new Map(paths.map(({ alternator, battery }) => [alternator, battery]))).toEqual(
        new Map([
          ['alternator', 'start'],
          ['alternator-house', 'house'],
        ]),
      );
      const joints = description.parts.filter(({ kind }) => ['selector', 'relay', 'isolator'].includes(kind));
      expect(joints).toEqual([]);
    },
  );

  it('[common practice] against the isolator a second alternator and a relay save its drop, and charge faster', () => {
    const before = boat('diode-isolator');
    const found = compareRuns(
      before,
      motoring,
      [variant('diode-isolator', 'second-alternator'), variant('diode-isolator', 'combining-relay')],
      { stateOfCharge: { house: 0.5, start: 0.9 } },
    );
    const loss = found.rows.find(({ id }) => id === 'path-loss')!;
    // A silicon isolator loses 0.7 to 1 V.
    for (const value of loss.values) expect(loss.base! - value!).toBeGreaterThan(0.5);
    const charging = found.rows.find(({ id }) => id === 'charging')!;
    for (const value of charging.values) expect(value!).toBeGreaterThan(1.3 * charging.base!);
    expect(found.variants[0]!.gains.join(' ')).toMatch(/isolator is out/);
    expect(found.variants[0]!.variant.asks.join(' ')).toMatch(/Engine.*Belt.*Space/s);
  });

  it('[common practice] a temperature limit lowers the hottest winding, and costs amps', () => {
    const found = compareRuns(
      boat('one-battery'),
      motoring,
      [variant('one-battery', 'external-regulator', 373.15)],
      {
        stateOfCharge: { battery: 0.3 },
      },
    );
    const at = (id: string) => found.rows.find((row) => row.id === id)!;
    expect(at('peak-temperature').values[0]!).toBeLessThan(at('peak-temperature').base! - 10);
    expect(at('charging').values[0]!).toBeLessThan(at('charging').base!);
  });

  it('[law] the size asked for is the size that the changed boat has', () => {
    const cases: [VariantId, number, (made: ReturnType<typeof boatAt>) => number][] = [
      ['larger-alternator', 150, ({ alternators }) => alternators[0]!.ratedCurrent],
      ['faster-pulley', 2.7, ({ alternators }) => alternators[0]!.pulleyRatio],
      ['lithium-bank', 250 * HOUR, ({ batteries }) => batteries[0]!.capacity],
      ['thicker-cable', 70e-6, ({ conductors }) => conductors.find(({ id }) => id === 'charge-cable')!.area],
      ['better-ventilation', 308, ({ engines }) => engines[0]!.spaceTemperature],
      ['fewer-loads', 3, ({ loads }) => loads[0]!.current],
    ];
    for (const [id, size, of] of cases)
      expect(of(boatAt(variant('one-battery', id, size).description)), id).toBeCloseTo(size, 9);
    expect(() => variantOf(boat('one-battery'), 'larger-alternator', 9000)).toThrow(/size 9000/);
  });

  it('[limit] where it cannot apply it says why; a comparison can be cancelled', () => {
    expect(variantOf(boat('one-battery'), 'second-alternator')).toMatchObject({ kind: 'not-for-this-boat' });
    expect(variantOf(boat('two-alternators'), 'second-alternator')).toMatchObject({
      why: expect.stringMatching(/already/) as string,
    });
    const cancelled = compareRuns(boat('one-battery'), motoring, proposedVariants(boat('one-battery')), {
      onProgress: () => false,
    });
    expect(cancelled.ended).toBe('cancelled');
    expect(cancelled.variants).toEqual([]);
  });
});
