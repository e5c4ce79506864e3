/** What was measured on this visit, each beside its healthy band; the pair before and after first. */
import { useOpenJob } from '../state/job-context.tsx';
import { jobAddress } from '../state/route.ts';
import { BandStrip } from '../widgets/band-strip.tsx';
import { PutRightNote } from '../widgets/put-right.tsx';
import { OtherChecks } from '../widgets/other-checks.tsx';
import { bandWords, readingWords, siValue, standsWords } from '../words/reading-words.ts';
import { partName } from '../words/part-words.ts';
import { StartClock } from '../widgets/engine-clock.tsx';
import { beforeAndAfter, type CheckPair } from '../words/pair.ts';
import { formatDuration, formatQuantity } from '../work/contract.ts';
import type { CheckView } from '../work/check-view.ts';
import type { JobReading } from '../work/contract.ts';

export function ReadingsPage() {
  const { visit, checks } = useOpenJob();
  const readings = visit?.readings ?? [];
  return (
    <>
      <h1>Readings</h1>
      <PutRightNote />
      <Pairs />
      <StartClock />
      {readings.length === 0 ? (
        <p className="soft">
          Nothing is written down yet. Begin with the volts at the battery before the engine is started, then
          again with it running: how far they rise says more than either alone.
        </p>
      ) : (
        <ul className="rows readings">
          {readings.map((reading) => (
            <ReadingRow
              key={reading.id}
              reading={reading}
              check={checks.find(({ id }) => id === reading.check)}
            />
          ))}
        </ul>
      )}
      <OtherChecks title="Enter another reading" except={undefined} />
    </>
  );
}

function ReadingRow({
  reading,
  check,
}: {
  readonly reading: JobReading;
  readonly check: CheckView | undefined;
}) {
  const { job, verdict, units } = useOpenJob();
  const light = verdict.value?.readings.find((candidate) => candidate.reading === reading.id);
  const value = check && siValue(reading, check);
  return (
    <li>
      <a className="row reading" href={jobAddress(job.id, 'readings', reading.check)}>
        <span className="row-main">
          {check?.text.words ?? reading.check}
          <span className="row-under soft small">
            {check?.part !== undefined && partName(check.part, job)}
            {reading.since_start &&
              ` · ${reading.since_start.value} ${reading.since_start.unit} after the start`}
            {reading.engine_speed && ` · ${reading.engine_speed.value} ${reading.engine_speed.unit}`}
            {reading.photos.length > 0 &&
              ` · ${reading.photos.length === 1 ? 'a photo' : `${reading.photos.length} photos`}`}
            {light && light.slip > 0.3 && ' · may be a slip: take it again'}
          </span>
        </span>
        <b className={value === undefined ? 'reading-figure' : 'figure reading-figure'}>
          {readingWords(reading, check, units)}
        </b>
        {light && light.stands !== 'none' && (
          <span className="reading-light">
            <span className={`small stands stands-${light.stands}`}>{standsWords[light.stands]}</span>
            {light.healthy && check && <BandStrip band={light.healthy} value={value} />}
            {light.healthy && check && (
              <span className="small soft">all well: {bandWords(light.healthy, check, units)}</span>
            )}
          </span>
        )}
      </a>
    </li>
  );
}

/** Volts before the start and after it, and the rise between them, for each bank. */
function Pairs() {
  const { checks, visit } = useOpenJob();
  const pairs = beforeAndAfter(checks, new Set(visit?.readings.map(({ check }) => check)));
  return pairs.map((pair) => <Pair key={pair.before.id} pair={pair} named={pairs.length > 1} />);
}

function Pair({ pair, named }: { readonly pair: CheckPair; readonly named: boolean }) {
  const { visit, job, units } = useOpenJob();
  const bank = partName(pair.before.part ?? '', job);
  const of = (check: CheckView) => {
    const reading = visit?.readings.findLast((candidate) => candidate.check === check.id);
    return reading && siValue(reading, check);
  };
  const before = of(pair.before);
  const after = of(pair.after);
  const cell = (words: string, check: CheckView, value: number | undefined) => (
    <a className="pair-cell" href={jobAddress(job.id, 'readings', check.id)}>
      <span className="small">{words}</span>
      <b className="figure">{value === undefined ? 'Enter' : formatQuantity(value, 'voltage', units)}</b>
    </a>
  );
  return (
    <section aria-label={`${bank}: volts before and after the start`}>
      {named && <h2>{bank}</h2>}
      <div className="pair">
        {cell('Before the start', pair.before, before)}
        {cell(`Running, ${formatDuration(pair.after.condition.sinceStart)}`, pair.after, after)}
        <p className="pair-cell pair-rise">
          <span className="small">Rise</span>
          <b className="figure">
            {before === undefined || after === undefined
              ? '–'
              : formatQuantity(after - before, 'voltage', { voltage: 'V' })}
          </b>
        </p>
      </div>
    </section>
  );
}
