import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { boatFromTemplate, placedChecks, templateIds } from '@ampwright/core';
import { describe, expect, it } from 'vitest';
import {
  baselineVisits,
  descriptionOf,
  evidenceOf,
  jobSchema,
  jobVersion,
  newJob,
  parseJob,
  readJson,
  readingsOf,
  serialiseJob,
  type Job,
  type JobFacts,
  type JobQuantity,
} from '../src/index.ts';

const jobOf = (file: object): Job => {
  const parsed = parseJob(JSON.stringify(file));
  if (parsed.kind === 'problems') throw new Error(JSON.stringify(parsed.problems));
  return parsed.job;
};
const short = (facts: object = {}, more: object = {}) => ({
  format: 'ampwright-job',
  version: 1,
  boat: { template: 'one-battery', facts },
  ...more,
});

describe('the short form', () => {
  it.each(templateIds)('[rule] %s alone expands to the template', (template) => {
    const job = jobOf({ format: 'ampwright-job', version: 1, boat: { template } });
    const description = descriptionOf(job);
    expect(description.parts.map((part) => part.id)).toEqual(
      boatFromTemplate(template).parts.map((part) => part.id),
    );
  });

  it('[rule] facts reach the parts they speak of, in SI, and the file keeps the unit that was written', () => {
    const job = jobOf(
      short({
        nominal_voltage: { value: 24, unit: 'V' },
        bank_capacity: { value: 400, unit: 'Ah', origin: 'nameplate' },
        cable_area: { value: 2, unit: 'AWG', origin: 'measured' },
        cable_length: { value: 10, unit: 'ft' },
        regulator_place: 'outside',
        changed: ['bank-enlarged'],
      }),
    );
    const description = descriptionOf(job);
    const part = (id: string) => description.parts.find((entry) => entry.id === id)!;
    expect(description.nominalVoltage).toBe(24);
    expect(description.changed).toEqual(['bank-enlarged']);
    expect(part('battery').quantities).toEqual({ capacity: { value: 1_440_000, origin: 'nameplate' } });
    expect(part('regulator').choices).toEqual({ place: 'outside' });
    const cable = part('charge-cable').quantities as { length: { value: number }; area: { value: number } };
    // Exact by definition: 1 ft = 0.3048 m [NIST SP 811].
    expect(cable.length.value).toBeCloseTo(3.048, 12);
    // [ASTMB258] AWG 2: diameter 0.2576 in → 33.62 mm²; the table gives four digits.
    expect(cable.area.value * 1e6).toBeCloseTo(33.62, 1);
    expect(job.boat.parts.find((entry) => entry.id === 'charge-cable')!.quantities.area).toEqual({
      value: 2,
      unit: 'AWG',
      origin: 'measured',
    });
  });

  it('[rule] null, absent and a quantity without value all mean unknown', () => {
    const plain = jobOf(short());
    expect(jobOf(short({ cable_area: null, bank_chemistry: null }, { title: null }))).toEqual(plain);
    expect(jobOf(short({ cable_area: { value: null, unit: 'mm2' } }))).toEqual(plain);
  });
});

describe('what is kept', () => {
  it('[rule] unknown fields are kept, noted, and offered a known name', () => {
    const text = JSON.stringify(short({}, { titel: 'Ketch', extra: { deep: [null, 1] } }));
    const parsed = parseJob(text);
    if (parsed.kind === 'problems') throw new Error('refused');
    expect(parsed.readOnly).toBe(false);
    expect(parsed.notes.map((note) => [note.kind, note.pointer, note.nearest?.[0]])).toEqual([
      ['unknown-field', '/titel', 'title'],
      ['unknown-field', '/extra', undefined],
    ]);
    expect(JSON.parse(serialiseJob(parsed.job))).toMatchObject({
      titel: 'Ketch',
      extra: { deep: [null, 1] },
    });
  });

  it('[rule] a newer version opens read-only, keeps what it has, and cannot be written', () => {
    const parsed = parseJob(JSON.stringify({ ...short(), version: jobVersion + 1, sails: 3 }));
    if (parsed.kind === 'problems') throw new Error('refused');
    expect(parsed.readOnly).toBe(true);
    expect(parsed.notes[0]).toMatchObject({ kind: 'newer-version', pointer: '/version' });
    expect(parsed.notes[0]!.advice).toContain('Update this program');
    expect(parsed.job).toMatchObject({ sails: 3 });
    expect(() => serialiseJob(parsed.job)).toThrow(RangeError);
  });

  it('[rule] version 0 is brought up to date', () => {
    const parsed = parseJob(readFileSync(new URL('./old/version-0.json', import.meta.url), 'utf8'));
    if (parsed.kind === 'problems') throw new Error(JSON.stringify(parsed.problems));
    expect(parsed.notes).toEqual([]);
    expect(parsed.job.version).toBe(1);
    expect(parsed.job.boat.nominal_voltage).toEqual({ value: 12, unit: 'V', origin: 'told' });
    expect(parsed.job.visits).toHaveLength(1);
    expect(parsed.job.visits[0]).toMatchObject({
      date: '2026-03-02',
      readings: [{ value: 12.3 }, { could_not: true }],
    });
  });
});

