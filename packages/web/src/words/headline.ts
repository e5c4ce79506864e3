/** The one sentence on top of a job: it is charging, it is not, it is but. */
import type { Question, Verdict } from '../work/contract.ts';
import { answerMark } from './odds.ts';

export interface Headline {
  readonly mark: 'yes' | 'no' | 'but' | 'open';
  readonly words: string;
  /** What follows "but", or what makes it so. */
  readonly because: string | undefined;
}

/** Amps into a bank that count as charging [A]; choice of ours. */
const leastAmps = 2;

/** Charging means made and arriving; whether that suffices and lasts is the "but". */
export function headlineOf(verdict: Verdict, readings: number): Headline {
  if (readings === 0 && verdict.repaired.length > 0) {
    return {
      mark: 'open',
      words: 'Nothing is measured since the repair.',
      because: 'The next check tells most.',
    };
  }
  if (readings === 0) {
    return {
      mark: 'open',
      words: 'Nothing is measured yet.',
      because: 'The odds come from the facts alone.',
    };
  }
  if (verdict.conclusion.kind === 'readings-contradict') {
    return {
      mark: 'open',
      words: 'These readings contradict each other.',
      because: 'Take one of them again.',
    };
  }
  if (verdict.conclusion.kind === 'nothing-fits') {
    return {
      mark: 'open',
      words: 'Nothing known here fits these readings.',
      because: 'Take the odd one again.',
    };
  }
  const yes = (question: Question) =>
    verdict.answers.find((answer) => answer.question === question)?.yes ?? 0.5;
  const says = (question: Question) =>
    reasonOf(verdict.answers.find((answer) => answer.question === question)?.words);
  const marks = (['making', 'arriving'] as const).map((question) => ({
    question,
    mark: answerMark(yes(question)),
  }));
  const no = marks.find(({ mark }) => mark === 'no');
  const failing = no && says(no.question);
  if (failing !== undefined) {
    // Poor charging is charging: some amps surely reach a bank.
    const some = verdict.amps.some(({ band }) => band.low > leastAmps);
    return some
      ? { mark: 'but', words: 'It is charging, but poorly.', because: failing }
      : { mark: 'no', words: 'It is not charging.', because: failing };
  }
  if (marks.every(({ mark }) => mark === 'yes')) {
    if (yes('enough') < 0.5)
      return { mark: 'but', words: 'It is charging, but not enough.', because: says('enough') };
    if (yes('lasting') < 0.5)
      return { mark: 'but', words: 'It is charging, but may not last.', because: says('lasting') };
    return { mark: 'yes', words: 'It is charging.', because: undefined };
  }
  return {
    mark: 'open',
    words: 'It may or may not be charging.',
    because: 'The next check decides most.',
  };
}

/** What follows the colon: "No, almost certainly: the field gets nothing." leaves "The field gets nothing." */
function reasonOf(words: string | undefined): string | undefined {
  const reason = words?.slice(words.indexOf(':') + 1).trim();
  return reason && reason.charAt(0).toUpperCase() + reason.slice(1);
}
