/** Problems of a job file as a person reads them. */
import type { Problem } from '@ampwright/jobs';
import { wrapped } from './say.ts';

/** One block of lines for each problem: place and kind, what stands there, what may, what to do. */
export function problemsText(path: string, problems: readonly Problem[]): string {
  return problems.map((problem) => problemText(path, problem)).join('\n\n');
}

function problemText(path: string, problem: Problem): string {
  return [
    wrapped(`${path}: ${problem.kind.replaceAll('-', ' ')}, at ${problem.place}`),
    ...(problem.pointer === '' ? [] : [wrapped(problem.pointer, '  where    ')]),
    wrapped(problem.value, '  found    '),
    wrapped(problem.allowed, '  allowed  '),
    wrapped(problem.advice, '  do       '),
  ].join('\n');
}
