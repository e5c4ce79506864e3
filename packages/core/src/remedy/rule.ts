/** One system rule held against a boat: what was asked, what is there, by which clause, and by how much. */
import type { Question } from '../faults/index.ts';
import { checkStandardInForce, seenWords, type Answer, type Citation } from '../handbook/index.ts';
import { formatQuantity } from '../units/index.ts';

export const ruleIds = [
  'charge-cable-drop',
  'charge-cable-ampacity',
  'fuse',
  'belt',
  'bank-share',
  'lithium-load',
  'set-point',
  'idle-cut-in',
  'engine-share',
  'rotor-speed',
  'engine-space',
] as const;
export type RuleId = (typeof ruleIds)[number];

export type RuleStanding =
  | 'kept'
  /** Between the cautious and the usual limit. */
  | 'near'
  | 'broken'
  /** A fact is missing. */
  | 'unknown';

/** Every result says where its limit comes from, how surely that was seen, and that the local standard rules. */
export interface RuleResult {
  readonly rule: RuleId;
  /** `rule@part` */
  readonly id: string;
  readonly part: string;
  readonly question: Question;
  readonly words: string;
  readonly standing: RuleStanding;
  /** What was computed, with inputs, formula, source and margin; undefined where a fact is missing. */
  readonly answer: Answer | undefined;
  /** Plain sentence: what is there against what is allowed. */
  readonly says: string;
  /** What to fit or set instead, with its size; undefined where the rule is kept. */
  readonly advice: string | undefined;
  /** Facts that would be needed, in words. */
  readonly missing: readonly string[];
  /** "known second-hand", "from memory, not seen: verify". */
  readonly seen: string;
  readonly citation: Citation | undefined;
  readonly caution: string;
}

export interface Judged {
  readonly rule: RuleId;
  readonly part: string;
  readonly question: Question;
  readonly words: string;
  readonly standing: Exclude<RuleStanding, 'unknown'>;
  readonly answer: Answer;
  readonly says: string;
  readonly advice?: string | undefined;
}

export function judged(result: Judged): RuleResult {
  const { citation } = result.answer;
  return {
    ...result,
    id: `${result.rule}@${result.part}`,
    advice: result.advice,
    missing: [],
    seen: seenWords[citation.seen],
    citation,
    caution: checkStandardInForce,
  };
}

export function unjudged(
  rule: RuleId,
  part: string,
  question: Question,
  words: string,
  missing: readonly string[],
): RuleResult {
  return {
    rule,
    id: `${rule}@${part}`,
    part,
    question,
    words,
    standing: 'unknown',
    answer: undefined,
    says: `Cannot be judged: ${missing.join(', ')} not known.`,
    advice: undefined,
    missing,
    seen: '',
    citation: undefined,
    caution: checkStandardInForce,
  };
}

export const amps = (value: number): string => formatQuantity(value, 'current');
export const percent = (share: number): string => `${(share * 100).toFixed(share < 0.1 ? 1 : 0)} %`;
