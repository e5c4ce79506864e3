/** One page in plain words: what was complained of, what was found, what it means, what to do, what it was not. */
import { useOpenJob } from '../state/job-context.tsx';
import { AnswerMark } from '../widgets/marks.tsx';
import { headlineOf } from '../words/headline.ts';
import { answerMark, answerWords, percent } from '../words/odds.ts';
import { priceWords } from '../words/price-words.ts';
import { questionWords } from '../words/questions.ts';
import type { Verdict } from '../work/contract.ts';
import { useRemedies } from '../work/use-remedies.ts';

export function OwnerReport({ verdict }: { readonly verdict: Verdict }) {
  const { job, visit } = useOpenJob();
  const remedies = useRemedies();
  const headline = headlineOf(verdict, visit?.readings.length ?? 0);
  const first = remedies[0];
  return (
    <section className="report-owner">
      <header className="report-head">
        <h2>{job.title ?? 'Charging system'}</h2>
        <p className="soft">
          Charging system: what was found{visit?.date === undefined ? '' : `, ${visit.date}`}
        </p>
      </header>
      {job.complaint !== undefined && (
        <>
          <h3>What was complained of</h3>
          <p>{job.complaint}</p>
        </>
      )}
      <h3>What was found</h3>
      <p className="report-verdict">
        <AnswerMark mark={headline.mark} /> <b>{headline.words}</b> {headline.because}
      </p>
      <table className="ruled stack">
        <tbody>
          {verdict.answers.map(({ question, yes, words }) => (
            <tr key={question}>
              <th scope="row">{questionWords[question].whole}</th>
              <td className="nowrap">
                <AnswerMark mark={answerMark(yes)} /> {answerWords(yes)}
              </td>
              <td>{words}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {first && (
        <>
          <h3>What it means</h3>
          <p>
            <b>{first.remedy.words}</b> ({percent(first.suspect.probability)}). {first.remedy.ownerWords}
          </p>
          <h3>What to do</h3>
          <p>{first.remedy.remedy}</p>
          <p className="soft">{priceWords(first.remedy)}</p>
        </>
      )}
      {remedies.length > 1 && (
        <p>
          Not ruled out:{' '}
          {remedies
            .slice(1)
            .map(({ remedy, suspect }) => `${remedy.words.toLowerCase()} (${percent(suspect.probability)})`)
            .join('; ')}
          .
        </p>
      )}
      <h3>What it was not</h3>
      <p>
        {verdict.cleared.length === 0
          ? 'Nothing is cleared yet.'
          : `${verdict.cleared
              .slice(0, 10)
              .map(({ words }) => words)
              .join('; ')}.`}
      </p>
      <p className="small soft">
        Work on batteries, cables and engines can hurt: short circuits, acid, hydrogen, turning belts, hot
        parts. The standards in force, makers’ instructions and qualified people come before anything said
        here.
      </p>
      <div className="signatures">
        <p>Electrician, date</p>
        <p>Owner, date</p>
      </div>
    </section>
  );
}
