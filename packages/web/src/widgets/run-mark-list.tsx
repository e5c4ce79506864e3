/** What happens in a charge run, in words: beside the letters that mark it in the charts. */
import { useOpenJob } from '../state/job-context.tsx';
import { partName } from '../words/part-words.ts';
import { formatDuration } from '../work/contract.ts';
import type { RunMark } from '../work/charging.ts';

interface Props {
  readonly marks: readonly RunMark[];
}

export function MarkList({ marks }: Props) {
  const { job } = useOpenJob();
  if (marks.length === 0) return null;
  return (
    <section aria-label="What happens in the run">
      <ul className="marks">
        {marks.map(({ letter, part, words, times }) => (
          <li key={letter}>
            <b className="mark-letter">{letter}</b>
            <span>
              {partName(part, job)}: {words} <span className="soft">{timesWords(times)}</span>
            </span>
          </li>
        ))}
      </ul>
      <p className="small soft">As the boat is most likely; yours may come to it earlier or later.</p>
    </section>
  );
}

/** What happens that can do harm, and what to mind. */
export function MarkCautions({ marks }: Props) {
  const { job } = useOpenJob();
  return marks.map(
    ({ letter, part, words, times, caution }) =>
      caution !== undefined && (
        <p className="note" key={letter}>
          <b>
            {partName(part, job)}: {words} {timeWords(times[0] ?? 0)}.
          </b>{' '}
          {caution}
        </p>
      ),
  );
}

const timeWords = (time: number): string => (time < 1 ? 'at once' : `after ${formatDuration(time)}`);

/** "after 1 h 5 min, and 11 times more until 70 h". */
function timesWords(times: readonly number[]): string {
  const [first = 0] = times;
  const more = times.length - 1;
  if (more === 0) return timeWords(first);
  const often = more === 1 ? 'once more' : `${more} times more`;
  return `${timeWords(first)}, and ${often} until ${formatDuration(times.at(-1) ?? first)}`;
}
