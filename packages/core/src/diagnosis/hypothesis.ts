/** What may be wrong: nothing at all, one placed fault, or two of them at once. */
import type { Boat } from '../boat/index.ts';
import { keepOrdinary, type PlacedFault } from '../faults/index.ts';

export interface Hypothesis {
  /** Ids of the faults, joined by "+"; "healthy" for none. */
  readonly id: string;
  /** None, one, or two. */
  readonly members: readonly PlacedFault[];
  readonly prior: number;
}

export const isNormal = ({ members }: Hypothesis): boolean =>
  members.every(({ fault }) => fault.nature === 'normal');

/** Number of the hypothesis that nothing is wrong, at whatever state of charge; it has no prior of its own. */
export const healthyHypothesis = 0;

export function singleHypotheses(faults: readonly PlacedFault[]): Hypothesis[] {
  return [
    { id: 'healthy', members: [], prior: 0 },
    ...faults.map((placed) => ({ id: placed.id, members: [placed], prior: placed.prior })),
  ];
}

/** Two faults at once. Independent faults: the prior is the product of both. Undefined for a fault with itself, with a
 *  normal state that says nothing, or with another state of the same part of the same family. */
export function pairHypothesis(first: PlacedFault, second: PlacedFault): Hypothesis | undefined {
  const [a, b] = first.id < second.id ? [first, second] : [second, first];
  if (a.id === b.id || a.fault.question === 'none' || b.fault.question === 'none') return undefined;
  if (a.fault.nature === 'normal' && b.fault.nature === 'normal') return undefined;
  if (a.part === b.part && a.fault.family === b.fault.family) return undefined;
  return { id: `${a.id}+${b.id}`, members: [a, b], prior: a.prior * b.prior };
}

/** Applies all members that were not put right to a boat kept out of the normal states that are not among them; the normal state
 *  first, since it sets the stage that a fault then changes. A repair takes its fault away and nothing else: the other member
 *  keeps its own severity, and each bank the charge at which the boat was found. */
export function applyHypothesis(
  hypothesis: Hypothesis,
  boat: Boat,
  severities: readonly [number, number],
  repaired: readonly string[],
): void {
  keepOrdinary(boat, hypothesis.members);
  const order = [...hypothesis.members].sort((a, b) => rank(a) - rank(b));
  order.forEach(({ id, fault, part }, index) => {
    if (!repaired.includes(id)) fault.apply(boat, part, severities[index] ?? 0.5);
  });
}

const rank = ({ fault }: PlacedFault): number => (fault.nature === 'normal' ? 0 : 1);
