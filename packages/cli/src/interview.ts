/** The dialogue: asks the best next check, takes the answer, and goes on until it knows or nothing is worth asking.
 *  Pure: lines in, messages out, in any order and with any content; it never throws for what it reads.
 */
import { minutesOf, type PlacedCheck, type Reading, type Verdict } from '@ampwright/core';
import { findPlacedCheck, jobWriter, shown, z } from '@ampwright/jobs';
import { readAnswer } from './interview-answer.ts';
import { interviewInShape, type InterviewIn, type InterviewOut } from './interview-messages.ts';
import type { RemedyShape } from './outputs.ts';
import { headOfJob, round, share, shapeOfCheck, shapeOfConclusion, shapeOfSuspect } from './shapes.ts';
import { maySkill, type Work } from './work.ts';

/** Longest line read [characters]. */
export const longestLine = 100_000;
/** Refused answers after which an ask counts as "could not do". */
const patience = 3;

type StoppedBy = Extract<InterviewOut, { type: 'verdict' }>['stopped_by'];
type ErrorKind = Extract<InterviewOut, { type: 'error' }>['kind'];

/** Whether a reading is of the boat as it stands after all repairs. */
const isAfter = ({ afterRepairOf = [] }: Reading, repaired: readonly string[]): boolean =>
  afterRepairOf.length === repaired.length;

interface Ask {
  readonly number: number;
  readonly check: PlacedCheck;
  refused: number;
}

export interface InterviewOptions {
  readonly maxAsks: number;
  readonly remedyOf: (verdict: Verdict, readings: readonly Reading[]) => RemedyShape;
}

export class Interview {
  /** By check; of the boat as it stands. */
  private readonly readings = new Map<string, Reading>();
  /** Taken before the last repair, and the first of two where a verdict hung on one. */
  private readonly earlier: Reading[] = [];
  /** Checks answered in this dialogue, for the minutes. */
  private readonly done = new Set<string>();
  private readonly repeated = new Set<string>();
  /** A check that is asked a second time without doubt of the first. */
  private twice: string | undefined;
  private readonly asks: Ask[] = [];
  private standing: Ask | undefined;
  private verdict: Verdict | undefined;
  private finished = false;
  /** Errors about readings that were set aside, to be said with the next words. */
  private readonly setAside: InterviewOut[] = [];

  constructor(
    private readonly work: Work,
    private readonly options: InterviewOptions,
  ) {
    for (const reading of work.readings)
      if (isAfter(reading, work.repaired)) this.readings.set(reading.check, reading);
      else this.earlier.push(reading);
  }

  /** Whether the verdict has been given; nothing is read after it. */
  isOver(): boolean {
    return this.finished;
  }

  /** The greeting and the first ask, or the verdict at once where the job's readings are enough. */
  start(): InterviewOut[] {
    const hello: InterviewOut = {
      type: 'hello',
      format: 'ampwright-interview',
      version: 1,
      writer: jobWriter,
      job: headOfJob(this.work.job),
      checks: this.work.checks.length,
      readings: this.readings.size,
      max_asks: this.options.maxAsks,
    };
    return [hello, ...this.next()];
  }

  /** What is said to one line. Empty lines are passed over. */
  receive(line: string): InterviewOut[] {
    if (this.finished || line.trim() === '') return [];
    if (line.length > longestLine) {
      return [
        this.error('too-long', `A line of ${line.length} characters`, `at most ${longestLine} characters`),
      ];
    }
    let value: unknown;
    try {
      value = JSON.parse(line);
    } catch {
      return this.refuse(
        this.standing,
        'not-json',
        `Not JSON: ${shown(line)}`,
        'one JSON object on each line',
      );
    }
    const parsed = z.safeParse(interviewInShape, value);
    if (!parsed.success) return this.refuseShape(value, parsed.error.issues[0]);
    const message = parsed.data;
    switch (message.type) {
      case 'stop':
        return this.finish('stop');
      case 'why':
        return [this.why()];
      case 'reading':
        return this.offered(message);
      case 'answer':
        return this.answered(message);
    }
  }

  /** The end of the input: the verdict as things stand. */
  end(): InterviewOut[] {
    return this.finished ? [] : this.finish('end-of-input');
  }

