/** A number: large keypad, the unit fixed by the probe, the healthy band beside it as it is typed. */
import { useState, type ReactNode } from 'react';
import { useDraft } from '../state/draft.ts';
import { hangsOn } from '../state/hangs-on.ts';
import { useOpenJob } from '../state/job-context.tsx';
import { freshId, strikeReading, writeReading } from '../state/job-edits.ts';
import { takePendingPhotos } from '../state/pending-photos.ts';
import { goTo, jobAddress, type JobPage } from '../state/route.ts';
import { bandWords, readingWords, siValue } from '../words/reading-words.ts';
import type { CheckView, OutcomeView } from '../work/check-view.ts';
import { findUnit, formatQuantity, fromSI, toSI } from '../work/contract.ts';
import type { JobReading, JobVisit } from '../work/contract.ts';
import { beforeAndAfter } from '../words/pair.ts';
import { BandStrip } from './band-strip.tsx';
import type { ConditionState } from './condition-fields.tsx';
import { Keypad, keyed } from './keypad.tsx';

interface Props {
  readonly check: CheckView;
  readonly outcome: Extract<OutcomeView, { kind: 'number' }>;
  /** Where the condition differed from what the check asks. */
  readonly changed: ConditionState['changed'];
  /** Stands below the keypad, beside "Could not do it". */
  readonly children: ReactNode;
}

export function NumberEntry({ check, outcome, changed, children }: Props) {
  const { job, visit, verdict, bands, units, readOnly, checks } = useOpenJob();
  const readings = visit?.readings.filter((reading) => reading.check === check.id) ?? [];
  const earlier = readings.at(-1);
  const [typed, setTyped] = useDraft(`${job.id}.${check.id}`);
  const [complaint, setComplaint] = useState<string>();

  const unit = outcome.dimension === 'temperature' ? String(units.temperature ?? outcome.unit) : outcome.unit;
  const symbol = findUnit(unit, outcome.dimension)?.symbol ?? unit;
  const value = valueOf(typed, unit, outcome);
  const light = verdict.value?.readings.find(({ reading }) => reading === earlier?.id);
  const healthy = light?.healthy ?? bands.get(check.id);

  const save = (id: string) => {
    if (value === undefined) {
      setComplaint(typed === '' ? 'Type the figure that the meter shows.' : `“${typed}” is no number.`);
      return;
    }
    const [low, high] = outcome.range;
    if (value < low || value > high) {
      const show = (si: number) => formatQuantity(si, outcome.dimension, units);
      setComplaint(
        `${typed} ${symbol} cannot be: this reads ${show(low)} to ${show(high)}. Check the point and the range of the meter.`,
      );
      return;
    }
    const reading: JobReading = {
      id,
      check: check.id,
      value: fromSI(value, outcome.unit, outcome.dimension).value,
      unit: outcome.unit,
      taken_at: new Date().toISOString(),
      photos: readings.find((reading) => reading.id === id)?.photos ?? takePendingPhotos(job.id, check.id),
      ...changed,
    };
    writeReading(job.id, reading, `${check.text.words}: ${typed} ${symbol}`);
    leave();
  };
  const couldNot = () => {
    writeReading(
      job.id,
      {
        id: earlier?.id ?? freshId('reading'),
        check: check.id,
        could_not: true,
        photos: earlier?.photos ?? takePendingPhotos(job.id, check.id),
      },
      'could not do it',
    );
    leave();
  };
  const leave = () => {
    setTyped('');
    goTo(jobAddress(job.id, ...afterThis(check, checks, visit)));
  };
  const another =
    earlier !== undefined && (check.condition.engine === 'running' || hangsOn(verdict.value, earlier.id));

  return (
    <form
      className="number"
      onSubmit={(event) => {
        event.preventDefault();
        save(earlier && !another ? earlier.id : freshId('reading'));
      }}
    >
      <div className="pad">
        <label className="display">
          <span className="unseen">
            {check.text.words}, in {symbol}
          </span>
          <input
            value={typed}
            inputMode="none"
            autoComplete="off"
            enterKeyHint="done"
            disabled={readOnly}
            aria-describedby="entry-band entry-complaint"
            onChange={(event) => {
              setTyped(event.target.value);
              setComplaint(undefined);
            }}
          />
          <span className="display-unit" aria-hidden="true">
            {symbol}
          </span>
        </label>
        <div className="entry-band" id="entry-band">
          {healthy ? (
            <>
              <BandStrip band={healthy} value={value ?? (earlier && siValue(earlier, check))} />
              <p className="small soft">All well: {bandWords(healthy, check, units)}</p>
            </>
          ) : (
            <p className="small soft">The healthy band comes with the answer.</p>
          )}
        </div>
        <p className="complaint" id="entry-complaint" role="alert">
          {complaint}
        </p>
        <Keypad
          onKey={(key) => {
            setTyped(keyed(typed, key));
            setComplaint(undefined);
          }}
          disabled={readOnly}
        >
          <button type="submit" className="primary keypad-write" disabled={readOnly}>
            {another ? 'Write down another' : earlier ? 'Correct it' : 'Write it down'}
          </button>
        </Keypad>
      </div>
      {readings.length > 0 && (
        <ul className="rows written">
          {readings.map((reading) => (
            <li key={reading.id} className="row">
              <span className="row-main">Written down: {readingWords(reading, check, units)}</span>
              <button
                type="button"
                className="plain"
                disabled={readOnly}
                onClick={() => strikeReading(job.id, reading, `strike ${check.text.words}`)}
              >
                Strike
              </button>
            </li>
          ))}
        </ul>
      )}
      <div className="entry-also">
        <button type="button" disabled={readOnly} onClick={couldNot}>
          Could not do it
        </button>
        {children}
      </div>
    </form>
  );
}

/** Volts before the start are followed by volts after it; anything else by the next check. */
function afterThis(
  check: CheckView,
  checks: readonly CheckView[],
  visit: JobVisit | undefined,
): readonly [JobPage, string?] {
  const pair = beforeAndAfter(checks).find(({ before }) => before.id === check.id);
  const afterDone = visit?.readings.some((reading) => reading.check === pair?.after.id) ?? false;
  return pair && !afterDone ? ['readings', pair.after.id] : ['check'];
}

function valueOf(typed: string, unit: string, outcome: Props['outcome']): number | undefined {
  const text = typed.trim().replace(',', '.').replace('−', '-');
  if (!/^-?(?:\d+\.?\d*|\.\d+)$/.test(text)) return undefined;
  const result = toSI({ value: Number(text), unit }, outcome.dimension);
  return result.kind === 'ok' ? result.value : undefined;
}
