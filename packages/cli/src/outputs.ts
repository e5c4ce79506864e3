/** Schemas of what the commands write as JSON. The types of the shapes are taken from here, and the published files
 *  are written from here; the messages of `interview` are in interview-messages.ts. */
import { z } from '@ampwright/jobs';

export const text = z.string();
export const number = z.number();
export const chance = z.number().check(z.gte(0), z.lte(1));
export const list = <S extends z.core.$ZodType>(schema: S) => z.array(schema);
export const described = <S extends z.core.$ZodType>(schema: S, description: string, id?: string): S => {
  // A copy: many fields share one schema, and each has words of its own.
  const own = z.core.clone(schema);
  z.globalRegistry.add(own, { description, ...(id === undefined ? {} : { id }) });
  return own;
};

const condition = described(
  z.strictObject({
    engine: z.enum(['off', 'key-on', 'cranking', 'running']),
    engine_id: described(z.nullable(text), 'Which engine; null: all of them'),
    engine_rpm: described(number, 'Engine speed by its tachometer; 0 unless running'),
    seconds_since_start: described(number, 'Since the engine was started; 0 unless running'),
    rested_hours: described(number, 'Since anything charged the batteries, before this visit'),
    loads: described(z.enum(['off', 'usual', 'test']), 'test: the usual loads and test_load_a more'),
    test_load_a: number,
    test_bank: described(
      z.nullable(text),
      'Bank at whose posts the test load hangs; null: beside the usual loads',
    ),
    field: described(z.enum(['regulated', 'full']), 'full: the field is fed by hand past the regulator'),
    excitation: described(z.enum(['as-wired', 'jumpered']), 'jumpered: fed by hand from battery positive'),
    revved: described(z.boolean(), 'The engine was revved to 2500 rpm once before the reading'),
    other_sources: described(z.enum(['as-found', 'off']), 'Shore charger, solar and the like'),
    filled: described(z.boolean(), 'A charger filled the bank first, and it stands by itself'),
  }),
  'The condition under which the check is done',
  'condition',
);

const terminals = { plus: described(text, 'Terminal `part.terminal`'), minus: text };
const probe = described(
  z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('dc-volts'), ...terminals }),
    z.strictObject({ kind: z.literal('ac-volts'), ...terminals, alternator: text }),
    z.strictObject({ kind: z.literal('alternator-amps'), alternator: text }),
    z.strictObject({ kind: z.literal('battery-amps'), battery: text }),
    z.strictObject({ kind: z.literal('field-ohms'), alternator: text }),
    z.strictObject({ kind: z.literal('field-amps'), alternator: text }),
    z.strictObject({ kind: z.literal('gauge-volts'), gauge: text }),
    z.strictObject({ kind: z.literal('gauge-error'), gauge: text }),
    z.strictObject({ kind: z.literal('label-amps'), alternator: text }),
    z.strictObject({ kind: z.literal('label-amp-hours'), battery: text }),
    z.strictObject({ kind: z.literal('filled-volts'), battery: text, amps: number, seconds: number }),
    z.strictObject({ kind: z.literal('case-temperature'), alternator: text }),
    z.strictObject({ kind: z.literal('belt-slip'), alternator: text }),
    z.strictObject({ kind: z.literal('pulley-ratio'), alternator: text }),
    z.strictObject({ kind: z.literal('shaft-speed'), alternator: text }),
    z.strictObject({ kind: z.literal('gravity-spread'), battery: text }),
  ]),
  'What the instrument is put to. Amps: out of an alternator, into a bank',
  'probe',
);

const outcome = described(
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('number'),
      unit: described(
        text,
        'Unit of a bare answer; other units of the same dimension are accepted when named',
      ),
      range: described(z.tuple([number, number]), 'Plausible range, in that unit'),
      probe,
    }),
    z.strictObject({
      kind: z.literal('answers'),
      question: text,
      answers: list(z.strictObject({ id: described(text, 'What to answer'), words: text })),
    }),
  ]),
  'What the check gives: a number at a probe, or one of the answers to a question',
  'outcome',
);

