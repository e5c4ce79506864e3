/** How many amps reach each bank now, five minutes after the start at cruising speed, over all that is still possible. */
import { sampleColumns, weightedQuantiles, type PosteriorSample } from './inference/index.ts';
import type { State } from './session.ts';
import type { Verdict } from './verdict.ts';

export function ampsBands({ model }: State, sample: PosteriorSample): Verdict['amps'] {
  if (sample.count === 0) return [];
  const wanted = model.checks.flatMap((check, index) =>
    check.id.startsWith('battery-amps-fast@') ? [index] : [],
  );
  const unique = wanted.filter(
    (index, at) => wanted.findIndex((one) => model.checks[one]?.id === model.checks[index]?.id) === at,
  );
  const columns = sampleColumns(model, sample, unique);
  return unique.flatMap((index) => {
    const values: number[] = [];
    const weights: number[] = [];
    columns.get(index)?.forEach((value, draw) => {
      if (!Number.isFinite(value)) return;
      values.push(value);
      weights.push(sample.weights[draw] ?? 0);
    });
    if (values.length === 0) return [];
    const [low = 0, middle = 0, high = 0] = weightedQuantiles(values, weights, [0.05, 0.5, 0.95]);
    return [{ battery: model.checks[index]?.part ?? '', band: { low, middle, high } }];
  });
}
