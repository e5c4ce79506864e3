/** What to do about it, why it failed, what to look at with it, and what it may cost. */
import { useOpenJob } from '../state/job-context.tsx';
import { jobAddress } from '../state/route.ts';
import { Conclusion } from '../widgets/conclusion.tsx';
import { Cautions } from '../widgets/cautions.tsx';
import { percent } from '../words/odds.ts';
import { partName } from '../words/part-words.ts';
import { priceWords } from '../words/price-words.ts';
import { useRemedies, type SuspectRemedy } from '../work/use-remedies.ts';

const deferring =
  'Isolate the batteries before any work on cables. Follow the maker’s instructions and the local rules; leave what needs a qualified person to one.';

export function RemedyPage() {
  const { verdict, job } = useOpenJob();
  const remedies = useRemedies();
  const said = verdict.value;
  if (!said) return <p className="soft">The remedy comes here once there is something to mend.</p>;
  const open = said.conclusion.kind === 'go-on';
  return (
    <>
      <h1>Remedy</h1>
      <Conclusion />
      {open && (
        <p className="note">
          <span>
            <b>Not decided yet.</b> Buy nothing on this alone: the{' '}
            <a href={jobAddress(job.id, 'check')}>next check</a> may clear it.
          </span>
        </p>
      )}
      <Cautions cautions={[deferring]} />
      {remedies.length === 0 && <p className="soft">No suspect is likely enough to speak of a remedy.</p>}
      {remedies.map((one) => (
        <OneRemedy key={one.suspect.id} {...one} />
      ))}
    </>
  );
}

function OneRemedy({ suspect, remedy }: SuspectRemedy) {
  const { job } = useOpenJob();
  return (
    <section className="remedy">
      <h2>
        {remedy.words} <span className="remedy-odds soft">{percent(suspect.probability)}</span>
      </h2>
      {suspect.part !== '' && <p className="soft">{partName(suspect.part, job)}</p>}
      <p>{remedy.ownerWords}</p>
      <h3>{remedy.nature === 'normal' ? 'What helps' : 'What to do'}</h3>
      <p>{remedy.remedy}</p>
      {remedy.causes.length > 0 && (
        <>
          <h3>Why it comes to this</h3>
          <ul className="plain-list">
            {remedy.causes.map((cause) => (
              <li key={cause}>{cause}</li>
            ))}
          </ul>
        </>
      )}
      {remedy.alsoCheck.length > 0 && (
        <>
          <h3>Look at these with it</h3>
          <ul className="plain-list">
            {remedy.alsoCheck.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </>
      )}
      {(remedy.parts.length > 0 || remedy.labourHours > 0) && (
        <>
          <h3>Parts and time</h3>
          <p>
            {remedy.parts.length > 0 ? remedy.parts.join(', ') : 'No parts'}; about {remedy.labourHours} h of
            work. {priceWords(remedy)}
          </p>
        </>
      )}
    </section>
  );
}
