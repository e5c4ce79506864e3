/** `run JOB`: the boat through time. How full and when, amps and volts, stages, heat, share of the engine. */
import {
  chargeRunOf,
  formatDuration,
  formatQuantity,
  fromSI,
  parseQuantity,
  timeToCharge,
  type ChargeRun,
  type Phase,
} from '@ampwright/core';
import { z } from '@ampwright/jobs';
import { WrongUse } from '../files.ts';
import { chance, described, head, jobHead, list, number, text } from '../outputs.ts';
import { percent, plain, wrapped } from '../say.ts';
import { headOfJob } from '../shapes.ts';
import type { Work } from '../work.ts';
import type { Result } from './result.ts';

export interface RunCommandOptions {
  readonly phase: readonly string[];
  readonly charge: readonly string[];
}

const series = described(list(number), 'One for each time');

export const runShape = z.strictObject({
  ...head('ampwright-run'),
  job: jobHead,
  ended: z.enum(['plan-done', 'bank-empty', 'did-not-converge', 'cancelled']),
  hours: series,
  batteries: list(
    z.strictObject({
      id: text,
      volts: series,
      amps: described(list(number), 'Charging is positive'),
      charge: described(list(chance), 'State of charge'),
      hours_to_80: z.nullable(number),
      hours_to_95: z.nullable(number),
    }),
  ),
  alternators: list(
    z.strictObject({
      id: text,
      amps: series,
      winding_c: series,
      shaft_w: series,
      engine_share: described(list(number), 'Of what the engine can give at that speed'),
      stage: list(z.enum(['bulk', 'absorption', 'float'])),
    }),
  ),
  events: list(z.strictObject({ hours: number, part: text, kind: text })),
  engine_hours: number,
  shaft_kwh: number,
  imbalance: described(z.number(), 'Numerical error of the energy balance, as a share'),
});
export type RunShape = z.infer<typeof runShape>;

export function run(work: Work, options: RunCommandOptions): Result {
  const plan = (options.phase.length === 0 ? ['running 6h'] : options.phase).map(phaseOf);
  const found = chargeRunOf(work.description, plan, { stateOfCharge: chargesOf(options.charge, work) });
  const json = shapeOfRun(work, found);
  return { json, text: runText(json), code: 0 };
}

