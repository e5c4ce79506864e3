/** What to do about what was found. */
import type { Verdict } from '@ampwright/core';
import type { RemedyShape } from './outputs.ts';
import type { Work } from './work.ts';

/** The remedy of a verdict's first suspect; null while nothing is decided. */
export function remedyOf(_work: Work): (verdict: Verdict) => RemedyShape {
  return () => null;
}
