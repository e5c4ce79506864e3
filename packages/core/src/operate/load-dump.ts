/** Which machines are on no bank that takes charge: their current has nowhere to go but the loads. */
import type { Resistor } from '../circuit/index.ts';
import type { Plant } from './plant.ts';

/** A conductor, contact or fuse that carries a charge is far below this [Ω]. */
const JOINS = 1;

/** For each alternator of a plant as it stands: whether no bank is joined to its stud by closed paths, through isolators
 *  forward. `takes`: whether a bank's own protection lets charge in. */
export function alternatorsWithoutBank(
  { wiring, alternators, batteries, isolatorInputs }: Plant,
  takes: (bank: number) => boolean,
): boolean[] {
  const next = new Map<number, number[]>();
  const lead = (from: number, to: number): void => {
    const list = next.get(from);
    if (list === undefined) next.set(from, [to]);
    else list.push(to);
  };
  const joined = (parts: readonly (Resistor | undefined)[]): void => {
    for (const part of parts) {
      if (part === undefined || part.resistance > JOINS) continue;
      lead(part.terminals[0], part.terminals[1]);
      lead(part.terminals[1], part.terminals[0]);
    }
  };
  joined([
    ...wiring.conductors,
    ...wiring.fuses,
    ...wiring.selectorOne,
    ...wiring.selectorTwo,
    ...wiring.relays,
  ]);
  isolatorInputs.forEach((input, i) => {
    for (const leg of [wiring.isolatorOne[i], wiring.isolatorTwo[i]]) {
      if (leg === undefined || leg.resistance > JOINS) continue;
      lead(input, leg.terminals[0]);
      lead(leg.terminals[0], leg.terminals[1]);
    }
  });
  return alternators.map(({ stud }) => {
    const seen = new Set([stud]);
    for (const node of seen) for (const to of next.get(node) ?? []) seen.add(to);
    return !batteries.some(({ plus }, bank) => seen.has(plus) && takes(bank));
  });
}
