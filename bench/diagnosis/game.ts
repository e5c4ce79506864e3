/** One game: the tool asks a hidden boat until it gives its verdict. */
import { minutesOf, type PlacedCheck, type Skill } from '../../packages/core/src/checks/index.ts';
import { createSession, type Session, type Verdict } from '../../packages/core/src/diagnosis/index.ts';
import { sameRepair, type PlacedFault } from '../../packages/core/src/faults/index.ts';
import type { Reading } from '../../packages/core/src/readings/index.ts';
import { remedyFor } from '../../packages/core/src/remedy/index.ts';
import { randomFrom, seedOf, type Random } from './random.ts';
import type { Truth } from './truth.ts';

export interface Play {
  /** States named: those put right, then the most likely first, with their chances. */
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
  /** Of the check that comes next: bits per minute, and what it is worth over what it costs. */
  readonly bitsPerMinute: number;
  readonly gain: number;
}

export interface ToolOptions {
  readonly draws: number | undefined;
  readonly skill: Skill;
  readonly most: number;
  readonly seconds: () => number;
}

/** Which check comes next: the tool's own choice, or any open one; or all there are, at once, whatever they cost: what the
 *  readings can tell at most. */
export type Choice = 'own' | 'random' | 'all';

/** The tool's posterior and stopping rule. Of two hidden faults the one found first is put right, rightly or not, proved by the
 *  readings that the tool's remedy asks for, and the visit goes on: a fault may hide another. */
export function playTool(truth: Truth, choice: Choice, options: ToolOptions): Play {
  const visit = new Visit(truth, choice, options);
  let verdict = visit.goOn();
  for (let round = 1; round < truth.faults.length; round++) {
    const [first] = verdict.suspects;
    const fault = visit.faults.find(({ id }) => id === first?.id);
    const gaveUp = verdict.conclusion.kind === 'nothing-wrong' || verdict.conclusion.kind === 'nothing-fits';
    if (fault === undefined || gaveUp || fault.fault.nature === 'normal') break;
    visit.putRight(fault, verdict);
    verdict = visit.goOn();
  }
  return visit.play(verdict);
}

class Visit {
  private readonly log: string[] = [];
  private readonly path: Step[] = [];
  private readonly seconds: number[] = [];
  private readonly taken: PlacedCheck[] = [];
  private readonly repeated = new Set<string>();
  private readonly random: Random;
  private readonly readings: Reading[] = [];
  private readonly repaired: string[] = [];
  private session: Session;
  private boat: Pick<Truth, 'outcome'>;
  private hindered = 0;
  /** Readings since the last repair. */
  private count = 0;

  constructor(
    private readonly truth: Truth,
    private readonly choice: Choice,
    private readonly options: ToolOptions,
  ) {
    this.random = randomFrom(seedOf('random checks', truth.index));
    this.session = this.begin();
    this.boat = truth;
  }

  get faults(): readonly PlacedFault[] {
    return this.session.faults;
  }

  private get checks(): readonly PlacedCheck[] {
    return this.session.checks;
  }

  private begin(): Session {
    const { draws, skill } = this.options;
    return createSession(this.truth.told, {
      skill,
      repaired: this.repaired,
      ...(draws === undefined ? {} : { draws }),
    });
  }

  /** Repairs what was found; a hidden fault is gone where that is its repair. Then the proof. */
  putRight(found: PlacedFault, verdict: Verdict): void {
    const { checks, readings } = this;
    const { proof } = remedyFor(this.truth.told, verdict, { checks, readings });
    this.repaired.push(found.id);
    this.log.push(`put right: ${found.id}`);
    const mended = this.repaired.flatMap((id) => this.faults.find((one) => one.id === id) ?? []);
    const gone = this.truth.faults.filter((hidden) => mended.some((one) => sameRepair(one, hidden)));
    this.boat = this.truth.mended(gone);
    this.session = this.begin();
    this.repeated.clear();
    this.count = 0;
    for (const { check } of proof) this.take(this.checkOf(check)!, 0);
  }

  private diagnose(): Verdict {
    const start = this.options.seconds();
    const verdict = this.session.diagnose(this.readings);
    this.seconds.push(this.options.seconds() - start);
    return verdict;
  }

  /** Asks until there is nothing more to ask. */
  goOn(): Verdict {
    let verdict = this.diagnose();
    if (this.choice === 'all') {
      for (const { check } of verdict.next) this.take(this.checkOf(check)!, 0);
      verdict = this.diagnose();
    }
    for (;;) {
      const asked = this.asked(verdict);
      if (asked === undefined || this.count >= this.options.most) return verdict;
      this.take(asked.check, asked.again);
      verdict = this.diagnose();
      const first = verdict.suspects[0];
      const next = verdict.next[0];
      this.path.push({
        id: first?.id ?? '',
        probability: first?.probability ?? 0,
        minutes: this.minutes(),
        bitsPerMinute: next?.bitsPerMinute ?? 0,
        gain: next === undefined ? 0 : next.worth - next.costs,
      });
    }
  }

  private asked({ conclusion, next }: Verdict): { check: PlacedCheck; again: number } | undefined {
    const repeat =
      'repeat' in conclusion ? this.readings.find(({ id }) => id === conclusion.repeat) : undefined;
    if (repeat !== undefined && !this.repeated.has(repeat.check)) {
      this.repeated.add(repeat.check);
      // A reading that is doubted is put aside; one that a verdict hangs on is taken twice.
      if (conclusion.kind !== 'look-again') this.readings.splice(this.readings.indexOf(repeat), 1);
      const check = this.checkOf(repeat.check);
      return check && { check, again: 1 };
    }
    if (conclusion.kind !== 'go-on' && conclusion.kind !== 'readings-contradict') return undefined;
    const chosen = this.choice === 'random' && next.length > 0 ? this.random.pick(next) : next[0];
    const check = this.checkOf(chosen?.check);
    return check && { check, again: 0 };
  }

  private checkOf(id: string | undefined): PlacedCheck | undefined {
    return this.checks.find((check) => check.id === id);
  }

  private take(check: PlacedCheck, again: number): void {
    const outcome = this.boat.outcome(check, again);
    const told =
      outcome.kind === 'number'
        ? outcome.value.toPrecision(4)
        : outcome.kind === 'answer'
          ? outcome.answer
          : '-';
    this.log.push(`${check.id}=${told}${again > 0 ? ' (repeated)' : ''}`);
    // What cannot be done is seen at once.
    if (outcome.kind === 'could-not') this.hindered++;
    else this.taken.push(check);
    const after = this.repaired.length === 0 ? {} : { afterRepairOf: [...this.repaired] };
    this.readings.push({
      id: `${check.id}#${this.repaired.length}.${again}`,
      check: check.id,
      outcome,
      ...after,
    });
    this.count++;
  }

  private minutes(): number {
    return minutesOf(this.taken) + this.hindered;
  }

  play(verdict: Verdict): Play {
    const usedUp = this.count >= this.options.most && verdict.conclusion.kind === 'go-on';
    return {
      named: [
        ...this.repaired.map((id) => ({ id, probability: 1 })),
        ...verdict.suspects.map(({ id, probability }) => ({ id, probability })),
      ],
      nothingFits: verdict.nothingFits,
      ended: usedUp ? 'most-readings' : verdict.conclusion.kind,
      readings: this.log.length - this.repaired.length,
      minutes: this.minutes(),
      log: this.log,
      path: this.path,
      seconds: this.seconds,
      operatingPoints: verdict.reliability.operatingPoints,
      notConverged: verdict.reliability.notConverged,
    };
  }
}
