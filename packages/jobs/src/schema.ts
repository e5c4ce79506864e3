/** The schema of a job file, made from the core's table of parts, so that both always agree.
 *  It holds shape and choices; units, ranges and what refers to what are judged afterwards, with better words.
 *  Nothing is transformed and nothing defaulted: what passes is the input itself.
 */
import { changes, dimensions, origins, partKinds, skills, templateIds } from '@ampwright/core';
import type { Dimension, PartKind } from '@ampwright/core';
import { factTable } from './fact-table.ts';
import { jobFormat, jobVersion } from './job.ts';
import { z } from './z.ts';

const described = <S extends z.core.$ZodType>(schema: S, description: string, more: object = {}): S => {
  z.globalRegistry.add(schema, { description, ...more });
  return schema;
};

const text = (longest: number) => z.nullish(z.string().check(z.maxLength(longest)));
const choice = (options: readonly string[], words: string) =>
  described(z.nullish(z.enum(options as readonly [string, ...string[]])), `${words}; null: unknown`);
const id = described(
  z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/)),
  'Letters, digits, - and _; at most 64',
  { id: 'id' },
);
const terminal = described(
  z.nullish(z.string().check(z.maxLength(130))),
  'A terminal, `part.terminal`: `alternator.B+`',
  { id: 'terminal' },
);
const when = described(
  z.nullish(
    z
      .string()
      .check(z.regex(/^\d{4}-\d{2}-\d{2}(?:T\d{2}:\d{2}(?::\d{2}(?:\.\d{1,9})?)?(?:Z|[+-]\d{2}:\d{2})?)?$/)),
  ),
  'Date or date and time, ISO 8601',
  { id: 'date' },
);

const quantityObjects = new Map<Dimension, z.core.$ZodType>();

/** A quantity; one schema for each dimension, its units listed for the reader. */
function quantityObject(dimension: Dimension): z.core.$ZodType {
  const made = quantityObjects.get(dimension);
  if (made !== undefined) return made;
  const schema = z.strictObject({
    value: z.nullish(z.number()),
    unit: described(z.string().check(z.maxLength(24)), `A unit of ${dimension}`, {
      examples: dimensions[dimension].units.map((entry) => entry.unit),
    }),
    origin: z.nullish(z.enum(origins)),
  });
  z.globalRegistry.add(schema, { id: `quantity-${dimension}`, description: `A ${dimension} with its unit` });
  quantityObjects.set(dimension, schema);
  return schema;
}

const quantity = (dimension: Dimension, words: string) =>
  described(z.nullish(quantityObject(dimension)), `${words}; null: unknown`);

const shapeOf = <T, S>(table: Readonly<Record<string, T>>, make: (entry: T) => S): Record<string, S> =>
  Object.fromEntries(Object.entries(table).map(([key, entry]) => [key, make(entry)]));

const partSchema = (kind: string, entry: PartKind) =>
  described(
    z.strictObject({
      id,
      kind: z.literal(kind),
      label: text(200),
      from: terminal,
      to: terminal,
      serves: z.nullish(id),
      quantities: z.nullish(
        z.strictObject(shapeOf(entry.quantities, (known) => quantity(known.dimension, known.words))),
      ),
      choices: z.nullish(
        z.strictObject(shapeOf(entry.choices, (known) => choice(known.options, known.words))),
      ),
    }),
    `${entry.words}. Terminals: ${entry.terminals.join(', ') || 'none'}`,
  );

const part = z.discriminatedUnion(
  'kind',
  Object.entries(partKinds).map(([kind, entry]) => partSchema(kind, entry)) as unknown as [
    ReturnType<typeof partSchema>,
    ...ReturnType<typeof partSchema>[],
  ],
);

const changed = described(
  z.nullish(z.array(z.enum(changes)).check(z.maxLength(50))),
  'What was altered lately',
);

const facts = described(
  z.nullish(
    z.strictObject({
      nominal_voltage: quantity('voltage', 'nominal voltage, 12 or 24 V'),
      ...shapeOf(factTable, (fact) =>
        'quantity' in fact
          ? quantity(fact.quantity.dimension, fact.quantity.words)
          : choice(fact.choice.options, fact.choice.words),
      ),
      changed,
    }),
  ),
  'Short form: the ten facts in place of the parts',
);

const boat = z.strictObject({
  name: text(200),
  nominal_voltage: quantity('voltage', 'nominal voltage, 12 or 24 V'),
  template: choice(templateIds, 'the usual boat that this one is like'),
  facts,
  changed,
  parts: z.nullish(z.array(part).check(z.maxLength(500))),
});

const reading = described(
  z.strictObject({
    id: z.nullish(id),
    check: described(z.string().check(z.maxLength(160)), 'Id of the check as placed on this boat'),
    value: z.nullish(z.number()),
    unit: described(
      z.nullish(z.string().check(z.maxLength(24))),
      "Unit of the value; the check's own when absent",
    ),
    answer: described(z.nullish(z.string().check(z.maxLength(64))), "One of the check's answers"),
    could_not: z.nullish(z.boolean()),
    engine_speed: quantity('speed', 'engine speed where it differed'),
    since_start: quantity('time', 'time since the start where it differed'),
    meter: text(80),
    taken_at: when,
    note: text(10_000),
    photos: z.nullish(z.array(z.string().check(z.maxLength(300))).check(z.maxLength(100))),
  }),
  'One reading: exactly one of value, answer, could_not',
);

const visit = z.strictObject({
  id: z.nullish(id),
  date: when,
  note: text(10_000),
  engine: z.nullish(
    z.strictObject({
      state: choice(['off', 'key-on', 'cranking', 'running'], 'how the engine stands'),
      speed: quantity('speed', 'engine speed'),
      started_at: when,
    }),
  ),
  repairs: described(
    z.nullish(z.array(z.string().check(z.maxLength(160))).check(z.maxLength(50))),
    'Faults, `fault@part`, put right before its readings: the visit goes on with those of the visit before',
  ),
  readings: z.nullish(z.array(reading).check(z.maxLength(2000))),
  baseline: described(z.nullish(z.boolean()), 'Readings taken when all was well'),
  verdict: z.nullish(
    z.strictObject({
      conclusion: z.string().check(z.maxLength(64)),
      words: text(1000),
      suspects: z.nullish(
        z
          .array(
            z.strictObject({
              id: z.string().check(z.maxLength(160)),
              words: text(300),
              probability: z.number(),
            }),
          )
          .check(z.maxLength(200)),
      ),
    }),
  ),
});

const price = z.number().check(z.gte(0), z.lte(1e6));

/** Shape of a job file. Unknown fields are refused here; the caller turns that refusal into a note. */
export const jobFileSchema = described(
  z.strictObject({
    format: z.literal(jobFormat),
    version: z.number().check(z.gte(1)),
    writer: text(100),
    id: z.nullish(id),
    title: text(200),
    complaint: text(10_000),
    skill: choice(skills, 'skill of whoever does the checks'),
    created: when,
    boat,
    visits: z.nullish(z.array(visit).check(z.maxLength(1000))),
    prices: z.nullish(
      z.strictObject({
        currency: text(8),
        labour_hour: z.nullish(price),
        items: z.nullish(z.record(z.string().check(z.maxLength(64)), price)),
      }),
    ),
  }),
  `A job: one boat, what is known of it, and visits with readings (format version ${jobVersion})`,
);
