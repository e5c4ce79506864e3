import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Question, Verdict } from '@ampwright/core';
import { parseJob, type Job } from '@ampwright/jobs';
import { workOf } from '../src/work.ts';

const folder = new URL('../../../examples/', import.meta.url);

interface Told {
  /** Faults, one of which the title names; several where the readings of the scenario cannot part them. */
  readonly faults: readonly string[];
  /** What they must have between them. */
  readonly least: number;
  /** Answers that the title implies. */
  readonly yes?: readonly Question[];
  readonly no?: readonly Question[];
}

/** What the title of each example says. The scenarios and readings are ours; what they show is common practice. */
const told: Readonly<Record<string, Told>> = {
  // A small alternator on a large flat bank: a rise of half a volt means that it charges.
  'empty-bank-nothing-wrong': {
    faults: ['battery-flat', 'alternator-small-for-bank', 'loads-too-high', 'all-well'],
    least: 0.75,
    yes: ['making', 'arriving', 'lasting'],
  },
  // No meter tells from outside which part inside the machine has failed: it is exchanged as a whole.
  'dead-alternator': {
    faults: ['rotor-open', 'brushes-worn', 'internal-regulator-dead', 'internal-regulator-intermittent'],
    least: 0.95,
    no: ['making'],
  },
  // Full field brings full output, so the machine is good: only the regulator and its small leads are left.
  'no-field-outside-regulator': {
    faults: ['regulator-dead', 'field-lead-open', 'supply-lead-open'],
    least: 0.95,
    no: ['making'],
  },
  'excitation-some-mornings': { faults: ['excitation-lead-intermittent'], least: 0.9, no: ['making'] },
  'cable-never-changed': {
    faults: ['charge-cable-undersized'],
    least: 0.7,
    yes: ['making'],
    no: ['arriving'],
  },
  'start-delay-taken-for-fault': {
    faults: ['regulator-start-delay', 'all-well'],
    least: 0.5,
    yes: ['making', 'arriving'],
  },
  'isolator-starves-house': { faults: ['isolator-leg-open'], least: 0.95, yes: ['making'], no: ['arriving'] },
  'slipping-dusting-belt': { faults: ['belt-slipping', 'belt-misaligned'], least: 0.95, no: ['making'] },
};

describe('example jobs', () => {
  const names = readdirSync(folder)
    .filter((file) => file.endsWith('.json'))
    .map((file) => file.replace(/\.json$/, ''));

  it('[rule] each has its expectation, and is read without a note', () => {
    expect(names.sort()).toEqual(Object.keys(told).sort());
    for (const name of names) expect(jobOf(name).id).toBe(name);
  });

  it.each(names)('[common practice] %s is diagnosed as its title says', (name) => {
    const { faults, least, yes = [], no = [] } = told[name]!;
    const work = workOf(jobOf(name));
    const verdict = work.diagnose(work.readings);
    expect(faults).toContain(verdict.suspects[0]?.fault);
    const chance = verdict.suspects
      .filter((suspect) => faults.includes(suspect.fault))
      .reduce((sum, suspect) => sum + suspect.probability, 0);
    expect(chance).toBeGreaterThan(least);
    for (const question of yes) expect([question, yesTo(verdict, question) > 0.8]).toEqual([question, true]);
    for (const question of no) expect([question, yesTo(verdict, question) < 0.2]).toEqual([question, true]);
  });
});

function jobOf(name: string): Job {
  const parsed = parseJob(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
  if (parsed.kind === 'problems') throw new Error(JSON.stringify(parsed.problems));
  expect(parsed.notes).toEqual([]);
  return parsed.job;
}

const yesTo = (verdict: Verdict, question: Question): number =>
  verdict.answers.find((answer) => answer.question === question)!.yes;
