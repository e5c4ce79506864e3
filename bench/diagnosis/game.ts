/** One game: a strategy asks a hidden boat until it gives its verdict. */
import { minutesOf, type PlacedCheck, type Skill } from '../../packages/core/src/checks/index.ts';
import { createSession, type Verdict } from '../../packages/core/src/diagnosis/index.ts';
import type { Reading } from '../../packages/core/src/readings/index.ts';
import { randomFrom, seedOf } from './random.ts';
import type { Truth } from './truth.ts';

export interface Play {
  /** States named, most likely first, with their chances. */
  readonly named: readonly { readonly id: string; readonly probability: number }[];
  readonly nothingFits: number;
  readonly ended: string;
  readonly readings: number;
  readonly minutes: number;
  readonly log: readonly string[];
  readonly path: readonly Step[];
  /** Seconds of each diagnosis. */
  readonly seconds: readonly number[];
  readonly operatingPoints: number;
  readonly notConverged: number;
}

/** Where the game stands after a reading. */
export interface Step {
  /** First suspect and its chance. */
  readonly id: string;
  readonly probability: number;
  readonly minutes: number;
  /** Most bits per minute that a check offers, and the most that one saves over what it costs. */
  readonly bitsPerMinute: number;
  readonly gain: number;
}

export interface ToolOptions {
  readonly draws: number | undefined;
  readonly skill: Skill;
  readonly most: number;
  readonly seconds: () => number;
}

/** The tool's posterior and stopping rule; which check comes next is the tool's own choice, or any open one. */
export function playTool(truth: Truth, choice: 'own' | 'random', options: ToolOptions): Play {
  const session = createSession(truth.told, {
    skill: options.skill,
    ...(options.draws === undefined ? {} : { draws: options.draws }),
  });
  const random = randomFrom(seedOf('random checks', truth.index));
  const byId = new Map(session.checks.map((check) => [check.id, check]));
  const readings: Reading[] = [];
  const repeated = new Set<string>();
  const log: string[] = [];
  const path: Step[] = [];
  const seconds: number[] = [];
  const taken: PlacedCheck[] = [];
  let hindered = 0;
  const diagnose = (): Verdict => {
    const start = options.seconds();
    const verdict = session.diagnose(readings);
    seconds.push(options.seconds() - start);
    return verdict;
  };
  let verdict = diagnose();
  for (;;) {
    const { conclusion } = verdict;
    const repeat = 'repeat' in conclusion ? readings.find(({ id }) => id === conclusion.repeat) : undefined;
    let check: PlacedCheck | undefined;
    let again = 0;
    if (repeat !== undefined && !repeated.has(repeat.check)) {
      repeated.add(repeat.check);
      check = byId.get(repeat.check);
      again = 1;
      // A reading that is doubted is put aside; one that a verdict hangs on is taken twice.
      if (conclusion.kind !== 'look-again') readings.splice(readings.indexOf(repeat), 1);
    } else {
      if (conclusion.kind !== 'go-on' && conclusion.kind !== 'readings-contradict') break;
      const open = verdict.next;
      check = byId.get((choice === 'own' || open.length === 0 ? open[0] : random.pick(open))?.check ?? '');
    }
    if (check === undefined || readings.length >= options.most) break;
    const outcome = truth.outcome(check, again);
    const told =
      outcome.kind === 'number'
        ? outcome.value.toPrecision(4)
        : outcome.kind === 'answer'
          ? outcome.answer
          : '-';
    log.push(`${check.id}=${told}${again > 0 ? ' (repeated)' : ''}`);
    // What cannot be done is seen at once.
    if (outcome.kind === 'could-not') hindered++;
    else taken.push(check);
    readings.push({ id: `${check.id}#${again}`, check: check.id, outcome });
    verdict = diagnose();
    const first = verdict.suspects[0];
    path.push({
      id: first?.id ?? '',
      probability: first?.probability ?? 0,
      minutes: minutesOf(taken) + hindered,
      bitsPerMinute: Math.max(0, ...verdict.next.map((one) => one.bitsPerMinute)),
      gain: Math.max(0, ...verdict.next.map(({ saves, costs }) => saves - costs)),
    });
  }
  const ended =
    readings.length >= options.most && verdict.conclusion.kind === 'go-on'
      ? 'most-readings'
      : verdict.conclusion.kind;
  return {
    named: verdict.suspects.map(({ id, probability }) => ({ id, probability })),
    nothingFits: verdict.nothingFits,
    ended,
    readings: log.length,
    minutes: minutesOf(taken) + hindered,
    log,
    path,
    seconds,
    operatingPoints: verdict.reliability.operatingPoints,
    notConverged: verdict.reliability.notConverged,
  };
}
