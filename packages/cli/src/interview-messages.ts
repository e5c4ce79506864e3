/** Schemas of the messages of `interview`, both ways. */
import { z } from '@ampwright/jobs';
import {
  answers,
  chance,
  checkFields,
  conclusion,
  described,
  evidence,
  head,
  jobHead,
  list,
  number,
  question,
  remedy,
  suspectFields,
  text,
} from './outputs.ts';

const soFar = z.strictObject({
  wrong: chance,
  answers: list(z.strictObject({ question, yes: chance })),
  leading: z.nullable(z.strictObject({ id: text, words: text, probability: chance })),
  nothing_fits: chance,
});

/** What `interview` writes: one of these a line. */
export const interviewOutShape = z.discriminatedUnion('type', [
  z.strictObject({
    type: z.literal('hello'),
    ...head('ampwright-interview'),
    writer: text,
    job: jobHead,
    checks: described(z.int(), 'Checks that can be asked on this boat'),
    readings: described(z.int(), 'Readings that the job holds already'),
    max_asks: z.int(),
  }),
  z.strictObject({
    type: z.literal('ask'),
    ask: described(z.int(), 'Number of the ask; repeat it in the answer'),
    ...checkFields,
    repeat: described(z.boolean(), 'The check was answered before and should be done once more'),
    bits_per_minute: number,
    so_far: soFar,
  }),
  z.strictObject({
    type: z.literal('noted'),
    ask: described(z.nullable(z.int()), 'The ask that was answered; null for a reading that was offered'),
    check: text,
    outcome: z.enum(['value', 'answer', 'could-not']),
    words: text,
  }),
  z.strictObject({
    type: z.literal('error'),
    kind: z.enum([
      'not-json',
      'too-long',
      'bad-message',
      'unknown-type',
      'unknown-ask',
      'unknown-check',
      'unknown-unit',
      'unknown-answer',
      'wrong-outcome',
      'implausible-reading',
      'cannot-compute',
    ]),
    message: text,
    allowed: text,
    ask: described(z.nullable(z.int()), 'The ask that still stands'),
  }),
  z.strictObject({
    type: z.literal('why'),
    suspects: list(z.strictObject({ ...suspectFields, why: list(evidence) })),
    cleared: list(z.strictObject({ id: text, words: text, by: evidence })),
  }),
  z.strictObject({
    type: z.literal('verdict'),
    stopped_by: z.enum(['conclusion', 'stop', 'end-of-input', 'max-asks', 'no-check-left']),
    conclusion,
    wrong: chance,
    answers,
    suspects: list(z.strictObject(suspectFields)),
    nothing_fits: chance,
    asks: z.int(),
    minutes_spent: number,
    remedy,
  }),
]);

const conditionChanges = {
  engine_rpm: described(z.nullish(number), "Where it differed from the check's own condition"),
  seconds_since_start: z.nullish(number),
  meter: described(z.nullish(z.string().check(z.maxLength(80))), 'Readings of one meter share its error'),
};
const given = {
  value: described(z.nullish(z.union([number, text])), 'A number, or text such as "13.4 V"'),
  unit: described(z.nullish(text), 'Unit of the value; the unit asked for when absent'),
  answer: described(
    z.nullish(z.union([text, z.boolean()])),
    'Id of one of the answers; true and false: yes and no',
  ),
};

/** What `interview` reads: one of these a line. Fields that it does not know are passed over;
 *  null is the same as absent. */
export const interviewInShape = z.discriminatedUnion('type', [
  z.object({
    type: z.literal('answer'),
    ask: described(z.nullish(z.int()), 'Number of the ask; the one that stands when absent'),
    ...given,
    cannot: z.nullish(z.boolean()),
    reason: z.nullish(text),
    ...conditionChanges,
  }),
  z.object({
    type: z.literal('reading'),
    check: described(text, 'Placed id, or the id of the catalogue where it stands in one place'),
    ...given,
    ...conditionChanges,
  }),
  z.object({ type: z.literal('why') }),
  z.object({ type: z.literal('stop') }),
]);

export type InterviewOut = z.infer<typeof interviewOutShape>;
export type InterviewIn = z.infer<typeof interviewInShape>;