describe('readings', () => {
  it('[rule] become SI; a check that stands in one place may go without its part', () => {
    const check = placedChecks(descriptionOf(jobOf(short()))).find(
      (placed) => placed.outcome.kind === 'number' && placed.outcome.dimension === 'voltage',
    )!;
    const job = jobOf(
      short(
        {},
        {
          visits: [
            {
              readings: [
                { check: check.id, value: 12_600, unit: 'mV', since_start: { value: 5, unit: 'min' } },
                { check: check.id, could_not: true },
              ],
            },
          ],
        },
      ),
    );
    expect(readingsOf(job.visits[0]!, placedChecks(descriptionOf(job)))).toEqual([
      { id: 'visit-1-reading-1', check: check.id, outcome: { kind: 'number', value: 12.6 }, sinceStart: 300 },
      { id: 'visit-1-reading-2', check: check.id, outcome: { kind: 'could-not' } },
    ]);
  });
});

describe('visits after repairs', () => {
  const battery = (value: number) => ({ check: 'battery-volts-fast', value });
  const belt = 'belt-broken@belt';
  const cable = 'charge-cable-resistive@charge-cable';
  const job = jobOf(
    short(
      {},
      {
        visits: [
          { id: 'year-before', baseline: true, readings: [battery(14.2)] },
          { id: 'found', readings: [battery(12.1)] },
          { id: 'belt', repairs: [belt], readings: [battery(13)] },
          { id: 'cable', repairs: [cable], baseline: true, readings: [battery(14)] },
          { id: 'year-after', readings: [battery(14.1)] },
        ],
      },
    ),
  );
  const checks = placedChecks(descriptionOf(job));
  const at = (id: string) =>
    evidenceOf(
      job,
      job.visits.find((visit) => visit.id === id)!,
      checks,
    );

  it('[rule] a visit after repairs goes on with the visit before, whose readings stay those of the boat as it was', () => {
    const { readings, repaired } = at('cable');
    expect(repaired).toEqual([belt, cable]);
    expect(readings.map(({ id, afterRepairOf }) => [id, afterRepairOf])).toEqual([
      ['found-reading-1', undefined],
      ['belt-reading-1', [belt]],
      ['cable-reading-1', [belt, cable]],
    ]);
  });

  it('[rule] a visit without repairs stands alone', () => {
    expect(at('year-after').readings.map(({ id }) => id)).toEqual(['year-after-reading-1']);
    expect(at('found')).toMatchObject({ repaired: [], readings: [{ id: 'found-reading-1' }] });
  });

  it('[rule] what a visit goes on with is no baseline of it', () => {
    const baselines = (id: string) =>
      baselineVisits(
        job,
        job.visits.find((visit) => visit.id === id)!,
      ).map((visit) => visit.id);
    expect(baselines('cable')).toEqual(['year-before']);
    expect(baselines('year-after')).toEqual(['year-before', 'cable']);
  });

  it('[rule] in a normal state there is nothing to put right', () => {
    const parsed = parseJob(JSON.stringify(short({}, { visits: [{ repairs: ['battery-flat@battery'] }] })));
    expect(parsed).toMatchObject({ problems: [{ kind: 'unknown-fault', pointer: '/visits/0/repairs/0' }] });
  });
});