/** What is said of a check; the same in `checks`, `ask` and `next`. */
export const checkFields = {
  check: described(text, 'Id as placed on this boat: `check@part`'),
  catalogue: described(text, 'Id of the check in the catalogue'),
  part: described(z.nullable(text), 'Part that the check is on; null: the whole boat'),
  words: text,
  way: z.enum(['ask', 'look', 'listen', 'measure', 'intervene']),
  minutes: number,
  skill: z.enum(['owner', 'apprentice', 'electrician']),
  risk: described(
    z.int(),
    '0 none, 1 moving or hot parts near, 2 live work, engine running, 3 can do damage',
  ),
  tools: list(text),
  needs: list(text),
  cautions: list(text),
  steps: list(text),
  condition,
  outcome,
};

export const checkShape = described(z.strictObject(checkFields), 'A check', 'check');

export const question = z.enum(['making', 'arriving', 'enough', 'lasting']);
export const answers = described(
  list(z.strictObject({ question, yes: chance, error: number, words: text })),
  'The four questions, in order; `yes` is the chance that the answer is yes',
);
const band = described(
  z.strictObject({ low: number, middle: number, high: number, unit: text }),
  'Range that holds 90 % of the chance',
  'band',
);
export const evidence = described(
  z.strictObject({ reading: text, check: text, factor: number, words: text }),
  'What one reading says: an odds factor, above 1 for, below 1 against',
  'evidence',
);
export const conclusion = described(
  z.strictObject({
    kind: z.enum([
      'go-on',
      'look-again',
      'decided',
      'nothing-wrong',
      'no-check-worth-it',
      'nothing-fits',
      'readings-contradict',
    ]),
    suspect: z.optional(text),
    suspects: z.optional(list(text)),
    repeat: z.optional(z.nullable(text)),
  }),
  'Why to stop, or to go on',
  'conclusion',
);
export const suspectFields = {
  id: described(text, '`fault@part`'),
  fault: text,
  part: text,
  nature: z.enum(['fault', 'normal']),
  question: z.enum(['making', 'arriving', 'enough', 'lasting', 'none']),
  probability: chance,
  odds: described(text, 'The probability in words'),
  words: text,
};
export const jobHead = z.strictObject({ id: text, title: z.nullable(text), complaint: z.nullable(text) });
const problem = described(
  z.strictObject({
    kind: text,
    pointer: described(text, 'JSON pointer (RFC 6901)'),
    place: text,
    value: text,
    allowed: text,
    advice: text,
    nearest: z.optional(list(text)),
  }),
  'What is wrong at one place of a job file',
  'problem',
);
const priceRange = { low: number, high: number };
export const remedy = described(
  z.strictObject({
    kind: described(
      z.enum(['repair', 'nothing-broken', 'check-on', 'read-again']),
      'check-on: no suspect is likely enough to spend money on; read-again: the readings fit nothing',
    ),
    suspect: z.nullable(text),
    words: text,
    cautions: list(text),
    work: described(
      list(z.strictObject({ act: text, words: text, because: text })),
      'In the order of the work',
    ),
    why_it_failed: list(text),
    look_also: described(
      list(z.strictObject({ fault: text, words: text, checks: list(text) })),
      'What may have caused it, and the checks that tell',
    ),
    parts: list(
      z.strictObject({ key: text, words: text, size: z.nullable(text), price: z.strictObject(priceRange) }),
    ),
    cost: z.nullable(z.strictObject({ ...priceRange, currency: text, status: text })),
    otherwise: described(
      list(z.strictObject({ suspect: text, words: text, probability: chance, remedy: text })),
      'Other suspects that are still likely',
    ),
    rules: described(
      list(z.strictObject({ id: text, standing: text, says: text, advice: z.nullable(text) })),
      'Rules for the whole system that are broken or near it',
    ),
    hours: described(
      list(
        z.strictObject({
          battery: text,
          from: chance,
          amps: number,
          hours_to_knee: z.nullable(number),
          hours_to_full: described(z.nullable(number), 'null: never'),
        }),
      ),
      'How long a bank needs, where that matters',
    ),
    proof: described(
      list(z.strictObject({ check: text, words: text, healthy: z.nullable(band), answer: z.nullable(text) })),
      'Checks to repeat when the work is done',
    ),
    baseline: list(text),
  }),
  'What to do',
  'remedy',
);