  private answered(message: Extract<InterviewIn, { type: 'answer' }>): InterviewOut[] {
    const ask =
      (message.ask ?? undefined) === undefined
        ? this.standing
        : this.asks.find((one) => one.number === message.ask);
    if (ask === undefined) {
      const numbers = this.asks.map((one) => one.number).join(', ') || 'none yet';
      return this.refuse(
        this.standing,
        'unknown-ask',
        `There is no ask ${shown(message.ask)}`,
        `ask ${numbers}`,
      );
    }
    const answer = readAnswer(ask.check, message);
    if (answer.kind !== 'ok') return this.refuse(ask, answer.kind, answer.message, answer.allowed);
    return this.take(ask.check, answer.reading, ask.number, message.reason ?? '');
  }

  private offered(message: Extract<InterviewIn, { type: 'reading' }>): InterviewOut[] {
    const found = findPlacedCheck(message.check, this.work.checks);
    if (found.kind === 'unknown-check') {
      const near =
        found.nearest.length > 0 ? `such as ${found.nearest.join(', ')}` : 'see: ampwright checks JOB --json';
      return [
        this.error(
          'unknown-check',
          `No check ${shown(message.check)} on this boat`,
          `a placed check, ${near}`,
        ),
      ];
    }
    const answer = readAnswer(found.check, message);
    if (answer.kind !== 'ok') return [this.error(answer.kind, answer.message, answer.allowed)];
    return this.take(found.check, answer.reading, null, '');
  }

  /** Keeps a reading; the newest of a check counts. Goes on when it answers what was asked. */
  private take(check: PlacedCheck, reading: Reading, ask: number | null, reason: string): InterviewOut[] {
    const first = this.readings.get(check.id);
    if (this.twice === check.id && first !== undefined) {
      this.earlier.push({ ...first, id: `${first.id}, first` });
      this.twice = undefined;
    }
    this.readings.delete(check.id);
    const { repaired } = this.work;
    this.readings.set(check.id, repaired.length === 0 ? reading : { ...reading, afterRepairOf: repaired });
    this.verdict = undefined;
    const outcome = reading.outcome.kind;
    this.done.delete(check.id);
    if (outcome !== 'could-not') this.done.add(check.id);
    const noted: InterviewOut = {
      type: 'noted',
      ask,
      check: check.id,
      outcome: outcome === 'number' ? 'value' : outcome,
      words: outcome === 'could-not' && reason !== '' ? `Could not do: ${shown(reason)}` : check.text.words,
    };
    if (this.standing?.check.id !== check.id) return [noted];
    this.standing = undefined;
    return [noted, ...this.next()];
  }

  private next(): InterviewOut[] {
    const verdict = this.judged();
    const { conclusion } = verdict;
    if (
      conclusion.kind === 'decided' ||
      conclusion.kind === 'nothing-wrong' ||
      conclusion.kind === 'no-check-worth-it'
    ) {
      return this.finish('conclusion');
    }
    if (this.asks.length >= this.options.maxAsks) return this.finish('max-asks');
    const repeat = 'repeat' in conclusion ? this.toRepeat(conclusion.repeat) : undefined;
    if (repeat !== undefined) {
      this.repeated.add(repeat.id);
      if (conclusion.kind === 'look-again') this.twice = repeat.id;
      return [...this.setAside.splice(0), this.ask(repeat, true, 0, verdict)];
    }
    // It could not be looked at again.
    if (conclusion.kind === 'look-again') return this.finish('conclusion');
    for (const candidate of verdict.next) {
      const found = this.work.checks.find((check) => check.id === candidate.check);
      if (found === undefined || this.readings.has(found.id)) continue;
      if (!maySkill(this.work.job.skill, found.text.skill)) continue;
      return [...this.setAside.splice(0), this.ask(found, false, candidate.bitsPerMinute, verdict)];
    }
    return this.finish(conclusion.kind === 'go-on' ? 'no-check-left' : 'conclusion');
  }

  /** The check to do once more, once only; the core names a reading or its check. */
  private toRepeat(repeat: string | undefined): PlacedCheck | undefined {
    const reading = [...this.readings.values()].find((one) => one.id === repeat || one.check === repeat);
    const check = this.work.checks.find((one) => one.id === (reading?.check ?? repeat));
    return check === undefined || this.repeated.has(check.id) ? undefined : check;
  }

