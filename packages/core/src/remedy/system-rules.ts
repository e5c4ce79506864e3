/** The rules of Arriving, Enough and Lasting that can be judged from the facts alone, before any reading. */
import type { BoatDescription } from '../boat/index.ts';
import { machineRules } from './machine-rules.ts';
import type { RuleResult } from './rule.ts';
import { runningRules } from './running-rules.ts';
import { wiringRules } from './wiring-rules.ts';

const order = { broken: 0, near: 1, kept: 2, unknown: 3 } as const;

/** Every rule that concerns this boat: the broken ones first, those that lack a fact last. */
export function systemRules(description: BoatDescription): readonly RuleResult[] {
  const seen = new Set<string>();
  return [...wiringRules(description), ...machineRules(description), ...runningRules(description)]
    .filter(({ id }) => !seen.has(id) && seen.add(id))
    .sort((a, b) => order[a.standing] - order[b.standing]);
}