export const head = <F extends string>(format: F) => ({ format: z.literal(format), version: z.literal(1) });

export const validationShape = z.strictObject({
  ...head('ampwright-validation'),
  ok: z.boolean(),
  read_only: z.boolean(),
  problems: list(problem),
  notes: list(problem),
});

export const checksShape = z.strictObject({
  ...head('ampwright-checks'),
  job: z.nullable(jobHead),
  checks: list(
    z.strictObject({
      ...checkFields,
      example_on: z.optional(
        described(
          z.strictObject({ template: text, regulator_place: z.nullable(text), excitation: z.nullable(text) }),
          'Without a job: the boat of whose parts condition and outcome speak',
        ),
      ),
    }),
  ),
});

export const faultsShape = z.strictObject({
  ...head('ampwright-faults'),
  job: z.nullable(jobHead),
  faults: list(
    z.strictObject({
      id: text,
      words: text,
      family: text,
      nature: z.enum(['fault', 'normal']),
      question: suspectFields.question,
      prior: described(chance, 'Chance among boats that are complained of, before anything is known'),
      owner_words: text,
      remedy: text,
      placed_on: described(list(text), 'Ids of the parts that can have it; "" for the whole boat'),
    }),
  ),
});

export const diagnosisShape = z.strictObject({
  ...head('ampwright-diagnosis'),
  job: jobHead,
  visit: z.nullable(text),
  repaired: described(
    list(text),
    'Faults (`fault@part`) that were put right by this visit; all else speaks of what is still wrong',
  ),
  wrong: described(chance, 'Chance that something is wrong at all'),
  answers,
  suspects: list(
    z.strictObject({
      ...suspectFields,
      family: text,
      owner_words: text,
      error: number,
      prior: chance,
      why: list(evidence),
    }),
  ),
  nothing_fits: described(chance, 'Chance that nothing known fits the readings'),
  cleared: list(z.strictObject({ id: text, words: text, probability: chance, by: evidence })),
  readings: list(
    z.strictObject({
      reading: text,
      check: text,
      words: text,
      value: z.nullable(number),
      unit: z.nullable(text),
      answer: z.nullable(text),
      healthy: z.nullable(band),
      expected: z.nullable(band),
      healthy_chance: z.nullable(chance),
      stands: z.enum(['in', 'low', 'high', 'usual', 'unusual', 'none']),
      slip: described(chance, 'Chance that it is a slip of the hand'),
      after_repair_of: described(list(text), 'Faults that had been put right when it was taken'),
    }),
  ),
  next: described(
    list(
      z.strictObject({
        ...checkFields,
        bits: number,
        bits_per_minute: number,
        saves: described(number, 'What it saves in the expected cost of repair, in units of the price table'),
        worth: described(number, 'What it is worth, as a step to further checks, too; in the same units'),
        costs: described(number, 'What its minutes cost, in the same units'),
        healthy: z.nullable(band),
        previews: list(
          z.strictObject({
            outcome: text,
            words: text,
            chance,
            then: text,
            then_probability: chance,
          }),
        ),
      }),
    ),
    'Next checks, best first',
  ),
  conclusion,
  amps: list(z.strictObject({ battery: text, band })),
  assumed: list(text),
  remedy,
  reliability: z.strictObject({
    draws: number,
    operating_points: number,
    not_converged: number,
    effective_draws: number,
    error: number,
  }),
});

export const predictionShape = z.strictObject({
  ...head('ampwright-prediction'),
  job: jobHead,
  visit: z.nullable(text),
  checks: list(
    z.strictObject({
      check: text,
      words: text,
      condition,
      healthy: described(band, 'Where the reading would lie if all were well'),
    }),
  ),
});

export type CheckShape = z.infer<typeof checkShape>;
export type DiagnosisShape = z.infer<typeof diagnosisShape>;
export type PredictionShape = z.infer<typeof predictionShape>;
export type ChecksShape = z.infer<typeof checksShape>;
export type FaultsShape = z.infer<typeof faultsShape>;
export type ValidationShape = z.infer<typeof validationShape>;
export type BandShape = z.infer<typeof band>;
export type JobHead = z.infer<typeof jobHead>;
export type RemedyShape = z.infer<typeof remedy>;
