/** The one sentence on top of a job: it is charging, it is not, it is but. */
import type { Question, Verdict } from '../work/contract.ts';

export interface Headline {
  readonly mark: 'yes' | 'no' | 'but' | 'open';
  readonly words: string;
  /** What follows "but", or what makes it so. */
  readonly because: string | undefined;
}

/** Charging means made and arriving; whether that suffices and lasts is the "but". */
export function headlineOf(verdict: Verdict, readings: number): Headline {
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
  const making = yes('making');
  const arriving = yes('arriving');
  if (making <= 0.2) return { mark: 'no', words: 'It is not charging.', because: says('making') };
  if (arriving <= 0.2) return { mark: 'no', words: 'It is not charging.', because: says('arriving') };
  if (making >= 0.8 && arriving >= 0.8) {
    const short = yes('enough') < 0.5 ? says('enough') : yes('lasting') < 0.5 ? says('lasting') : undefined;
    if (short === undefined) return { mark: 'yes', words: 'It is charging.', because: undefined };
    return { mark: 'but', words: 'It is charging, but:', because: short };
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
