/** The four questions, answered from the chances of what is still wrong.
 *    P(yes) = 1 − Σ P(suspects that answer it with no) − ½ P(nothing known fits)
 */
import { questions, type PlacedFault, type Question } from '../faults/index.ts';
import type { State } from './state.ts';
import { sureness } from './sureness.ts';
import type { FourAnswer } from './verdict.ts';

/** Chance that something is wrong, normal states not counted; an unknown state counts half. */
export function wrongOf(state: State): number {
  const { model, still } = state;
  const faulty = model.hypotheses.reduce(
    (sum, { members }, h) =>
      sum + (members.some(({ fault }) => fault.nature === 'fault') ? (still[h] ?? 0) : 0),
    0,
  );
  return Math.min(1, faulty + nothingShare(state));
}

export function answersOf(state: State): readonly FourAnswer[] {
  return questions.map((question) => {
    const { model, posterior, reliability, remaining, still } = state;
    let no = nothingShare(state);
    let variance = 0;
    let first: PlacedFault | undefined;
    let firstChance = 0;
    const against = model.hypotheses.map(({ members }) =>
      members.find(({ fault }) => fault.question === question),
    );
    remaining.forEach((left, h) => {
      const placed = against[left];
      if (placed === undefined) return;
      no += posterior.probability[h] ?? 0;
      variance += (reliability.standardError[h] ?? 0) ** 2;
      const chance = still[left] ?? 0;
      if (chance > firstChance) [first, firstChance] = [placed, chance];
    });
    const yes = Math.max(0, Math.min(1, 1 - no));
    return { question, yes, error: Math.sqrt(variance), words: wordsFor(question, yes, first, firstChance) };
  });
}

function nothingShare({ posterior }: State): number {
  return 0.5 * (posterior.probability[posterior.probability.length - 1] ?? 0);
}

const subject: Readonly<Record<Question, readonly [yes: string, no: string]>> = {
  making: ['the alternator makes power', 'the alternator does not make the power it should'],
  arriving: ['what is made gets to the batteries', 'power is lost or stopped on its way'],
  enough: ['it can fill this bank with these loads', 'there is not enough for this bank and these loads'],
  lasting: ['it should go on working', 'it will not last as it is'],
};

function wordsFor(question: Question, yes: number, first: PlacedFault | undefined, chance: number): string {
  const [good, bad] = subject[question];
  if (yes >= 0.65) return `Yes, ${sureness(yes)}: ${good}.`;
  if (yes <= 0.35) {
    const how = chance >= 0.85 ? '' : `${sureness(chance)}: `;
    const cause = first !== undefined && chance >= 0.35 ? ` (${how}${first.fault.words.toLowerCase()})` : '';
    return `No, ${sureness(1 - yes)}: ${bad}${cause}.`;
  }
  return `Open: whether ${good} is not yet known.`;
}
