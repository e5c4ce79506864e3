/** When and where a figure is read: the condition, the meter's leads, and where the condition differed. */
import { useOpenJob } from '../state/job-context.tsx';
import { conditionWords, probeWords } from '../words/check-words.ts';
import type { CheckView, OutcomeView } from '../work/check-view.ts';
import { ConditionFields, type ConditionState } from './condition-fields.tsx';

interface Props {
  readonly check: CheckView;
  readonly outcome: Extract<OutcomeView, { kind: 'number' }>;
  readonly condition: ConditionState;
}

export function ReadingPoint({ check, outcome, condition }: Props) {
  const { job, units } = useOpenJob();
  const probe = probeWords(outcome.probe, job, units);
  return (
    <div className="reading-point">
      <p className="condition">{conditionWords(check.condition, units)}</p>
      <p className="probe">
        {probe.what}
        {probe.red !== undefined && (
          <>
            <span className="lead lead-red">red on {probe.red}</span>
            <span className="lead lead-black">black on {probe.black}</span>
          </>
        )}
      </p>
      <ConditionFields check={check} fields={condition} />
    </div>
  );
}
