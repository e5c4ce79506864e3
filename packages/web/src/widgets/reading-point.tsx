/** When and where a figure is read: the condition, the meter's leads, and where the condition differed. */
import { useOpenJob } from '../state/job-context.tsx';
import { conditionWords, isLabel, probeWords } from '../words/check-words.ts';
import type { CheckView, OutcomeView } from '../work/check-view.ts';
import { ConditionFields, type ConditionState } from './condition-fields.tsx';

interface Props {
  readonly check: CheckView;
  readonly outcome: Extract<OutcomeView, { kind: 'number' }>;
  readonly condition: ConditionState;
}

export function ReadingPoint({ check, outcome, condition }: Props) {
  const { units } = useOpenJob();
  if (isLabel(outcome.probe)) return null;
  return (
    <div className="reading-point">
      <p className="condition">{conditionWords(check.condition, units)}</p>
      <ProbeLines outcome={outcome} />
      <ConditionFields check={check} fields={condition} />
    </div>
  );
}

/** What is read, and where the meter's leads go. */
export function ProbeLines({ outcome }: Pick<Props, 'outcome'>) {
  const { job, units } = useOpenJob();
  const probe = probeWords(outcome.probe, job, units);
  return (
    <p className="probe">
      {probe.what}
      {probe.red !== undefined && (
        <>
          <span className="lead lead-red">red on {probe.red}</span>
          <span className="lead lead-black">black on {probe.black}</span>
        </>
      )}
    </p>
  );
}
