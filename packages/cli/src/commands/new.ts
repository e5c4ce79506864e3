/** `new --template T`: a fresh job, facts typed as `name=value unit`. */
import {
  findUnit,
  nearestNames,
  parseQuantity,
  templateIds,
  templateWords,
  changes,
  skills,
} from '@ampwright/core';
import type { Change, TemplateId } from '@ampwright/core';
import {
  factProblems,
  factTable,
  newJob,
  parseJob,
  serialiseJob,
  type JobFacts,
  type JobQuantity,
} from '@ampwright/jobs';
import { WrongUse } from '../files.ts';

export interface NewOptions {
  readonly template: string;
  readonly fact: readonly string[];
  readonly title?: string;
  readonly complaint?: string;
  readonly skill?: string;
  readonly id?: string;
  readonly date?: string;
}

/** Text of the new job's file.  Errors: WrongUse naming what is not allowed and what is */
export function newJobText(options: NewOptions, today: string): string {
  const template = oneOf('template', options.template, templateIds);
  const facts = factsOf(options.fact);
  const problem = factProblems({ facts }, ['facts'], facts)[0];
  if (problem !== undefined) {
    throw new WrongUse(
      `--fact ${problem.place}: ${problem.value} is not allowed; allowed: ${problem.allowed}.`,
    );
  }
  const date = options.date ?? today;
  const text = serialiseJob(
    newJob({
      template,
      facts,
      ids: { job: options.id ?? `job-${date}`, visit: 'visit-1' },
      title: options.title ?? templateWords[template],
      date,
      ...(options.complaint === undefined ? {} : { complaint: options.complaint }),
      ...(options.skill === undefined ? {} : { skill: oneOf('skill', options.skill, skills) }),
    }),
  );
  // What this program writes, it must read: ids, dates and texts are judged by the same rules.
  const parsed = parseJob(text);
  const refused = parsed.kind === 'problems' ? parsed.problems[0] : undefined;
  if (refused !== undefined) {
    throw new WrongUse(`${refused.place}: ${refused.value} is not allowed; allowed: ${refused.allowed}.`);
  }
  return text;
}

/** Names of the facts and what each may be, for the help. */
export function factHelp(): string {
  const rows = Object.entries(factTable).map(([name, entry]) =>
    'quantity' in entry ? `  ${name}=VALUE UNIT` : `  ${name}=${entry.choice.options.join('|')}`,
  );
  return ['Facts:', '  nominal_voltage=12 V|24 V', ...rows, `  changed=${changes.join('|')}`].join('\n');
}

function factsOf(list: readonly string[]): JobFacts {
  const facts: Record<string, unknown> = {};
  const changed: Change[] = [];
  for (const item of list) {
    const [name = '', ...rest] = item.split('=');
    const text = rest.join('=').trim();
    if (rest.length === 0 || text === '')
      throw new WrongUse(`--fact "${item}": write it as name=value, e.g. bank_capacity=400Ah.`);
    if (text.toLowerCase() === 'unknown') continue;
    if (name === 'changed') {
      for (const change of text.split(',')) changed.push(oneOf('change', change.trim(), changes));
    } else facts[name] = factValue(name, text);
  }
  return { ...facts, ...(changed.length === 0 ? {} : { changed }) };
}

function factValue(name: string, text: string): JobQuantity | string {
  if (name === 'nominal_voltage') {
    const volts = quantity(name, text, 'voltage', 'V');
    if (volts.value !== 12 && volts.value !== 24)
      throw new WrongUse(`--fact nominal_voltage: ${text}; allowed: 12 V or 24 V.`);
    return volts;
  }
  const entry = Object.hasOwn(factTable, name) ? factTable[name] : undefined;
  if (entry === undefined) {
    const names = ['nominal_voltage', ...Object.keys(factTable), 'changed'];
    throw new WrongUse(
      `--fact ${name}: no such fact; the facts are ${names.join(', ')}.${didYouMean(name, names)}`,
    );
  }
  if ('choice' in entry) return oneOf(name, text, entry.choice.options);
  return quantity(name, text, entry.quantity.dimension, usualUnits[entry.quantity.dimension] ?? 'SI');
}

/** Unit meant where a fact is a bare number. */
const usualUnits: Readonly<Record<string, string>> = {
  current: 'A',
  charge: 'Ah',
  area: 'mm2',
  length: 'm',
  speed: 'rpm',
};

function quantity(
  name: string,
  text: string,
  dimension: Parameters<typeof parseQuantity>[1],
  unit: string,
): JobQuantity {
  const parsed = parseQuantity(text, dimension, findUnit(unit, dimension) === undefined ? undefined : unit);
  if (parsed.kind === 'ok') return { ...parsed.quantity, origin: 'told' };
  const reason =
    parsed.kind === 'unknown-unit'
      ? `unknown unit "${parsed.unit}"; allowed: ${parsed.allowed.join(', ')}`
      : parsed.kind === 'out-of-range'
        ? `must be ${parsed.allowed}`
        : 'write a number and a unit, such as 400Ah';
  throw new WrongUse(`--fact ${name}: "${text}": ${reason}.`);
}

function oneOf<const T extends string>(what: string, value: string, allowed: readonly T[]): T {
  const found = allowed.find((option) => option === value);
  if (found === undefined) {
    throw new WrongUse(`${what} "${value}": allowed are ${allowed.join(', ')}.${didYouMean(value, allowed)}`);
  }
  return found;
}

function didYouMean(value: string, allowed: readonly string[]): string {
  const nearest = nearestNames(value, allowed)[0];
  return nearest === undefined ? '' : ` Did you mean ${nearest}?`;
}

export const templateList = (): string =>
  templateIds.map((id: TemplateId) => `  ${id.padEnd(18)}${templateWords[id]}`).join('\n');
