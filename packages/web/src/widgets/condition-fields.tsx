/** Where the condition differed from what the check asks: engine speed and minutes since the start.
 *  The clock fills the minutes in, and the speed of the last reading is kept.
 */
import { useState } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import type { CheckView } from '../work/check-view.ts';
import { fromSI } from '../work/contract.ts';
import type { JobReading } from '../work/contract.ts';
import { StartClock, useSecondsSinceStart } from './engine-clock.tsx';

export interface ConditionState {
  readonly speed: string;
  readonly minutes: string;
  readonly setSpeed: (text: string) => void;
  readonly setMinutes: (text: string) => void;
  /** Fields of the reading that tell what differed. */
  readonly changed: Pick<JobReading, 'engine_speed' | 'since_start'>;
}

export function useConditionFields(check: CheckView, earlier: JobReading | undefined): ConditionState {
  const { visit } = useOpenJob();
  const clock = useSecondsSinceStart(visit?.engine?.started_at);
  const asked = askedOf(check);
  const kept = visit?.readings.findLast((reading) => reading.engine_speed !== undefined)?.engine_speed;
  const first = earlier?.engine_speed ?? kept;
  const [speed, setSpeed] = useState(() => (first ? String(first.value) : String(asked.speed)));
  const [typedMinutes, setMinutes] = useState<string>();
  const running = check.condition.engine === 'running';
  const minutes =
    typedMinutes ?? (clock === undefined ? String(asked.minutes) : String(Math.round(clock / 6) / 10));
  const changed = {
    ...(running && isNumber(speed) && Number(speed) !== asked.speed
      ? { engine_speed: { value: Number(speed), unit: 'rpm', origin: 'measured' as const } }
      : {}),
    ...(running && isNumber(minutes) && Number(minutes) !== asked.minutes
      ? { since_start: { value: Number(minutes), unit: 'min', origin: 'measured' as const } }
      : {}),
  };
  return { speed, minutes, setSpeed, setMinutes, changed };
}

export function ConditionFields({
  check,
  fields,
}: {
  readonly check: CheckView;
  readonly fields: ConditionState;
}) {
  if (check.condition.engine !== 'running') return null;
  return (
    <div className="condition-fields">
      <label>
        Engine{' '}
        <input
          inputMode="decimal"
          value={fields.speed}
          onChange={(event) => fields.setSpeed(event.target.value)}
        />{' '}
        rpm
      </label>
      <label>
        <input
          inputMode="decimal"
          value={fields.minutes}
          onChange={(event) => fields.setMinutes(event.target.value)}
        />{' '}
        min after start
      </label>
      <StartClock />
    </div>
  );
}

function askedOf(check: CheckView): { readonly speed: number; readonly minutes: number } {
  const { engineSpeed, sinceStart } = check.condition;
  return {
    speed: Math.round(fromSI(engineSpeed, 'rpm', 'speed').value),
    minutes: Math.round(sinceStart / 6) / 10,
  };
}

function isNumber(text: string): boolean {
  return text.trim() !== '' && Number.isFinite(Number(text));
}
