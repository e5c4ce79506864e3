/** A placed check as the page shows it: everything but its functions, so that it can come from the worker. */
import type { CheckText, Condition, Dimension, PlacedCheck, Probe } from './contract.ts';

export type OutcomeView =
  | {
      readonly kind: 'number';
      readonly dimension: Dimension;
      readonly unit: string;
      readonly probe: Probe;
      /** Plausible range [SI]. */
      readonly range: readonly [number, number];
    }
  | {
      readonly kind: 'answers';
      readonly question: string;
      readonly answers: readonly { readonly id: string; readonly words: string }[];
    };

export interface CheckView {
  readonly id: string;
  readonly text: CheckText;
  readonly part: string | undefined;
  readonly condition: Condition;
  readonly outcome: OutcomeView;
}

export function viewOf({ id, text, part, condition, outcome }: PlacedCheck): CheckView {
  const { way, words, minutes, tools, skill, risk, cautions, steps, needs } = text;
  return {
    id,
    text: { id: text.id, way, words, minutes, tools, skill, risk, cautions, steps, needs },
    part,
    condition,
    outcome: outcomeView(outcome),
  };
}

function outcomeView(outcome: PlacedCheck['outcome']): OutcomeView {
  if (outcome.kind === 'answers') {
    const { kind, question, answers } = outcome;
    return { kind, question, answers };
  }
  const { kind, dimension, unit, probe, range } = outcome;
  return { kind, dimension, unit, probe, range };
}
