/** `run JOB`: the boat through time. How full and when, amps and volts, stages, heat, share of the engine. */
import { compareRuns, dailyPlan, parsePhase, runBands, type Phase } from '@ampwright/core';
import { WrongUse } from '../files.ts';
import { progressOf } from '../progress.ts';
import { plain } from '../say.ts';
import type { Work } from '../work.ts';
import type { Result } from './result.ts';
import { bandsText, shapeOfBands } from './run-bands.ts';
import { shapeOfRun, type RunShape } from './run-shape.ts';
import { runText } from './run-text.ts';
import { shapeOfWhatIf, variantsOf, whatIfText } from './what-if.ts';

export interface RunCommandOptions {
  readonly phase: readonly string[];
  readonly charge: readonly string[];
  /** The phases are a day, and are repeated so often. */
  readonly days?: number;
  readonly bands?: boolean;
  /** Names with or without a size; empty for all that apply, undefined for none. */
  readonly whatIf?: readonly string[];
}

export function run(work: Work, options: RunCommandOptions): Result {
  const { description } = work;
  const plan = planOf(options);
  const charges = { stateOfCharge: chargesOf(options.charge, work) };
  const variants = options.whatIf && variantsOf(description, options.whatIf);
  const progress = progressOf();
  const compared = compareRuns(description, plan, variants ?? [], {
    ...charges,
    onProgress: (done) => progress('what-if', done),
  });
  const bands =
    options.bands === true
      ? runBands(description, plan, { ...charges, onProgress: (done) => progress('bands', done) })
      : undefined;
  const json: RunShape = {
    ...shapeOfRun(work, compared.base),
    bands: bands === undefined ? null : shapeOfBands(bands),
    what_if: variants === undefined ? null : shapeOfWhatIf(compared),
  };
  return {
    json,
    text: [
      runText(json),
      ...(bands === undefined ? [] : ['', bandsText(bands)]),
      ...(variants === undefined ? [] : ['', whatIfText(compared)]),
    ].join('\n'),
    code: 0,
  };
}

/** Errors: WrongUse for words that are no phase */
function phaseOf(words: string): Phase {
  const parsed = parsePhase(words);
  if (parsed.kind === 'phase') return parsed.phase;
  throw new WrongUse(
    `--phase "${plain(words)}": ${plain(parsed.why)}. Write it as "running 2h 900rpm" or "off 10h"; "loads 1.5" and "sources" may follow.`,
  );
}

/** The phases, or as many days of them as are asked for.  Errors: WrongUse */
function planOf({ phase, days }: RunCommandOptions): readonly Phase[] {
  const phases = (phase.length === 0 ? ['running 6h'] : phase).map(phaseOf);
  if (days === undefined) return phases;
  const repeated = dailyPlan(phases, days);
  if (repeated.kind === 'plan') return repeated.plan;
  throw new WrongUse(`--days ${days}: the phases are not a day: ${repeated.why}.`);
}

/** `house=40%`, `house=0.4`.   Errors: WrongUse */
function chargesOf(given: readonly string[], work: Work): Record<string, number> {
  const batteries = work.description.parts.filter(({ kind }) => kind === 'battery').map(({ id }) => id);
  return Object.fromEntries(
    given.map((words) => {
      const [id = '', figure = ''] = words.split('=');
      const number = figure.endsWith('%') ? Number(figure.slice(0, -1)) / 100 : Number(figure);
      if (!batteries.includes(id) || figure === '' || !(number >= 0 && number <= 1)) {
        throw new WrongUse(
          `--charge "${plain(words)}": write it as ${batteries[0] ?? 'battery'}=40%, from 0 to 100 %; the banks are ${batteries.join(', ')}.`,
        );
      }
      return [id, number];
    }),
  );
}
