/** The appendix, kept to a few pages: every figure that the next electrician needs. */
import { partWords } from '../boat/index.ts';
import type { PlacedCheck } from '../checks/index.ts';
import type { ReadingInLight } from '../diagnosis/index.ts';
import { seenWords, type Citation } from '../handbook/index.ts';
import type { Reading } from '../readings/index.ts';
import type { RuleResult } from '../remedy/index.ts';
import { formatNumber, formatQuantity, metricPreference } from '../units/index.ts';
import type { ReportInput } from './report-input.ts';
import { charts } from './appendix-charts.ts';
import {
  bandWords,
  conditionWords,
  costWords,
  lower,
  named,
  oddsOf,
  readingWords,
  repairsWords,
} from './report-words.ts';
import type { Block } from './report.ts';

export function appendix(input: ReportInput): readonly Block[] {
  return [
    ...readingsOf(input),
    ...charts(input),
    ...suspects(input),
    ...cleared(input),
    ...work(input),
    ...rules(input),
    ...proof(input),
    ...reliability(input),
  ];
}

/** An answer this rare with all well is worth a word, though by itself it proves little. */
const SELDOM = 0.25;

const standsWords = {
  in: 'as it should be',
  low: 'LOW',
  high: 'HIGH',
  usual: 'as it should be',
  unusual: 'not as it should be',
  none: '',
} as const;

function readingsOf(input: ReportInput): Block[] {
  const light = new Map(input.verdict.readings.map((one) => [one.reading, one]));
  return input.visits.map((visit): Block => {
    const mended = repairsWords(input, visit.repairs ?? []);
    const name = [
      visit.date,
      mended === '' ? undefined : `after this was put right: ${mended}`,
      visit.baseline ? 'all was well (baseline)' : undefined,
      visit.note,
    ]
      .filter((part) => part !== undefined && part !== '')
      .join(', ');
    const rows = visit.readings.map((reading) => readingRow(input, reading, light.get(reading.id)));
    return {
      kind: 'table',
      caption: `Readings in order${name === '' ? '' : `: ${name}`}`,
      head: ['Check', 'Reading', 'If all were well', 'It is'],
      rows: rows.length > 0 ? rows : [['No readings yet', '', '', '']],
    };
  });
}

function readingRow(input: ReportInput, reading: Reading, light: ReadingInLight | undefined): string[] {
  const preference = input.preference ?? metricPreference;
  const check = checkOf(input, reading.check);
  const condition = conditionWords(reading, preference);
  const words = check?.text.words ?? reading.check;
  const band = light?.healthy ?? input.bands?.get(reading.check);
  const chance = light?.healthyChance;
  const usual =
    chance === undefined ? bandWords(band, check?.outcome, preference) : `this answer: ${oddsOf(chance)}`;
  const stands =
    light === undefined
      ? ''
      : chance !== undefined && chance < SELDOM
        ? 'seldom so'
        : standsWords[light.stands];
  const slip = (light?.slip ?? 0) > 0.3 ? '; may be a slip: take it again' : '';
  const part = check?.part === undefined ? '' : ` (${named(input, check.part)})`;
  return [
    `${words}${part}${condition === '' ? '' : `, ${condition}`}`,
    readingWords(reading, check, preference),
    usual,
    `${stands}${slip}`,
  ];
}

const checkOf = ({ checks }: ReportInput, id: string): PlacedCheck | undefined =>
  checks.find((check) => check.id === id);