/** "running 2h 900rpm loads 1.5", "off 10h", "off 8h sources".   Errors: WrongUse for anything else */
function phaseOf(words: string): Phase {
  const refuse = (why: string): never => {
    throw new WrongUse(
      `--phase "${plain(words)}": ${why}. Write it as "running 2h 900rpm" or "off 10h"; "loads 1.5" and "sources" may follow.`,
    );
  };
  const [engine, ...rest] = words.trim().split(/\s+/);
  if (engine !== 'running' && engine !== 'off') return refuse('it begins with "running" or "off"');
  let phase: Phase = { duration: 0, engine };
  for (let at = 0; at < rest.length; at++) {
    const word = rest[at] ?? '';
    const time = parseQuantity(word, 'time');
    const speed = parseQuantity(word, 'speed');
    if (word === 'sources') phase = { ...phase, otherSources: 'as-found' };
    else if (word === 'loads') phase = { ...phase, loads: Number(rest[++at] ?? NaN) };
    else if (time.kind === 'ok' && /[a-z]/i.test(word)) phase = { ...phase, duration: time.value };
    else if (speed.kind === 'ok' && engine === 'running') phase = { ...phase, engineSpeed: speed.value };
    else return refuse(`"${plain(word)}" is neither a time nor a speed`);
  }
  if (!(phase.duration > 0 && phase.duration <= 100 * 86_400))
    return refuse('its time is from above 0 to 100 d');
  if (phase.engineSpeed !== undefined && !(phase.engineSpeed > 0 && phase.engineSpeed < 800))
    return refuse('its speed is from above 0 to 7600 rpm');
  if (phase.loads !== undefined && !(phase.loads >= 0 && phase.loads <= 100))
    return refuse('"loads" is followed by a number from 0 to 100');
  return phase;
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

const hours = (seconds: number): number => seconds / 3600;

function shapeOfRun(work: Work, found: ChargeRun): RunShape {
  const until = (id: string, share: number): number | null => {
    const seconds = timeToCharge(found, id, share);
    return seconds === undefined ? null : hours(seconds);
  };
  return {
    format: 'ampwright-run',
    version: 1,
    job: headOfJob(work.job),
    ended: found.ended,
    hours: found.times.map(hours),
    batteries: found.batteries.map(({ id, voltage, current, stateOfCharge }) => ({
      id,
      volts: voltage,
      amps: current,
      charge: stateOfCharge,
      hours_to_80: until(id, 0.8),
      hours_to_95: until(id, 0.95),
    })),
    alternators: found.alternators.map(({ id, output, temperature, shaftPower, engineShare, stage }) => ({
      id,
      amps: output,
      winding_c: temperature.map((kelvin) => fromSI(kelvin, 'degC', 'temperature').value),
      shaft_w: shaftPower,
      engine_share: engineShare,
      stage,
    })),
    events: found.events.map(({ time, part, kind }) => ({ hours: hours(time), part, kind })),
    engine_hours: hours(found.engineSeconds),
    shaft_kwh: found.energy.shaft / 3.6e6,
    imbalance: found.energy.imbalance,
  };
}

const ROWS = 16;
const endWords = {
  'plan-done': 'The plan is done.',
  'bank-empty': 'The run ends here: a bank is empty.',
  'did-not-converge': 'The run ends here: no solution was found, and nothing after it is known.',
  cancelled: 'Cancelled.',
} as const;

function runText(shape: RunShape): string {
  const lines = [wrapped(plain(shape.job.title ?? shape.job.id))];
  for (const battery of shape.batteries) {
    const first = battery.charge[0] ?? 0;
    const last = battery.charge.at(-1) ?? 0;
    const reached = (at: number | null): string =>
      at === null ? 'never' : `in ${formatDuration(at * 3600)}`;
    lines.push(
      wrapped(
        `${battery.id}: from ${percent(first)} to ${percent(last)}; 80 % ${reached(battery.hours_to_80)}, 95 % ${reached(battery.hours_to_95)}`,
      ),
    );
  }
  for (const machine of shape.alternators) {
    const hottest = Math.max(...machine.winding_c);
    const share = Math.max(...machine.engine_share);
    lines.push(
      wrapped(
        `${machine.id}: at most ${formatQuantity(Math.max(...machine.amps), 'current')}, windings at most ${hottest.toFixed(0)} °C, at most ${percent(share)} of the engine at that speed`,
      ),
    );
  }
  lines.push('', ...table(shape));
  for (const { hours: at, part, kind } of shape.events)
    lines.push(wrapped(`${formatDuration(at * 3600)}: ${part}: ${kind.replace('-', ' ')}`, '  - '));
  lines.push('', endWords[shape.ended]);
  lines.push(wrapped('The median boat: what nobody knows of it may make it faster or slower.'));
  return lines.join('\n');
}

/** Rows at about even times, volts, amps and charge of each bank. */
function table({ hours: times, batteries }: RunShape): string[] {
  const end = times.at(-1) ?? 0;
  const rows = Array.from({ length: ROWS + 1 }, (_, k) =>
    times.findIndex((time) => time >= (end * k) / ROWS - 1e-9),
  ).filter((index, k, all) => index >= 0 && all.indexOf(index) === k);
  const cell = (words: string): string => words.padStart(9);
  return [
    `${'time'.padStart(12)}${batteries.map(({ id }) => `  ${plain(id).slice(0, 25).padEnd(27)}`).join('')}`,
    ...rows.map((index) => {
      const banks = batteries.map(
        ({ volts, amps, charge }) =>
          `${cell(`${(volts[index] ?? NaN).toFixed(2)} V`)}${cell(`${(amps[index] ?? NaN).toFixed(1)} A`)}${cell(percent(charge[index] ?? 0))}  `,
      );
      return `${formatDuration((times[index] ?? 0) * 3600).padStart(12)}${banks.join('')}`.trimEnd();
    }),
  ];
}
