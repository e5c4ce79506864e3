/** `validate JOB`: whether the file is good, and every problem where it is not. */
import type { ParsedJob, Problem } from '@ampwright/jobs';
import type { ValidationShape } from '../outputs.ts';
import { problemsText } from '../problems-text.ts';
import { plain } from '../say.ts';
import type { Result } from './result.ts';

export function validate(path: string, parsed: ParsedJob): Result {
  const problems = parsed.kind === 'problems' ? parsed.problems : [];
  const notes = parsed.kind === 'job' ? parsed.notes : [];
  const readOnly = parsed.kind === 'job' && parsed.readOnly;
  const json: ValidationShape = {
    format: 'ampwright-validation',
    version: 1,
    ok: problems.length === 0 && !readOnly,
    read_only: readOnly,
    problems: problems.map(shapeOfProblem),
    notes: notes.map(shapeOfProblem),
  };
  const name = plain(path);
  const found = problemsText(name, [...problems, ...notes]);
  const summary = json.ok
    ? `${name} is a good job file.`
    : `${name} cannot be used as it is (${counted(problems.length + (readOnly ? 1 : 0))}). Nothing was changed.`;
  return { json, text: [found, summary].filter((block) => block !== '').join('\n\n'), code: json.ok ? 0 : 1 };
}

function shapeOfProblem({ nearest, ...rest }: Problem): ValidationShape['problems'][number] {
  return { ...rest, ...(nearest === undefined ? {} : { nearest: [...nearest] }) };
}

const counted = (count: number): string => (count === 1 ? '1 problem' : `${count} problems`);
