import type { Verdict } from '../work/contract.ts';

/** Whether a verdict hangs on a reading: what is read then stands beside it, not in its place. */
export const hangsOn = (verdict: Verdict | undefined, reading: string | undefined): boolean =>
  verdict?.conclusion.kind === 'look-again' && verdict.conclusion.repeat === reading;
