/** Whether errors mean what they say: each check on hidden boats, against what the tool's own laws expect on the very same boat.
 *
 *  Numbers, on the error scale of the check (its error there is one):
 *    bias    median of read − expected
 *    spread  half the width that holds the middle 68 %; 1 is honest, above 1 the error claimed is too small
 *    beyond  share farther off than three errors; slips of the hand alone make some 2 %
 *  and in the unit: how far half, 80 % and 95 % of the readings without meter error are off, and the median of what is claimed.
 *  Answers: chances bent as people bend them, against the tool's; nat lost is the mean of ln(true / told chance).
 *  No inference: a tool that knew every unknown and the fault would still be off by this.
 */
import { errorScaleOf } from '../../packages/core/src/diagnosis/error-scale.ts';
import { truthOf, type Draw } from './truth.ts';

export interface NumberRow {
  readonly check: string;
  readonly count: number;
  readonly bias: number;
  readonly spread: number;
  readonly beyondThree: number;
  readonly miss: readonly [number, number, number];
  readonly claimed: number;
}

export interface AnswerRow {
  readonly check: string;
  readonly count: number;
  readonly lost: number;
  readonly expected: number;
  readonly found: number;
}

interface Numbers {
  readonly scaled: number[];
  readonly miss: number[];
  readonly claimed: number[];
}

export function calibrationOf(
  boats: number,
  draw: Draw,
): { readonly numbers: readonly NumberRow[]; readonly answers: readonly AnswerRow[] } {
  const numbers = new Map<string, Numbers>();
  const answers = new Map<string, { lost: number[]; expected: number[]; found: number[] }>();
  for (let index = 0; index < boats; index++) {
    const truth = truthOf('calibration', index, draw);
    for (const check of truth.checks) {
      const { outcome } = check;
      const name = check.text.id;
      const read = truth.outcome(check);
      if (read.kind === 'could-not') continue;
      const exact = truth.exact(check);
      const expected = truth.expected(check);
      if (outcome.kind === 'number' && typeof exact === 'number' && typeof expected === 'number') {
        if (!Number.isFinite(exact) || !Number.isFinite(expected) || read.kind !== 'number') continue;
        const scale = errorScaleOf(outcome);
        const [low, high] = outcome.range;
        const own = numbers.get(name) ?? { scaled: [], miss: [], claimed: [] };
        numbers.set(name, own);
        const error = Math.hypot(outcome.meterSigma(expected), outcome.modelSigma(expected));
        const value = Math.min(high, Math.max(low, read.value));
        own.scaled.push((scale.to(value) - scale.to(expected)) / (scale.slope(expected) * error));
        own.miss.push(Math.abs(exact - expected));
        own.claimed.push(outcome.modelSigma(expected));
      } else if (typeof exact !== 'number' && typeof expected !== 'number' && read.kind === 'answer') {
        const own = answers.get(name) ?? { lost: [], expected: [], found: [] };
        answers.set(name, own);
        const given =
          outcome.kind === 'answers' ? outcome.answers.findIndex(({ id }) => id === read.answer) : 0;
        own.lost.push(
          exact.reduce((sum, p, k) => sum + p * Math.log(p / Math.max(1e-6, expected[k] ?? 0)), 0),
        );
        own.expected.push(expected.reduce((sum, p) => sum + p * p, 0));
        own.found.push(expected[given] ?? 0);
      }
    }
  }
  return {
    numbers: [...numbers].map(([check, { scaled, miss, claimed }]) => ({
      check,
      count: scaled.length,
      bias: quantile(scaled, 0.5),
      spread: (quantile(scaled, 0.84) - quantile(scaled, 0.16)) / 2,
      beyondThree: scaled.filter((one) => Math.abs(one) > 3).length / scaled.length,
      miss: [quantile(miss, 0.5), quantile(miss, 0.8), quantile(miss, 0.95)],
      claimed: quantile(claimed, 0.5),
    })),
    answers: [...answers].map(([check, own]) => ({
      check,
      count: own.lost.length,
      lost: mean(own.lost),
      expected: mean(own.expected),
      found: mean(own.found),
    })),
  };
}

function quantile(list: readonly number[], share: number): number {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}

const mean = (list: readonly number[]): number => list.reduce((sum, one) => sum + one, 0) / list.length;
