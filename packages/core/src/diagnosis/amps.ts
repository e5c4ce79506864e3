/** How many amps reach each bank now, five minutes after the start at cruising speed, over all that is still possible. */
import type { PlacedCheck } from '../checks/index.ts';
import { weightedQuantiles, type PosteriorSample } from './inference/index.ts';
import type { State } from './state.ts';
import type { Verdict } from './verdict.ts';

/** The checks whose predictions these are. */
export const tellsAmps = ({ text }: PlacedCheck): boolean => text.id === 'battery-amps-fast';

export function ampsBands(
  { model }: State,
  sample: PosteriorSample,
  columns: ReadonlyMap<number, Float64Array>,
): Verdict['amps'] {
  const wanted = [...columns.keys()].filter((index) => tellsAmps(model.checks[index]!));
  return wanted.flatMap((index) => {
    const values: number[] = [];
    const weights: number[] = [];
    columns.get(index)?.forEach((value, draw) => {
      if (!Number.isFinite(value)) return;
      values.push(value);
      weights.push(sample.weights[draw] ?? 0);
    });
    if (values.length === 0) return [];
    const [low = 0, middle = 0, high = 0] = weightedQuantiles(values, weights, [0.05, 0.5, 0.95]);
    const amps = (scaled: number): number => model.fromScale(index, scaled);
    const band = { low: amps(low), middle: amps(middle), high: amps(high) };
    return [{ battery: model.checks[index]?.part ?? '', band }];
  });
}
