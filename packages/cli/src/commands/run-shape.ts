/** What `run` writes as JSON. */
import {
  eventCaution,
  eventWords,
  fromSI,
  timeToCharge,
  useOverDays,
  type RunOutcome,
} from '@ampwright/core';
import { z } from '@ampwright/jobs';
import { chance, described, head, jobHead, list, number, text } from '../outputs.ts';
import { headOfJob } from '../shapes.ts';
import type { Work } from '../work.ts';
import { bandsShape } from './run-bands.ts';
import { figuresShape, shapeOfFigures } from './run-figures.ts';
import { whatIfShape } from './what-if.ts';

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
      bridge_c: series,
      shaft_w: series,
      engine_share: described(list(number), 'Of what the engine can give at that speed'),
      stage: list(z.enum(['bulk', 'absorption', 'float'])),
    }),
  ),
  spaces: described(list(z.strictObject({ engine: text, space_c: series })), 'Engine spaces'),
  engines: list(
    z.strictObject({
      id: text,
      speed_rpm: described(list(number), 'Loaded; 0 when it stands'),
      speed_drop_rpm: described(list(number), 'By which it would run faster without its alternators'),
    }),
  ),
  events: list(
    z.strictObject({
      hours: number,
      part: text,
      kind: text,
      words: text,
      caution: described(z.nullable(text), 'Where it can do harm: what to mind'),
    }),
  ),
  engine_hours: number,
  shaft_kwh: number,
  figures: figuresShape,
  days: described(
    list(
      z.strictObject({
        day: z.int(),
        lowest: chance,
        highest: chance,
        end: chance,
        ah_in: number,
        ah_out: number,
        engine_hours: number,
      }),
    ),
    'Whole days of the plan, of the bank that the loads live on; empty for less than two',
  ),
  settles: described(
    z.nullable(z.strictObject({ lowest: chance, highest: chance })),
    'State of charge of a day once one is like the next; null while it drifts, or for less than two days',
  ),
  bands: described(
    z.nullable(bandsShape),
    'The run over what nobody knows of the boat; null unless asked for',
  ),
  what_if: described(z.nullable(whatIfShape), 'What-ifs side by side; null unless asked for'),
  imbalance: described(z.number(), 'Numerical error of the energy balance, as a share'),
});
export type RunShape = z.infer<typeof runShape>;

const degrees = (kelvin: number): number => fromSI(kelvin, 'degC', 'temperature').value;
const perMinute = (speed: number): number => fromSI(speed, 'rpm', 'speed').value;
const hours = (seconds: number): number => seconds / 3600;

export function shapeOfRun(
  work: Work,
  { run: found, figures }: RunOutcome,
): Omit<RunShape, 'bands' | 'what_if'> {
  const main = figures.banks[figures.main];
  const use = main === undefined ? undefined : useOverDays(found, main.battery);
  const weeks = use !== undefined && use.days.length > 1 ? use : undefined;
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
    alternators: found.alternators.map(
      ({ id, output, temperature, bridge, shaftPower, engineShare, stage }) => ({
        id,
        amps: output,
        winding_c: temperature.map(degrees),
        bridge_c: bridge.map(degrees),
        shaft_w: shaftPower,
        engine_share: engineShare,
        stage,
      }),
    ),
    spaces: found.spaces.map(({ engine, temperature }) => ({ engine, space_c: temperature.map(degrees) })),
    engines: found.engines.map(({ id, speed, speedDrop }) => ({
      id,
      speed_rpm: speed.map(perMinute),
      speed_drop_rpm: speedDrop.map(perMinute),
    })),
    events: found.events.map((event) => ({
      hours: hours(event.time),
      part: event.part,
      kind: event.kind,
      words: eventWords(event),
      caution: eventCaution(event.kind) ?? null,
    })),
    engine_hours: hours(found.engineSeconds),
    shaft_kwh: found.energy.shaft / 3.6e6,
    figures: shapeOfFigures(figures),
    days: (weeks?.days ?? []).map(({ day, lowest, highest, end, into, outOf, engineTime }) => ({
      day,
      lowest,
      highest,
      end,
      ah_in: into / 3600,
      ah_out: outOf / 3600,
      engine_hours: hours(engineTime),
    })),
    settles: weeks?.settles ?? null,
    imbalance: found.energy.imbalance,
  };
}
