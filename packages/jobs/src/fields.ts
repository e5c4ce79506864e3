/** Names of the fields that the schema knows at a place of a file, for "did you mean". */
import { jobFileSchema } from './schema.ts';
import type { Path } from './problem.ts';
import { z } from './z.ts';

/** Known field names of the object at a path; empty where the schema has no object. */
export function fieldsAt(root: unknown, path: Path): readonly string[] {
  let schema: z.core.$ZodType | undefined = jobFileSchema;
  let node = root;
  for (const step of path) {
    schema = inner(schema, node);
    if (schema instanceof z.core.$ZodObject) schema = schema._zod.def.shape[step];
    else if (schema instanceof z.core.$ZodArray) schema = schema._zod.def.element;
    else return [];
    node =
      typeof node === 'object' && node !== null
        ? (node as Record<string | number, unknown>)[step]
        : undefined;
  }
  const object = inner(schema, node);
  return object instanceof z.core.$ZodObject ? Object.keys(object._zod.def.shape) : [];
}

/** The schema under optional, nullable and, for a union by kind, the option of the value's kind. */
function inner(schema: z.core.$ZodType | undefined, node: unknown): z.core.$ZodType | undefined {
  if (schema instanceof z.core.$ZodOptional || schema instanceof z.core.$ZodNullable) {
    return inner(schema._zod.def.innerType, node);
  }
  if (schema instanceof z.core.$ZodUnion) {
    const options = schema._zod.def.options;
    return options.find((option) => z.safeParse(option, node).success) ?? ofKind(options, node) ?? options[0];
  }
  return schema;
}

function ofKind(options: readonly z.core.$ZodType[], node: unknown): z.core.$ZodType | undefined {
  const kind = typeof node === 'object' && node !== null ? (node as { kind?: unknown }).kind : undefined;
  return options.find((option) => {
    const literal =
      option instanceof z.core.$ZodObject ? (option._zod.def.shape.kind as z.core.$ZodType) : undefined;
    return literal instanceof z.core.$ZodLiteral && literal._zod.def.values.includes(kind as never);
  });
}
