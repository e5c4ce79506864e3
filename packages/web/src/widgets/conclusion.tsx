/** What the diagnosis has come to, when it has come to something. */
import { useOpenJob } from '../state/job-context.tsx';
import { jobAddress } from '../state/route.ts';
import { percent } from '../words/odds.ts';
import { But, Query, Tick } from './marks.tsx';

/** `onRemedy`: it stands on the remedy's own page, so that it need not lead there. */
export function Conclusion({ onRemedy = false }: { readonly onRemedy?: boolean }) {
  const { verdict, job, checks, visit } = useOpenJob();
  const said = verdict.value;
  if (!said || said.conclusion.kind === 'go-on') return null;
  const { conclusion } = said;
  const remedy = onRemedy ? (
    'What to do stands below'
  ) : (
    <a href={jobAddress(job.id, 'remedy')}>See the remedy</a>
  );
  const nameOf = (id: string) => said.suspects.find((suspect) => suspect.id === id);
  const again = (reading: string | undefined) => {
    const check = visit?.readings.find(({ id }) => id === reading)?.check ?? reading;
    const view = checks.find(({ id }) => id === check);
    return view && <a href={jobAddress(job.id, 'readings', view.id)}>Take again: {view.text.words}</a>;
  };
  switch (conclusion.kind) {
    case 'decided': {
      const suspect = nameOf(conclusion.suspect);
      return (
        <p className="note note-yes">
          <Tick />
          <span>
            Enough is known: <b>{suspect?.words ?? conclusion.suspect}</b>
            {suspect && `, ${percent(suspect.probability)}`}. {remedy}.
          </span>
        </p>
      );
    }
    case 'nothing-wrong':
      return (
        <p className="note note-yes">
          <Tick />
          <span>
            <b>Nothing is wrong{said.repaired.length > 0 && ' any more'}.</b> {remedy}, with what to tell the
            owner.
          </span>
        </p>
      );
    case 'no-check-worth-it':
      return (
        <p className="note">
          <But />
          <span>
            No further check is worth its minutes. Left:{' '}
            <b>{conclusion.suspects.map((id) => nameOf(id)?.words ?? id).join('; ')}</b>. {remedy}.
          </span>
        </p>
      );
    case 'look-again':
    case 'nothing-fits':
    case 'readings-contradict':
      return (
        <p className="note">
          <Query />
          <span>
            <b>{doubts[conclusion.kind]}</b> {again(conclusion.repeat)}
          </span>
        </p>
      );
  }
}

const doubts = {
  'look-again': 'The verdict hangs on one reading.',
  'nothing-fits': 'Nothing known here fits these readings.',
  'readings-contradict': 'These readings contradict each other.',
};