  private ask(check: PlacedCheck, repeat: boolean, bitsPerMinute: number, verdict: Verdict): InterviewOut {
    const ask: Ask = { number: this.asks.length + 1, check, refused: 0 };
    this.asks.push(ask);
    this.standing = ask;
    const leading = verdict.suspects[0];
    return {
      type: 'ask',
      ask: ask.number,
      ...shapeOfCheck(check),
      repeat,
      bits_per_minute: round(bitsPerMinute),
      so_far: {
        wrong: share(verdict.wrong),
        answers: verdict.answers.map(({ question, yes }) => ({ question, yes: share(yes) })),
        leading:
          leading === undefined
            ? null
            : { id: leading.id, words: leading.words, probability: share(leading.probability) },
        nothing_fits: share(verdict.nothingFits),
      },
    };
  }

  /** The verdict on all readings. One that the core cannot compute with is set aside, the newest first: a dialogue
   *  must not end over one impossible answer. */
  private judged(): Verdict {
    while (this.verdict === undefined) {
      try {
        this.verdict = this.work.diagnose(this.evidence());
      } catch (fault) {
        const newest = [...this.done].at(-1);
        if (newest === undefined) throw fault;
        this.done.delete(newest);
        this.readings.set(newest, { id: newest, check: newest, outcome: { kind: 'could-not' } });
        const message = `Cannot be computed with, and was set aside: ${newest}`;
        this.setAside.push(this.error('cannot-compute', message, 'another reading of that check'));
      }
    }
    return this.verdict;
  }

  private evidence(): Reading[] {
    return [...this.earlier, ...this.readings.values()];
  }

  private finish(by: StoppedBy): InterviewOut[] {
    const verdict = this.judged();
    this.finished = true;
    this.standing = undefined;
    const minutes = minutesOf(
      [...this.done].flatMap((id) => this.work.checks.find((check) => check.id === id) ?? []),
    );
    return [
      ...this.setAside.splice(0),
      {
        type: 'verdict',
        stopped_by: by,
        conclusion: shapeOfConclusion(verdict.conclusion),
        wrong: share(verdict.wrong),
        answers: verdict.answers.map((answer) => ({ ...answer, yes: share(answer.yes) })),
        suspects: verdict.suspects.map(shapeOfSuspect),
        nothing_fits: share(verdict.nothingFits),
        asks: this.asks.length,
        minutes_spent: minutes,
        remedy: this.options.remedyOf(verdict, this.evidence()),
      },
    ];
  }

  private why(): InterviewOut {
    const { suspects, cleared } = this.judged();
    return {
      type: 'why',
      suspects: suspects.map((suspect) => ({
        ...shapeOfSuspect(suspect),
        why: suspect.why.map((one) => ({ ...one })),
      })),
      cleared: cleared.map(({ id, words, by }) => ({ id, words, by: { ...by } })),
    };
  }

  /** Refuses an answer. The ask stands, until so many were refused that it counts as "could not do". */
  private refuse(ask: Ask | undefined, kind: ErrorKind, message: string, allowed: string): InterviewOut[] {
    const error = this.error(kind, message, allowed);
    if (ask === undefined || ask !== this.standing) return [error];
    ask.refused++;
    if (ask.refused < patience) return [error];
    const reading: Reading = { id: ask.check.id, check: ask.check.id, outcome: { kind: 'could-not' } };
    return [error, ...this.take(ask.check, reading, ask.number, `${patience} answers were refused`)];
  }

  private refuseShape(value: unknown, issue: z.core.$ZodIssue | undefined): InterviewOut[] {
    const type = typeof value === 'object' && value !== null && 'type' in value ? value.type : undefined;
    if (!['answer', 'reading', 'why', 'stop'].includes(String(type))) {
      return this.refuse(
        this.standing,
        'unknown-type',
        `Unknown type ${shown(type)}`,
        'answer, reading, why, stop',
      );
    }
    const place = issue?.path.join('.') ?? '';
    const allowed = 'the fields of the schema interview-in';
    return this.refuse(
      this.standing,
      'bad-message',
      `Field ${shown(place)} is missing or of another kind`,
      allowed,
    );
  }

  private error(kind: ErrorKind, message: string, allowed: string): InterviewOut {
    return { type: 'error', kind, message, allowed, ask: this.standing?.number ?? null };
  }
}
