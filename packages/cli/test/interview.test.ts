import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reading } from '@ampwright/core';
import { parseJob, z } from '@ampwright/jobs';
import { Interview, longestLine } from '../src/interview.ts';
import { interviewOutShape, type InterviewOut } from '../src/interview-messages.ts';
import { workOf, type Work } from '../src/work.ts';
import { noRemedy, scriptedVerdict } from './scripted.ts';

type Asked = Extract<InterviewOut, { type: 'ask' }>;

function workOn(boat: object): Work {
  const parsed = parseJob(JSON.stringify({ format: 'ampwright-job', version: 1, boat }));
  if (parsed.kind === 'problems') throw new Error(JSON.stringify(parsed.problems));
  return workOf(parsed.job);
}

function interviewOn(boat: object, maxAsks = 40): Interview {
  const work = workOn(boat);
  const diagnose = (readings: readonly Reading[]) => scriptedVerdict(work.checks, readings);
  return new Interview({ ...work, diagnose }, { maxAsks, remedyOf: noRemedy });
}

const plainBoat = { template: 'one-battery', facts: {} };

/** A counterpart that answers each ask by a rule; the messages of the whole dialogue, each held to the schema. */
function play(interview: Interview, reply: (ask: Asked) => unknown[], most = 400): InterviewOut[] {
  const heard: InterviewOut[] = [];
  const queue: InterviewOut[] = interview.start();
  for (let turn = 0; turn < most; turn++) {
    const message = queue.shift();
    if (message === undefined) break;
    z.parse(interviewOutShape, JSON.parse(JSON.stringify(message)));
    heard.push(message);
    if (message.type !== 'ask') continue;
    for (const line of reply(message)) {
      queue.push(...interview.receive(typeof line === 'string' ? line : JSON.stringify(line)));
    }
  }
  queue.push(...interview.end());
  heard.push(...queue);
  return heard;
}

const middleAnswer = (ask: Asked): object =>
  ask.outcome.kind === 'number'
    ? { type: 'answer', ask: ask.ask, value: 12.5, unit: ask.outcome.unit }
    : { type: 'answer', ask: ask.ask, answer: ask.outcome.answers[0]!.id };

