/** The four questions, short and whole. */
import type { Question } from '../work/contract.ts';

export const questionWords: Readonly<Record<Question, { readonly short: string; readonly whole: string }>> = {
  making: { short: 'Making?', whole: 'Is the alternator making power?' },
  arriving: { short: 'Arriving?', whole: 'Does it get to the batteries?' },
  enough: { short: 'Enough?', whole: 'Can it ever fill this bank?' },
  lasting: { short: 'Lasting?', whole: 'Will it go on working?' },
};
