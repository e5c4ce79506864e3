import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { boatAt, cloneBoat, createSession, Operator, placedChecks } from '@ampwright/core';
import { expectSameAsNgspice, exportedPoint } from '../../core/test/oracle/operating-points.ts';
import { descriptionOf, parseJob, readingsOf } from '../src/index.ts';

const folder = new URL('../../../examples/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.json'));

test('[rival] ngspice finds every operating point of the example jobs', { timeout: 300_000 }, () => {
  const exported = files.flatMap((file) => {
    const parsed = parseJob(readFileSync(new URL(file, folder), 'utf8'));
    if (parsed.kind !== 'job') throw new Error(`${file} is no job`);
    const description = descriptionOf(parsed.job);
    const checks = placedChecks(description);
    const readings = parsed.job.visits.flatMap((visit) => readingsOf(visit, checks));
    const session = createSession(description);
    const [first] = session.diagnose(readings).suspects;
    const placed = session.faults.find(({ id }) => id === first?.id);
    const healthy = boatAt(description);
    const faulty = cloneBoat(healthy);
    placed?.fault.apply(faulty, placed.part, 0.5);
    const operator = new Operator(healthy);
    // Under every condition in which something was read: the boat without fault, and with the one found.
    const read = new Set(readings.map(({ check }) => check));
    const conditions = checks.filter(({ id }) => read.has(id)).map(({ condition }) => condition);
    const distinct = [...new Map(conditions.map((one) => [JSON.stringify(one), one])).values()];
    return distinct.flatMap((condition) => [
      exportedPoint(
        operator,
        healthy,
        condition,
        `${file}, healthy, ${condition.engine} ${condition.sinceStart} s`,
      ),
      exportedPoint(
        operator,
        faulty,
        condition,
        `${file}, ${first?.id ?? ''}, ${condition.engine} ${condition.sinceStart} s`,
      ),
    ]);
  });
  expect(exported.length).toBeGreaterThan(40);
  expectSameAsNgspice(exported);
});
