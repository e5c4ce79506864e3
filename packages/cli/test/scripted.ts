/** A stand-in for the diagnosis, for tests of the dialogue alone: it proposes the checks in their order and decides when
 *  all were done. Its numbers mean nothing. */
import type { RemedyShape } from '../src/outputs.ts';
import type { PlacedCheck, Reading, Verdict } from '@ampwright/core';

export function scriptedVerdict(checks: readonly PlacedCheck[], readings: readonly Reading[]): Verdict {
  const open = checks.filter((check) => !readings.some((reading) => reading.check === check.id));
  const evidence = { reading: 'r', check: 'c', factor: 2, words: 'speaks 2 to 1 for it' };
  return {
    repaired: [],
    wrong: 0.5,
    answers: [{ question: 'making', yes: 0.5, error: 0, words: 'Open' }],
    suspects: [
      {
        id: 'rotor-open@alternator',
        fault: 'rotor-open',
        part: 'alternator',
        family: 'alternator',
        nature: 'fault',
        question: 'making',
        words: 'Rotor winding open',
        ownerWords: 'The alternator is dead.',
        probability: 0.5,
        error: 0,
        prior: 0.1,
        why: [evidence],
      },
    ],
    nothingFits: 0.01,
    cleared: [{ id: 'belt-broken@belt', words: 'Belt broken', by: evidence, probability: 0 }],
    readings: [],
    next: open.map((check) => ({
      check: check.id,
      words: check.text.words,
      minutes: check.text.minutes,
      risk: check.text.risk,
      bits: 1,
      bitsPerMinute: 1 / check.text.minutes,
      saves: 0,
      worth: 0,
      costs: 0,
      healthy: undefined,
      previews: [],
    })),
    conclusion: open.length === 0 ? { kind: 'decided', suspect: 'rotor-open@alternator' } : { kind: 'go-on' },
    amps: [],
    assumed: [],
    reliability: { draws: 0, operatingPoints: 0, notConverged: 0, effectiveDraws: 0, error: 0 },
  };
}

export const noRemedy = (): RemedyShape => ({
  kind: 'check-on',
  suspect: null,
  words: 'Nothing yet.',
  cautions: [],
  work: [],
  why_it_failed: [],
  look_also: [],
  parts: [],
  cost: null,
  otherwise: [],
  rules: [],
  hours: [],
  proof: [],
  baseline: [],
});
