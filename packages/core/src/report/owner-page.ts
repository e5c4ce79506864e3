/** The owner's page: what was complained of, is anything wrong, what it is, what to do, what it was not. */
import { partWords } from '../boat/index.ts';
import { faultById } from '../faults/index.ts';
import { formatDuration, formatQuantity } from '../units/index.ts';
import type { ReportInput } from './report-input.ts';
import { costWords, lower, oddsOf, repairsWords, sentence, sure } from './report-words.ts';
import type { Block } from './report.ts';

const LONGEST = 6;
const questionWords = {
  making: 'Is power made?',
  arriving: 'Does it arrive?',
  enough: 'Is it enough?',
  lasting: 'Will it last?',
} as const;

export function ownerPage(input: ReportInput): readonly Block[] {
  const { verdict, remedy, complaint } = input;
  return [
    { kind: 'heading', text: 'What was complained of' },
    { kind: 'paragraph', text: complaint ?? 'No complaint was written down.' },
    { kind: 'heading', text: 'Is anything wrong?' },
    { kind: 'answer', text: wrongWords(verdict.wrong) },
    ...whatWasDone(input),
    ...whatItIs(input),
    { kind: 'heading', text: 'The four questions' },
    {
      kind: 'list',
      ordered: false,
      items: verdict.answers.map(({ question, words }) => `${questionWords[question]} ${words}`),
    },
    { kind: 'heading', text: 'What to do, and about what it costs' },
    ...whatToDo(input),
    ...whatItWasNot(input),
    ...(remedy.cautions.length === 0 ? [] : [{ kind: 'cautions', items: remedy.cautions } satisfies Block]),
    { kind: 'signatures', lines: ['Electrician, date', 'Owner, date'] },
  ];
}

function wrongWords(wrong: number): string {
  if (wrong >= 0.65) return `Yes: something is wrong, ${sure(wrong)}.`;
  if (wrong <= 0.35) return `No: nothing is broken, ${sure(1 - wrong)}.`;
  return `That is not settled yet: the chance that something is wrong is ${oddsOf(wrong)}.`;
}

function whatWasDone(input: ReportInput): Block[] {
  const mended = repairsWords(input, input.verdict.repaired);
  return mended === '' ? [] : [{ kind: 'paragraph', text: `Put right already: ${mended}.` }];
}

function whatItIs({ verdict }: ReportInput): Block[] {
  const { conclusion, suspects, nothingFits } = verdict;
  const first = suspects[0];
  const blocks: Block[] = [{ kind: 'heading', text: 'What it is' }];
  if (conclusion.kind === 'nothing-fits' || first === undefined || nothingFits > first.probability) {
    blocks.push({
      kind: 'paragraph',
      text: `The readings fit nothing that is known (${oddsOf(nothingFits)}). They are to be taken again before anything is bought.`,
    });
    return blocks;
  }
  if (conclusion.kind === 'look-again') {
    blocks.push({
      kind: 'paragraph',
      text: 'It hangs on one reading, which is to be taken again before anything is bought.',
    });
  }
  if (conclusion.kind === 'readings-contradict') {
    blocks.push({
      kind: 'paragraph',
      text: 'Some readings contradict each other. One of them is to be taken again; what follows may change.',
    });
  }
  blocks.push({
    kind: 'paragraph',
    text: `${sentence(sure(first.probability))}: ${lower(first.words)}. ${first.ownerWords}`,
  });
  const others = suspects.slice(1, 3).filter(({ probability }) => probability >= 0.08);
  if (others.length > 0) {
    const names = others.map((one) => `${lower(one.words)} (${oddsOf(one.probability)})`);
    blocks.push({ kind: 'paragraph', text: `It may instead be: ${names.join('; ')}.` });
  }
  return blocks;
}

function whatToDo({ remedy, verdict, preference, description }: ReportInput): Block[] {
  const blocks: Block[] = [];
  const items = remedy.work.filter(({ act }) => act !== 'make-safe').map(({ words }) => words);
  if (items.length > 0) blocks.push({ kind: 'list', ordered: true, items: items.slice(0, LONGEST) });
  else blocks.push({ kind: 'paragraph', text: remedy.words });
  const sized = remedy.parts.map(({ words, size }) => (size === undefined ? words : `${words}: ${size}`));
  if (sized.length > 0) blocks.push({ kind: 'paragraph', text: `Parts: ${sized.join('; ')}.` });
  for (const { battery, from, toKnee, toFull, amps } of remedy.hours) {
    blocks.push({
      kind: 'paragraph',
      text: Number.isFinite(toFull)
        ? `The ${lower(partWords(description, battery))}, at about ${oddsOf(from).replace(' in 100', ' %')} charge, takes about ${formatQuantity(amps, 'current', preference)} at cruising speed: about ${formatDuration(toKnee)} for most of it, ${formatDuration(toFull)} until full.`
        : `At cruising speed nothing goes into the ${lower(partWords(description, battery))} with the usual loads on.`,
    });
  }
  if (remedy.cost !== undefined) blocks.push({ kind: 'paragraph', text: `Cost: ${costWords(remedy.cost)}.` });
  else {
    const cheapest = remedy.otherwise[0];
    const next = verdict.next[0];
    if (next !== undefined) {
      blocks.push({
        kind: 'paragraph',
        text: `The next check takes about ${next.minutes === 1 ? 'a minute' : `${next.minutes} minutes`}: ${lower(next.words)}${next.words.endsWith('?') ? '' : '.'}`,
      });
    }
    if (cheapest !== undefined) {
      blocks.push({
        kind: 'paragraph',
        text: `Should it be "${lower(cheapest.words)}": ${costWords(cheapest.cost)}.`,
      });
    }
  }
  return blocks;
}

function whatItWasNot({ verdict }: ReportInput): Block[] {
  const seen = new Set<string>();
  const cleared = verdict.cleared.filter(({ id, words }) => {
    const fault = faultById(id.split('@')[0] ?? id);
    return fault.nature === 'fault' && !seen.has(words) && seen.add(words);
  });
  if (cleared.length === 0) return [];
  const shown = cleared.slice(0, LONGEST).map(({ words }) => lower(words));
  const more = cleared.length > shown.length ? `; ${cleared.length - shown.length} more in the appendix` : '';
  return [
    { kind: 'heading', text: 'What it was not' },
    {
      kind: 'paragraph',
      text: `The readings speak against (each under 1 in 100): ${shown.join('; ')}${more}.`,
    },
  ];
}