describe('the dialogue', () => {
  it('[rule] greets, asks, notes, and ends with one verdict', () => {
    const heard = play(interviewOn(plainBoat, 4), (ask) => [middleAnswer(ask)]);
    expect(heard[0]).toMatchObject({ type: 'hello', format: 'ampwright-interview', version: 1 });
    expect(heard.at(-1)).toMatchObject({ type: 'verdict' });
    expect(heard.filter((message) => message.type === 'verdict')).toHaveLength(1);
    const asks = heard.filter((message) => message.type === 'ask');
    expect(asks.length).toBeGreaterThan(0);
    expect(asks.length).toBeLessThanOrEqual(4);
  });

  it('[rule] after a repair, a check that was read before is read anew, and both readings count', () => {
    const check = 'battery-volts-fast@battery';
    const belt = 'belt-broken@belt';
    const parsed = parseJob(
      JSON.stringify({
        format: 'ampwright-job',
        version: 1,
        boat: plainBoat,
        visits: [{ readings: [{ check, value: 12.1 }] }, { repairs: [belt] }],
      }),
    );
    if (parsed.kind === 'problems') throw new Error(JSON.stringify(parsed.problems));
    const work = workOf(parsed.job);
    let heard: readonly Reading[] = [];
    const diagnose = (readings: readonly Reading[]) => {
      heard = readings;
      return scriptedVerdict(work.checks, []);
    };
    const interview = new Interview({ ...work, diagnose }, { maxAsks: 9, remedyOf: noRemedy });
    interview.start();
    interview.receive(JSON.stringify({ type: 'reading', check, value: 14.1 }));
    interview.receive('{"type":"stop"}');
    expect(heard).toMatchObject([
      { check, outcome: { value: 12.1 } },
      { check, outcome: { value: 14.1 }, afterRepairOf: [belt] },
    ]);
    expect(heard[0]).not.toHaveProperty('afterRepairOf');
  });

  it('[rule] an end of the input, a stop, and no asks allowed all bring the verdict', () => {
    const ended = interviewOn(plainBoat);
    ended.start();
    expect(ended.end()).toMatchObject([{ type: 'verdict', stopped_by: 'end-of-input' }]);
    const stopped = interviewOn(plainBoat);
    stopped.start();
    expect(stopped.receive('{"type":"stop"}')).toMatchObject([{ type: 'verdict', stopped_by: 'stop' }]);
    expect(stopped.receive('{"type":"stop"}')).toEqual([]);
    expect(stopped.end()).toEqual([]);
    expect(interviewOn(plainBoat, 0).start()).toMatchObject([
      { type: 'hello' },
      { type: 'verdict', stopped_by: 'max-asks' },
    ]);
  });

  it('[rule] one who can do nothing is asked each check once, and then told the verdict', () => {
    const heard = play(interviewOn(plainBoat, 1000), (ask) => [
      { type: 'answer', ask: ask.ask, cannot: true },
    ]);
    const asked = heard.flatMap((message) => (message.type === 'ask' ? [message.check] : []));
    expect(new Set(asked).size).toBe(asked.length);
    expect(heard.at(-1)).toMatchObject({ type: 'verdict', minutes_spent: 0 });
  });

  it('[rule] a bad answer is refused with what is allowed, the ask stands, and a good one is still taken', () => {
    const interview = interviewOn(plainBoat);
    const ask = interview.start().find((message) => message.type === 'ask')!;
    const bad =
      ask.outcome.kind === 'number' ? { value: 1e7, unit: ask.outcome.unit } : { answer: 'perhaps' };
    const refused = interview.receive(JSON.stringify({ type: 'answer', ask: ask.ask, ...bad }));
    expect(refused).toMatchObject([{ type: 'error', ask: ask.ask }]);
    expect((refused[0] as { allowed: string }).allowed).not.toBe('');
    const taken = interview.receive(JSON.stringify(middleAnswer(ask)));
    expect(taken[0]).toMatchObject({ type: 'noted', ask: ask.ask, check: ask.check });
  });

  it('[rule] an ask whose answers are refused again and again counts as "could not do"', () => {
    const heard = play(interviewOn(plainBoat, 6), (ask) =>
      Array.from({ length: 3 }, () => ({ type: 'answer', ask: ask.ask, value: 'a lot', answer: 'perhaps' })),
    );
    expect(heard.filter((message) => message.type === 'error')).toHaveLength(
      3 * heard.filter((message) => message.type === 'ask').length,
    );
    expect(heard.at(-1)).toMatchObject({ type: 'verdict' });
  });

  it('[rule] other units, numbers in text, and a bare number are the same reading', () => {
    const taken = [
      '{"value":12.6}',
      '{"value":12600,"unit":"mV"}',
      '{"value":"12.6 V"}',
      '{"value":"12,6"}',
    ].map((given) => {
      const interview = interviewOn(plainBoat);
      interview.start();
      return interview.receive(
        JSON.stringify({ type: 'reading', check: 'battery-volts-rest', ...(JSON.parse(given) as object) }),
      )[0];
    });
    for (const message of taken) {
      expect(message).toMatchObject({ type: 'noted', check: 'battery-volts-rest@battery', outcome: 'value' });
    }
  });

  it('[rule] readings are taken unasked, late, and twice; why is answered', () => {
    const interview = interviewOn(plainBoat);
    const first = interview.start().find((message) => message.type === 'ask')!;
    const second = interview
      .receive(JSON.stringify(middleAnswer(first)))
      .find((message) => message.type === 'ask')!;
    expect(interview.receive(JSON.stringify(middleAnswer(first)))).toMatchObject([
      { type: 'noted', ask: first.ask },
    ]);
    expect(interview.receive('{"type":"why"}')).toMatchObject([{ type: 'why' }]);
    expect(interview.receive(JSON.stringify({ type: 'answer', ask: 999, value: 1 }))).toMatchObject([
      { type: 'error', kind: 'unknown-ask', ask: second.ask },
    ]);
    expect(
      interview.receive(JSON.stringify({ type: 'reading', check: 'batery-volts-rest', value: 1 })),
    ).toMatchObject([
      {
        type: 'error',
        kind: 'unknown-check',
        allowed: expect.stringContaining('battery-volts-rest@battery') as string,
      },
    ]);
  });

  it('[rule] a reading that cannot be computed with is set aside, and the dialogue goes on', () => {
    const work = workOn(plainBoat);
    const impossible = (value: number) => value === 12.34;
    const interview = new Interview(
      {
        ...work,
        diagnose: (readings) => {
          if (readings.some(({ outcome }) => outcome.kind === 'number' && impossible(outcome.value))) {
            throw new RangeError('no such world');
          }
          return scriptedVerdict(work.checks, readings);
        },
      },
      { maxAsks: 3, remedyOf: noRemedy },
    );
    interview.start();
    expect(interview.receive('{"type":"reading","check":"battery-volts-rest","value":12.34}')).toHaveLength(
      1,
    );
    const answered = interview.receive('{"type":"answer","cannot":true}');
    expect(answered).toContainEqual(expect.objectContaining({ type: 'error', kind: 'cannot-compute' }));
    expect(interview.end()).toMatchObject([{ type: 'verdict', minutes_spent: 0 }]);
  });

  it('[rule] a reading that a verdict hangs on is asked once more, and both count', () => {
    const work = workOn(plainBoat);
    let heard: readonly Reading[] = [];
    const diagnose = (readings: readonly Reading[]) => {
      heard = readings;
      const verdict = scriptedVerdict(work.checks, readings);
      const repeat = readings[0]?.id ?? '';
      if (readings.length === 0) return verdict;
      return readings.length === 1
        ? { ...verdict, conclusion: { kind: 'look-again', repeat } as const }
        : { ...verdict, conclusion: { kind: 'decided', suspect: 'rotor-open@alternator' } as const };
    };
    const spoken = play(new Interview({ ...work, diagnose }, { maxAsks: 9, remedyOf: noRemedy }), (ask) => [
      middleAnswer(ask),
    ]);
    const asks = spoken.filter((message) => message.type === 'ask');
    expect(asks.map(({ repeat }) => repeat)).toEqual([false, true]);
    expect(asks[1]?.check).toBe(asks[0]?.check);
    expect(heard).toHaveLength(2);
    expect(new Set(heard.map(({ id }) => id)).size).toBe(2);
    expect(spoken.at(-1)).toMatchObject({ type: 'verdict', conclusion: { kind: 'decided' } });
  });

  it('[rule] one that could not be looked at again ends the dialogue all the same', () => {
    const work = workOn(plainBoat);
    const diagnose = (readings: readonly Reading[]) => {
      const [first] = readings.filter(({ outcome }) => outcome.kind !== 'could-not');
      const verdict = scriptedVerdict(work.checks, readings);
      return first === undefined
        ? verdict
        : { ...verdict, conclusion: { kind: 'look-again', repeat: first.id } as const };
    };
    let count = 0;
    const spoken = play(new Interview({ ...work, diagnose }, { maxAsks: 9, remedyOf: noRemedy }), (ask) => [
      count++ === 0 ? middleAnswer(ask) : { type: 'answer', ask: ask.ask, cannot: true },
    ]);
    expect(spoken.filter((message) => message.type === 'ask')).toHaveLength(2);
    expect(spoken.at(-1)).toMatchObject({ type: 'verdict' });
  });

  it('[rule] garbage of any kind is answered by errors and never ends the dialogue badly', () => {
    const garbage = fc.oneof(
      fc.string(),
      fc.json(),
      fc
        .record(
          {
            type: fc.constantFrom('answer', 'reading', 'why', 'ask', 7, null),
            ask: fc.oneof(fc.integer({ min: -1, max: 4 }), fc.string()),
            check: fc.constantFrom('battery-volts-rest', '__proto__', 'constructor', ''),
            value: fc.oneof(fc.double(), fc.string(), fc.constant(null)),
            unit: fc.constantFrom('V', 'A', 'furlong', '', 5),
            answer: fc.oneof(fc.boolean(), fc.string()),
            cannot: fc.oneof(fc.boolean(), fc.string()),
          },
          { requiredKeys: ['type'] },
        )
        .map((message) => JSON.stringify(message)),
    );
    fc.assert(
      fc.property(fc.array(garbage, { maxLength: 12 }), (lines) => {
        const interview = interviewOn(plainBoat, 3);
        const heard = interview.start();
        for (const line of lines) heard.push(...interview.receive(line));
        heard.push(...interview.end());
        for (const message of heard) z.parse(interviewOutShape, JSON.parse(JSON.stringify(message)));
        expect(heard.filter((message) => message.type === 'verdict')).toHaveLength(1);
      }),
      { seed: 11, numRuns: 100 },
    );
    const interview = interviewOn(plainBoat);
    interview.start();
    expect(interview.receive('x'.repeat(longestLine + 1))).toMatchObject([
      { type: 'error', kind: 'too-long' },
    ]);
  });
});