function suspects(input: ReportInput): Block[] {
  const { verdict } = input;
  const rows = verdict.suspects
    .filter(({ probability }, index) => probability >= 0.01 || index === 0)
    .slice(0, 6)
    .map((suspect) => [
      `${suspect.words}${suspect.part === '' ? '' : ` (${named(input, suspect.part)})`}${suspect.nature === 'normal' ? ', nothing broken' : ''}`,
      oddsOf(suspect.probability),
      suspect.why
        .slice(0, 2)
        .map(({ words }) => words)
        .join('; ') || '–',
    ]);
  if (verdict.nothingFits >= 0.005)
    rows.push(['Nothing that is known fits', oddsOf(verdict.nothingFits), '–']);
  return [
    {
      kind: 'table',
      caption: 'Suspects, with their odds and why',
      head: ['Suspect', 'Odds', 'Readings that say most'],
      rows,
    },
    {
      kind: 'paragraph',
      text: `The four questions, chance of yes: ${verdict.answers.map(({ question, yes }) => `${question} ${oddsOf(yes)}`).join('; ')}.`,
    },
  ];
}

function cleared(input: ReportInput): Block[] {
  const { verdict, description } = input;
  const byReading = new Map<string, Set<string>>();
  for (const { id, words, by } of verdict.cleared) {
    const reading = checkOf(input, by.check)?.text.words ?? by.check;
    const part = id.split('@')[1];
    const alike = verdict.cleared.filter((other) => other.words === words).length > 1;
    const name = part === undefined || !alike ? words : `${words} (${lower(partWords(description, part))})`;
    byReading.set(reading, (byReading.get(reading) ?? new Set()).add(lower(name)));
  }
  if (byReading.size === 0) return [];
  return [
    {
      kind: 'table',
      caption: 'Cleared, each under 1 in 100, by the reading that did most of it',
      head: ['By', 'Not'],
      rows: [...byReading].map(([reading, names]) => [reading, [...names].join('; ')]),
    },
  ];
}

function work(input: ReportInput): Block[] {
  const { remedy } = input;
  const blocks: Block[] = [{ kind: 'heading', text: 'Work list' }];
  blocks.push({ kind: 'list', ordered: true, items: remedy.work.map(({ words }) => words) });
  if (remedy.whyItFailed.length > 0) {
    blocks.push({
      kind: 'paragraph',
      text: `Why it may have come to this: ${remedy.whyItFailed.join('; ')}.`,
    });
  }
  if (remedy.behind.length > 0) {
    blocks.push({
      kind: 'table',
      caption: 'Look also behind it',
      head: ['May lie behind it', 'Checks that tell'],
      rows: remedy.behind.map(({ words, checks }) => [words, checks.map((check) => check.words).join('; ')]),
    });
  }
  if (remedy.parts.length > 0) {
    blocks.push({
      kind: 'table',
      caption: 'Parts',
      head: ['Part', 'Size', 'Price'],
      rows: remedy.parts.map(({ words, size, price }) => [
        words,
        size ?? "by the maker's number",
        `${formatNumber(price.low, { significant: 3 })} to ${formatNumber(price.high, { significant: 3 })}`,
      ]),
    });
  }
  const steps = remedy.parts.flatMap(({ words, sizing }) => sizing.map((answer) => ({ words, answer })));
  if (steps.length > 0) {
    blocks.push({
      kind: 'table',
      caption: 'How the sizes were worked out. Check the standard in force where the boat is.',
      head: ['Step', 'Result', 'Formula and inputs', 'Source'],
      rows: steps.map(({ words, answer }) => [
        `${words}: ${answer.name}`,
        formatQuantity(answer.value, answer.dimension, input.preference),
        `${answer.formula}; ${answer.inputs.map(({ name, value, dimension }) => `${name} ${formatQuantity(value, dimension, input.preference)}`).join(', ')}`,
        citationWords(answer.citation, answer.margin),
      ]),
    });
  }
  if (remedy.otherwise.length > 0) {
    blocks.push({
      kind: 'table',
      caption: 'If it is something else',
      head: ['Suspect', 'Odds', 'Then', 'Cost'],
      rows: remedy.otherwise.map(({ words, probability, remedy: then, cost }) => [
        words,
        oddsOf(probability),
        then,
        costWords({ ...cost, status: 'estimate' }),
      ]),
    });
  }
  return blocks;
}

