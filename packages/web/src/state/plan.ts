/** The plan of a charge run as it is typed, kept for each job on this device. */
import { useCallback, useState } from 'react';
import { toSI, type Phase } from '../work/contract.ts';

export interface Step {
  readonly engine: 'running' | 'off';
  readonly hours: string;
  /** Engine speed; empty for cruising speed. */
  readonly rpm: string;
  readonly loads: 'usual' | 'none' | 'double';
}

export interface Plan {
  readonly steps: readonly Step[];
  /** How often the steps follow each other. */
  readonly times: number;
  /** State of charge at the start, in percent, by bank; empty for as the boat is thought to stand. */
  readonly start: Readonly<Record<string, string>>;
}

export interface ReadPlan {
  readonly phases: readonly Phase[];
  readonly start: Readonly<Record<string, number>>;
  /** What must be put right before it can be run. */
  readonly problem: string | undefined;
}

export const steps = {
  run: (hours: string): Step => ({ engine: 'running', hours, rpm: '', loads: 'usual' }),
  lie: (hours: string): Step => ({ engine: 'off', hours, rpm: '', loads: 'usual' }),
};

/** Usual plans, one tap away. */
export const usualPlans: readonly (readonly [string, Pick<Plan, 'steps' | 'times'>])[] = [
  ['Six hours under way', { steps: [steps.run('6')], times: 1 }],
  ['An hour a day at anchor, three days', { steps: [steps.run('1'), steps.lie('23')], times: 3 }],
  ['A night, then two hours', { steps: [steps.lie('10'), steps.run('2')], times: 1 }],
];

const loadFactors = { usual: 1, none: 0, double: 2 } as const;
const longest = 40 * 24;

export function usePlan(job: string): readonly [Plan, (plan: Plan) => void] {
  const key = `ampwright.draft.plan.${job}`;
  const [plan, setPlan] = useState(() => read(localStorage.getItem(key)));
  const set = useCallback(
    (changed: Plan) => {
      setPlan(changed);
      localStorage.setItem(key, JSON.stringify(changed));
    },
    [key],
  );
  return [plan, set];
}

/** The plan in SI, or what is wrong with it. */
export function readPlan({ steps: typed, times, start }: Plan): ReadPlan {
  let problem: string | undefined;
  const phases = typed.map(({ engine, hours, rpm, loads }, index): Phase => {
    const time = numberOf(hours);
    if (!(time > 0 && time <= longest))
      problem ??= `Step ${index + 1}: give its hours, from above 0 to ${longest}.`;
    const speed = numberOf(rpm);
    if (engine === 'running' && rpm.trim() !== '' && !(speed >= 300 && speed <= 6000))
      problem ??= `Step ${index + 1}: the engine turns at 300 to 6000 rpm; leave it empty for cruising speed.`;
    const radians = rpm.trim() === '' ? undefined : toSI({ value: speed, unit: 'rpm' }, 'speed');
    return {
      duration: time * 3600,
      engine,
      loads: loadFactors[loads],
      ...(engine === 'running' && radians?.kind === 'ok' ? { engineSpeed: radians.value } : {}),
    };
  });
  if (typed.length === 0) problem ??= 'The plan has no step yet: add one.';
  const charges: Record<string, number> = {};
  for (const [bank, text] of Object.entries(start)) {
    if (text.trim() === '') continue;
    const share = numberOf(text);
    if (!(share >= 0 && share <= 100)) problem ??= 'A state of charge is from 0 to 100 %.';
    charges[bank] = share / 100;
  }
  return { phases: Array.from({ length: times }, () => phases).flat(), start: charges, problem };
}

const numberOf = (text: string): number => (text.trim() === '' ? NaN : Number(text.replace(',', '.')));

function read(text: string | null): Plan {
  const fresh: Plan = { steps: [steps.run('6')], times: 1, start: {} };
  if (text === null) return fresh;
  try {
    return { ...fresh, ...(JSON.parse(text) as Partial<Plan>) };
  } catch {
    return fresh;
  }
}
