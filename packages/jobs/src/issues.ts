/** Turns what the schema refuses into problems that name place, value, what is allowed, and what to do. */
import { nearestNames } from '@ampwright/core';
import { placeOf, pointerOf, shown, valueAt, type Path, type Problem, type ProblemKind } from './problem.ts';
import type { z } from './z.ts';

export interface SchemaFindings {
  readonly problems: Problem[];
  /** Unknown fields: kept, and mentioned. */
  readonly notes: Problem[];
  /** Where the unknown fields are. */
  readonly unknownPaths: readonly Path[];
}

/** Problems and notes of a schema's issues, in the order of the file. */
export function findingsOf(
  root: unknown,
  issues: readonly z.core.$ZodIssue[],
  fieldsAt: (path: Path) => readonly string[],
): SchemaFindings {
  const findings = { problems: [] as Problem[], notes: [] as Problem[], unknownPaths: [] as Path[] };
  for (const issue of issues) {
    const path = issue.path.filter((step) => typeof step !== 'symbol');
    if (issue.code !== 'unrecognized_keys') {
      findings.problems.push(problemOf(root, path, issue));
      continue;
    }
    for (const key of issue.keys) {
      const nearest = nearestNames(key, fieldsAt(path));
      findings.unknownPaths.push([...path, key]);
      findings.notes.push({
        ...at(root, [...path, key]),
        kind: 'unknown-field',
        allowed: fieldsAt(path).join(', ') || 'the fields of the published schema',
        advice: `The field is kept and not used.${nearest[0] === undefined ? '' : ` Did you mean ${nearest[0]}?`}`,
        nearest,
      });
    }
  }
  return findings;
}

const at = (root: unknown, path: Path) => ({
  pointer: pointerOf(path),
  place: placeOf(root, path),
  value: shown(valueAt(root, path)),
});

function problemOf(root: unknown, path: Path, issue: z.core.$ZodIssue): Problem {
  const value = valueAt(root, path);
  const base = at(root, path);
  const choices = choicesOf(issue);
  if (value === undefined) {
    return {
      ...base,
      kind: 'missing',
      allowed: choices?.join(', ') ?? allowedType(issue),
      advice: 'Add the field.',
    };
  }
  if (choices !== undefined && typeof value === 'string') {
    const nearest = nearestNames(value, choices);
    return {
      ...base,
      kind: 'unknown-choice',
      allowed: choices.join(', '),
      advice:
        nearest[0] === undefined ? 'Use one of these, or null for unknown.' : `Did you mean ${nearest[0]}?`,
      nearest,
    };
  }
  const [kind, allowed, advice] = wordsOf(issue, value);
  return { ...base, kind, allowed, advice };
}

function wordsOf(issue: z.core.$ZodIssue, value: unknown): readonly [ProblemKind, string, string] {
  switch (issue.code) {
    case 'too_big':
      return issue.origin === 'number'
        ? ['out-of-range', `at most ${String(issue.maximum)}`, 'Correct the number.']
        : [
            'too-long',
            `at most ${String(issue.maximum)} ${issue.origin === 'array' ? 'items' : 'characters'}`,
            'Shorten it.',
          ];
    case 'too_small':
      return ['out-of-range', `at least ${String(issue.minimum)}`, 'Correct the number.'];
    case 'invalid_format':
      return issue.pattern?.includes('\\d{4}-') === true
        ? ['bad-date', 'a date such as 2026-05-17 or 2026-05-17T09:30Z', 'Write the date like this.']
        : [
            'bad-id',
            'letters, digits, - and _, at most 64, no spaces',
            'Choose such an id; the label may hold any text.',
          ];
    default:
      return typeof value === 'number' && !Number.isFinite(value)
        ? ['out-of-range', 'a finite number', 'Write null for what is unknown.']
        : ['wrong-type', allowedType(issue), 'Write null for what is unknown.'];
  }
}

function choicesOf(issue: z.core.$ZodIssue): readonly string[] | undefined {
  if (issue.code === 'invalid_value') return issue.values.map(String);
  if (issue.code === 'invalid_union' && 'options' in issue && Array.isArray(issue.options)) {
    return issue.options.map(String);
  }
  return undefined;
}

function allowedType(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_value') return issue.values.map(String).join(', ');
  if (issue.code !== 'invalid_type') return 'another kind of value';
  const words: Readonly<Record<string, string>> = {
    number: 'a number',
    string: 'text in double quotes',
    boolean: 'true or false',
    object: 'an object in braces',
    array: 'a list in brackets',
    record: 'an object in braces',
  };
  return words[issue.expected] ?? issue.expected;
}