function rules(input: ReportInput): Block[] {
  const shown = input.rules ?? input.remedy.rules;
  if (shown.length === 0) return [];
  const failing = shown.filter(({ standing }) => standing === 'near' || standing === 'broken');
  const kept = shown.filter(({ standing }) => standing === 'kept');
  const unknown = shown.filter(({ standing }) => standing === 'unknown');
  const nameOf = (rule: RuleResult): string => `${rule.words} (${named(input, rule.part)})`;
  const blocks: Block[] = [{ kind: 'heading', text: 'The system against the rules' }];
  if (failing.length > 0) {
    blocks.push({
      kind: 'table',
      caption: 'Not kept, or near the limit',
      head: ['Rule', 'Finding', 'Advice', 'Source'],
      rows: failing.map((rule) => [
        `${nameOf(rule)}: ${ruleStanding[rule.standing]}`,
        rule.says,
        rule.advice ?? '–',
        sourceOf(rule),
      ]),
    });
  }
  const items = [
    ...kept.map((rule) => `Kept: ${lower(nameOf(rule))}. ${rule.says} Source: ${sourceOf(rule)}.`),
    ...(unknown.length === 0
      ? []
      : [`Not judged, for want of facts: ${unknown.map((rule) => lower(nameOf(rule))).join('; ')}.`]),
    'Check the standard in force where the boat is.',
  ];
  blocks.push({ kind: 'list', ordered: false, items });
  return blocks;
}

const ruleStanding = {
  kept: 'kept',
  near: 'near the limit',
  broken: 'NOT KEPT',
  unknown: 'not known',
} as const;

const sourceOf = ({ citation, answer }: RuleResult): string =>
  citation === undefined ? '–' : citationWords(citation, answer?.margin);

/** "E11, 11.14.2.6, 2008; known second-hand; margin 12 %" */
function citationWords({ source, clause, edition, seen, note }: Citation, margin?: number): string {
  const spare = margin === undefined ? '' : `; margin ${formatNumber(margin * 100, { decimals: 0 })} %`;
  const odd = note === undefined ? '' : `; ${note}`;
  return `${[source, clause, edition].filter((part) => part !== '').join(', ')}; ${seenWords[seen]}${odd}${spare}`;
}

function proof(input: ReportInput): Block[] {
  const { remedy } = input;
  const preference = input.preference ?? metricPreference;
  const blocks: Block[] = [];
  if (remedy.proof.length > 0) {
    blocks.push({
      kind: 'table',
      caption: 'To prove it: take these again, they must land here',
      head: ['Check', 'Must land in', 'Reading after the work'],
      rows: remedy.proof.map(({ check, words, healthy, answer }) => [
        words,
        answer ?? bandWords(healthy, checkOf(input, check)?.outcome, preference),
        '',
      ]),
    });
  }
  blocks.push({ kind: 'heading', text: 'Baseline for next time' });
  blocks.push({ kind: 'list', ordered: false, items: remedy.baseline });
  return blocks;
}

function reliability({ verdict }: ReportInput): Block[] {
  const { draws, operatingPoints, notConverged, effectiveDraws, error } = verdict.reliability;
  const count = (value: number): string => formatNumber(value, { decimals: 0 });
  return [
    { kind: 'heading', text: 'What had to be assumed' },
    {
      kind: 'paragraph',
      text:
        verdict.assumed.length === 0
          ? 'Nothing: every fact asked for was known.'
          : `${verdict.assumed.join('; ')}.`,
    },
    { kind: 'heading', text: 'How far to trust the figures' },
    {
      kind: 'paragraph',
      text: `Odds come from ${count(draws)} predictions over what is unknown, ${count(operatingPoints)} circuits solved (${count(notConverged)} not), at least ${count(effectiveDraws)} effective draws for each likely suspect; numerical error of an odds figure up to ${formatNumber(error * 100, { decimals: 1 })} in 100. They rest on the suspects and models known, and on the facts and readings as given.`,
    },
    {
      kind: 'paragraph',
      text: "Local codes and standards, and the makers' instructions, come before anything said here.",
    },
  ];
}
