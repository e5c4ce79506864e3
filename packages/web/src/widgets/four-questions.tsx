/** The four questions with their present answers: on top of every page of a job. */
import { answerMark, answerWords, percent } from '../words/odds.ts';
import { questionWords } from '../words/questions.ts';
import type { FourAnswer } from '../work/contract.ts';
import { AnswerMark } from './marks.tsx';

export function FourQuestions({ answers }: { readonly answers: readonly FourAnswer[] }) {
  return (
    <ul className="questions" aria-label="The four questions">
      {answers.map(({ question, yes, words }) => (
        <li key={question} className="question">
          <p className="question-asked" title={questionWords[question].whole}>
            {questionWords[question].short}
          </p>
          <p className="question-answer">
            <AnswerMark mark={answerMark(yes)} /> <span>{answerWords(yes)}</span>
          </p>
          <Scale yes={yes} />
          <p className="question-words small soft">{words}</p>
        </li>
      ))}
    </ul>
  );
}

/** Where the chance of yes lies between no and yes. */
function Scale({ yes }: { readonly yes: number }) {
  const x = 4 + 92 * yes;
  return (
    <svg
      className="question-scale"
      viewBox="0 0 100 14"
      preserveAspectRatio="none"
      role="img"
      aria-label={`${percent(yes)} yes`}
    >
      <path className="scale-line" d="M4 7H96M4 3V11M96 3V11M50 5V9" vectorEffect="non-scaling-stroke" />
      <path className="scale-pointer" d={`M${x} 0V14`} vectorEffect="non-scaling-stroke" />
    </svg>
  );
}
