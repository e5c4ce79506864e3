/** What was put right since the trouble was found: saying so, and what that changes. */
import { useOpenJob } from '../state/job-context.tsx';
import { putRight } from '../state/job-edits.ts';
import { goTo, jobAddress } from '../state/route.ts';
import { partName } from '../words/part-words.ts';
import { Tick } from './marks.tsx';

/** One tap when the work is done: readings from then on are of the mended boat, and the next check proves it. */
export function PutRightButton({
  fault,
  primary = false,
}: {
  readonly fault: string;
  readonly primary?: boolean;
}) {
  const { job, readOnly } = useOpenJob();
  if (readOnly) return null;
  return (
    <p className="actions">
      <button
        type="button"
        className={primary ? 'primary' : undefined}
        onClick={() => {
          putRight(job, fault);
          goTo(jobAddress(job.id));
        }}
      >
        This was put right: prove it
      </button>
    </p>
  );
}

/** What was put right so far; all else on the page speaks of what is still wrong. */
export function PutRightNote() {
  const { verdict, visit } = useOpenJob();
  const repairs = useRepairsWords(verdict.value?.repaired ?? []);
  if (repairs === '') return null;
  const unproved = visit?.readings.length === 0;
  return (
    <p className="note note-yes">
      <Tick />
      <span>
        Put right: <b>{repairs}</b>.{' '}
        {unproved
          ? 'Readings from now on prove it, or show what it hid.'
          : 'What is said here is about what is still wrong.'}
      </span>
    </p>
  );
}

/** "Belt slips; Feed cable makes bad contact (Switch cable)": the part is named where the boat has several such. */
export function useRepairsWords(repairs: readonly string[]): string {
  const { faultNames, job } = useOpenJob();
  return repairs
    .map((id) => {
      const [fault = '', part = ''] = id.split('@');
      const places = [...faultNames.keys()].filter((other) => other.startsWith(`${fault}@`));
      return `${faultNames.get(id) ?? id}${places.length > 1 ? ` (${partName(part, job)})` : ''}`;
    })
    .join('; ');
}
