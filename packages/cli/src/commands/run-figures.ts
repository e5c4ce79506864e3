/** The figures of a run, as JSON. */
import { fromSI, type RunFigures } from '@ampwright/core';
import { z } from '@ampwright/jobs';
import { described, number, text } from '../outputs.ts';

const orNever = z.nullable(number);

export const figuresShape = described(
  z.strictObject({
    bank: described(text, 'The bank that the loads live on'),
    hours_to_80: described(orNever, 'null: never within the plan'),
    hours_to_95: orNever,
    ah_per_engine_hour: described(orNever, 'Kept by that bank below 80 %, usual loads taken off'),
    engine_hours_per_day: described(orNever, 'What makes up for a day of usual loads; null: cannot'),
    litres_per_day: described(orNever, 'Fuel of those hours without propeller; estimate, common practice'),
    litres_per_hour: number,
    litres_per_hour_for_charging: number,
    peak_winding_c: number,
    peak_engine_share: described(number, 'Of what the engine can give at that speed, all its alternators'),
    peak_belt_share: described(number, 'Largest output over what the belt section carries'),
    path_loss_v: described(number, 'Between stud and bank and back, at the largest output'),
  }),
  'A run in a few numbers',
  'run-figures',
);

const hours = (seconds: number | undefined): number | null => (seconds === undefined ? null : seconds / 3600);

export function shapeOfFigures(figures: RunFigures): z.infer<typeof figuresShape> {
  const bank = figures.banks[figures.main];
  return {
    bank: bank?.battery ?? '',
    hours_to_80: hours(bank?.timeTo80),
    hours_to_95: hours(bank?.timeTo95),
    ah_per_engine_hour: bank?.charging ?? null,
    engine_hours_per_day: hours(figures.engineTimePerDay),
    litres_per_day: figures.fuelPerDay === undefined ? null : figures.fuelPerDay * 1000,
    litres_per_hour: figures.fuelRate * 3.6e6,
    litres_per_hour_for_charging: figures.fuelRateOfCharging * 3.6e6,
    peak_winding_c: fromSI(figures.peakTemperature, 'degC', 'temperature').value,
    peak_engine_share: figures.peakEngineShare,
    peak_belt_share: figures.peakBeltShare,
    path_loss_v: figures.pathLoss,
  };
}
