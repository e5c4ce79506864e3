/** Bands of a run, as JSON and as text. */
import { formatDuration, fromSI, type FigureBand, type RunBands, type SeriesBand } from '@ampwright/core';
import { z } from '@ampwright/jobs';
import { described, list, number, text } from '../outputs.ts';
import { percent, plain, wrapped } from '../say.ts';

const seriesBand = described(
  z.strictObject({ low: list(number), middle: list(number), high: list(number) }),
  '10, 50 and 90 % of the boats that are possible lie below; one for each time',
  'series-band',
);
const figureBand = described(
  z.strictObject({ low: z.nullable(number), middle: z.nullable(number), high: z.nullable(number) }),
  'As above; null: never, or cannot',
  'figure-band',
);

export const bandsShape = z.strictObject({
  draws: described(z.int(), 'Runs behind the bands'),
  hours: list(number),
  batteries: list(
    z.strictObject({
      id: text,
      charge: seriesBand,
      volts: seriesBand,
      amps: seriesBand,
      hours_to_80: figureBand,
      hours_to_95: figureBand,
    }),
  ),
  alternators: list(z.strictObject({ id: text, amps: seriesBand, winding_c: seriesBand })),
  engine_hours_per_day: figureBand,
  litres_per_day: figureBand,
  peak_winding_c: figureBand,
  peak_engine_share: figureBand,
});

export function shapeOfBands(bands: RunBands): z.infer<typeof bandsShape> {
  return {
    draws: bands.draws,
    hours: bands.times.map((time) => time / 3600),
    batteries: bands.batteries.map(({ id, stateOfCharge, voltage, current, timeTo80, timeTo95 }) => ({
      id,
      charge: scaled(stateOfCharge),
      volts: scaled(voltage),
      amps: scaled(current),
      hours_to_80: figureOf(timeTo80, inHours),
      hours_to_95: figureOf(timeTo95, inHours),
    })),
    alternators: bands.alternators.map(({ id, output, temperature }) => ({
      id,
      amps: scaled(output),
      winding_c: scaled(temperature, inCelsius),
    })),
    engine_hours_per_day: figureOf(bands.engineTimePerDay, inHours),
    litres_per_day: figureOf(bands.fuelPerDay, (value) => value * 1000),
    peak_winding_c: figureOf(bands.peakTemperature, inCelsius),
    peak_engine_share: figureOf(bands.peakEngineShare),
  };
}

const ROWS = 8;

export function bandsText(bands: RunBands): string {
  const lines = [
    wrapped(
      `What nobody knows of the boat, in ${bands.draws} possible boats: one in ten lies below the first figure, half below the second, nine in ten below the third.`,
    ),
  ];
  const last = bands.times.length - 1;
  const rows = Array.from({ length: ROWS + 1 }, (_, k) => Math.round((last * k) / ROWS));
  for (const battery of bands.batteries) {
    lines.push(
      '',
      `${'time'.padStart(12)}  ${plain(battery.id).slice(0, 18).padEnd(20)}${'volts'.padEnd(22)}amps`,
      ...rows.map((at) =>
        [
          formatDuration(bands.times[at] ?? 0).padStart(12),
          `  ${of(battery.stateOfCharge, at, (value) => (100 * value).toFixed(0), 4)} %`.padEnd(22),
          of(battery.voltage, at, (value) => value.toFixed(2), 6).padEnd(22),
          of(battery.current, at, (value) => value.toFixed(0), 5),
        ]
          .join('')
          .trimEnd(),
      ),
      wrapped(`${battery.id}: 80 % ${reached(battery.timeTo80)}; 95 % ${reached(battery.timeTo95)}.`),
    );
  }
  const { engineTimePerDay: day, peakTemperature: hot, peakEngineShare: share } = bands;
  lines.push(
    wrapped(`Engine a day that holds the bank: ${spread(day, (value) => formatDuration(value), 'cannot')}.`),
    wrapped(`Hottest winding: ${spread(hot, (value) => `${inCelsius(value).toFixed(0)} °C`, '?')}.`),
    wrapped(`Largest share of engine power: ${spread(share, percent, '?')}.`),
  );
  return lines.join('\n');
}

const inHours = (seconds: number): number => seconds / 3600;
const inCelsius = (kelvin: number): number => fromSI(kelvin, 'degC', 'temperature').value;

const scaled = ({ low, middle, high }: SeriesBand, by = (value: number): number => value) => ({
  low: low.map(by),
  middle: middle.map(by),
  high: high.map(by),
});

function figureOf(
  { low, middle, high }: FigureBand,
  by = (value: number): number => value,
): z.infer<typeof figureBand> {
  const one = (value: number): number | null => (Number.isFinite(value) ? by(value) : null);
  return { low: one(low), middle: one(middle), high: one(high) };
}

const of = (
  { low, middle, high }: SeriesBand,
  at: number,
  say: (value: number) => string,
  width: number,
): string => [low, middle, high].map((series) => say(series[at] ?? NaN).padStart(width)).join('');

const reached = (band: FigureBand): string =>
  `after ${spread(band, (value) => formatDuration(value), 'never')}`;

function spread({ low, middle, high }: FigureBand, say: (value: number) => string, none: string): string {
  const one = (value: number): string => (Number.isFinite(value) ? say(value) : none);
  return `${one(low)} / ${one(middle)} / ${one(high)}`;
}
