/** A run as a technician reads it: how full and when, what it asked of machine and engine, a table over time. */
import { formatDuration, formatQuantity, resampled } from '@ampwright/core';
import { percent, plain, wrapped } from '../say.ts';
import type { RunShape } from './run-shape.ts';

const ROWS = 16;
const endWords = {
  'plan-done': 'The plan is done.',
  'bank-empty': 'The run ends here: a bank is empty.',
  'did-not-converge': 'The run ends here: no solution was found, and nothing after it is known.',
  cancelled: 'Cancelled.',
} as const;

export function runText(shape: Omit<RunShape, 'bands' | 'what_if'>): string {
  const lines = [wrapped(plain(shape.job.title ?? shape.job.id))];
  for (const battery of shape.batteries) {
    const first = battery.charge[0] ?? 0;
    const last = battery.charge.at(-1) ?? 0;
    const reached = (at: number | null): string =>
      at === null ? 'never' : at <= 0 ? 'from the start' : `in ${formatDuration(at * 3600)}`;
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
        `${machine.id}: at most ${formatQuantity(Math.max(...machine.amps), 'current')}, windings at most ${hottest.toFixed(0)} °C, rectifier ${Math.max(...machine.bridge_c).toFixed(0)} °C, at most ${percent(share)} of the engine at that speed`,
      ),
    );
  }
  for (const { id, speed_drop_rpm: drops } of shape.engines) {
    const drop = Math.max(...drops);
    if (drop >= 1)
      lines.push(
        wrapped(`${id}: its alternators slow it down by up to ${drop.toFixed(0)} rpm, which is heard`),
      );
  }
  lines.push(...figuresText(shape), '', ...table(shape));
  lines.push(...eventLines(shape), ...dayLines(shape));
  lines.push('', endWords[shape.ended]);
  lines.push(wrapped('The median boat: what nobody knows of it may make it faster or slower.'));
  return lines.join('\n');
}

/** Rows at even times: volts, amps and charge of each bank. */
function table({ hours, batteries }: Pick<RunShape, 'hours' | 'batteries'>): string[] {
  const end = hours.at(-1) ?? 0;
  const rows = Array.from({ length: ROWS + 1 }, (_, k) => (end * k) / ROWS);
  const cell = (words: string): string => words.padStart(9);
  const banks = batteries.map(({ id, volts, amps, charge }) => ({
    id: plain(id).slice(0, 25),
    volts: resampled(hours, volts, rows),
    amps: resampled(hours, amps, rows),
    charge: resampled(hours, charge, rows),
  }));
  return [
    `${'time'.padStart(12)}${banks.map(({ id }) => `   ${id.padEnd(26)}`).join('')}`.trimEnd(),
    ...rows.map((at, row) => {
      const cells = banks.map(
        ({ volts, amps, charge }) =>
          `${cell(`${(volts[row] ?? NaN).toFixed(2)} V`)}${cell(`${(amps[row] ?? NaN).toFixed(1)} A`)}${cell(percent(charge[row] ?? 0)).padStart(11)}`,
      );
      return `${formatDuration(at * 3600).padStart(12)}${cells.join('')}`.trimEnd();
    }),
  ];
}

/** What the run asked of engine, belt and cable, and what holds the bank. */
function figuresText({ engine_hours, figures }: Pick<RunShape, 'engine_hours' | 'figures'>): string[] {
  if (engine_hours <= 0) return [];
  const hours = figures.engine_hours_per_day;
  return [
    wrapped(
      `Belt loaded to ${(100 * figures.peak_belt_share).toFixed(0)} % of what its section carries; ${formatQuantity(figures.path_loss_v, 'voltage')} lost between alternator and bank.`,
    ),
    wrapped(
      `Fuel: about ${figures.litres_per_hour.toFixed(1)} L an hour without propeller, ${figures.litres_per_hour_for_charging.toFixed(1)} L of it for charging.`,
    ),
    hours === null
      ? wrapped(`${figures.bank} is not charged by this plan, so no engine time a day is given.`)
      : wrapped(
          `To hold ${figures.bank} with the usual loads all day: about ${formatDuration(hours * 3600)} of engine a day, ${(figures.litres_per_day ?? 0).toFixed(1)} L.`,
        ),
  ];
}

const MOST_EVENTS = 12;

/** What happened; where it happened over and over, how often. Then what to mind, each caution once. */
function eventLines({ events }: Pick<RunShape, 'events'>): string[] {
  const cautions = [...new Set(events.flatMap(({ caution }) => caution ?? []))];
  const minded = cautions.map((caution) => wrapped(`Caution: ${caution}`));
  if (events.length <= MOST_EVENTS)
    return [
      ...events.map(({ hours, part, words }) =>
        wrapped(`${formatDuration(hours * 3600)}: ${part}: ${words}`, '  - '),
      ),
      ...minded,
    ];
  const sorts = [...new Set(events.map(({ part, kind }) => `${part}: ${kind}`))];
  return [
    ...sorts.map((sort) => {
      const times = events.filter(({ part, kind }) => `${part}: ${kind}` === sort);
      const [first] = times;
      const at = formatDuration((first?.hours ?? 0) * 3600);
      return wrapped(
        `${first?.part ?? ''}: ${first?.words ?? ''} ${times.length} ${times.length === 1 ? 'time' : 'times'}, first at ${at}`,
        '  - ',
      );
    }),
    ...minded,
  ];
}

const MOST_DAYS = 10;

function dayLines({ days, settles, figures }: Pick<RunShape, 'days' | 'settles' | 'figures'>): string[] {
  if (days.length === 0) return [];
  const every = Math.ceil(days.length / MOST_DAYS);
  const shown = days.filter((_, k) => k % every === 0 || k === days.length - 1);
  return [
    '',
    `${'day'.padStart(5)}${'lowest'.padStart(10)}${'highest'.padStart(10)}${'end'.padStart(8)}${'Ah in'.padStart(9)}${'Ah out'.padStart(9)}${'engine'.padStart(12)}`,
    ...shown.map(({ day, lowest, highest, end, ah_in, ah_out, engine_hours }) =>
      [
        day.toString().padStart(5),
        percent(lowest).padStart(10),
        percent(highest).padStart(10),
        percent(end).padStart(8),
        ah_in.toFixed(0).padStart(9),
        ah_out.toFixed(0).padStart(9),
        formatDuration(engine_hours * 3600).padStart(12),
      ].join(''),
    ),
    settles === null
      ? wrapped(`${figures.bank} still drifts at the end: one day is not yet like the next.`)
      : wrapped(
          `${figures.bank} settles between ${percent(settles.lowest)} and ${percent(settles.highest)} over a day.`,
        ),
  ];
}