describe('round trip', () => {
  const quantity = (low: number, high: number, ...units: string[]) =>
    fc.record({
      value: fc
        .double({ min: low, max: high, noNaN: true })
        .map((value) => (Object.is(value, -0) ? 0 : value)),
      unit: fc.constantFrom(...units),
      origin: fc.constantFrom('measured', 'nameplate', 'told', 'assumed'),
    }) as fc.Arbitrary<JobQuantity>;
  const facts = fc.record(
    {
      alternator_current: quantity(20, 500, 'A'),
      regulator_place: fc.constantFrom('inside', 'outside'),
      excitation: fc.constantFrom('lamp', 'ignition', 'none'),
      bank_capacity: quantity(20, 2000, 'Ah'),
      bank_chemistry: fc.constantFrom('flooded', 'agm', 'gel', 'lifepo4'),
      cable_area: quantity(1, 200, 'mm2'),
      cable_length: quantity(0.1, 60, 'm', 'ft'),
      belt_section: fc.constantFrom('v-10', 'ribbed-6'),
      idle_speed: quantity(500, 1200, 'rpm'),
      loads_current: quantity(0, 200, 'A'),
    },
    { requiredKeys: [] },
  ) as fc.Arbitrary<JobFacts>;

  it('[law] parse(serialise(job)) is the job', () => {
    fc.assert(
      fc.property(
        facts,
        fc.constantFrom(...templateIds),
        fc.string({ maxLength: 40 }),
        (known, template, title) => {
          const job = newJob({
            template,
            facts: known,
            ids: { job: 'j1', visit: 'v1' },
            title,
            date: '2026-05-17',
          });
          const parsed = parseJob(serialiseJob(job));
          expect(parsed).toEqual({ kind: 'job', job, readOnly: false, notes: [] });
        },
      ),
      { seed: 1, numRuns: 60 },
    );
  });

  it("[limit] a point of an alternator's curve that no machine meets is read, and said with what it could be", () => {
    const job = newJob({
      template: 'one-battery',
      facts: { alternator_current: { value: 100, unit: 'A' } },
      ids: { job: 'j1', visit: 'v1' },
      date: '2026-05-17',
    });
    const notesWith = (low: number, middle: number) => {
      const parts = job.boat.parts.map((part) =>
        part.kind !== 'alternator'
          ? part
          : {
              ...part,
              quantities: {
                ...part.quantities,
                low_speed_current: { value: low, unit: 'A' },
                middle_speed_current: { value: middle, unit: 'A' },
              },
            },
      );
      const parsed = parseJob(serialiseJob({ ...job, boat: { ...job.boat, parts } }));
      if (parsed.kind !== 'job') throw new Error(JSON.stringify(parsed.problems));
      return parsed.notes.map(({ kind, pointer, value, allowed }) => [
        kind,
        pointer.split('/').at(-1),
        value,
        allowed,
      ]);
    };
    expect(notesWith(50, 85)).toEqual([]);
    expect(notesWith(50, 60)).toEqual([
      [
        'curve-not-met',
        'low_speed_current',
        '50 A',
        expect.stringMatching(/^about 4\d.* A: .* at 1800 rpm$/),
      ],
      [
        'curve-not-met',
        'middle_speed_current',
        '60 A',
        expect.stringMatching(/^about (69|7\d).* A: .* at 3000 rpm$/),
      ],
    ]);
    expect(notesWith(50, 120)).toEqual([
      [
        'curve-not-met',
        'middle_speed_current',
        '120 A',
        'amps that rise with speed and stay below the rated ones',
      ],
    ]);
  });

  it('[law] readJson accepts exactly what JSON.parse accepts', () => {
    const mangled = fc
      .tuple(
        fc.json({ maxDepth: 4 }),
        fc.nat(),
        fc.constantFrom('', '"', ',', '{', ']', '\\', '01', 'nul', '\n'),
      )
      .map(([text, at, piece]) => {
        const position = at % (text.length + 1);
        return text.slice(0, position) + piece + text.slice(position);
      });
    fc.assert(
      fc.property(mangled, (text) => {
        const read = readJson(text);
        // Twice the same key, and keys of the language's own, are refused on purpose.
        if (read.kind === 'problem' && read.problem.kind !== 'not-json') return;
        expect(read.kind === 'ok').toBe(isJson(text));
      }),
      { seed: 2, numRuns: 500 },
    );
  });

  it('[law] no text at all makes the reader throw', () => {
    const bits = fc.anything({ withBigInt: false, maxDepth: 3 }).map((value) => {
      try {
        return JSON.stringify({ format: 'ampwright-job', version: 1, boat: value, visits: [value] });
      } catch {
        return '';
      }
    });
    fc.assert(
      fc.property(fc.oneof(fc.string(), bits), (text) => {
        expect(['job', 'problems']).toContain(parseJob(text).kind);
      }),
      { seed: 3, numRuns: 300 },
    );
  });
});

describe('the published schema', () => {
  it('[rule] the file beside the package is current', () => {
    const published = readFileSync(new URL('../schema/job.schema.json', import.meta.url), 'utf8');
    expect(JSON.parse(published)).toEqual(JSON.parse(JSON.stringify(jobSchema())));
  });
});

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
