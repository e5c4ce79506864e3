/** Each reading beside the band in which it would lie if all were well, and where the first suspect puts it. */
import { bandOf, healthyColumns } from './healthy.ts';
import type { State } from './state.ts';
import type { ReadingInLight } from './verdict.ts';

export function readingsInLight(state: State, slips: readonly number[]): readonly ReadingInLight[] {
  const { joined, posterior } = state;
  if (joined.length === 0) return [];
  const wanted = [...new Set(joined.map(({ observable }) => observable))];
  const healthy = healthyColumns(state, wanted);
  const best = posterior.probability.reduce(
    (top, chance, h) => (chance > (posterior.probability[top] ?? 0) ? h : top),
    0,
  );
  const draws = posterior.draws[best];
  return joined.map(({ taken, check, observable, evidence, value }, index) => {
    const column = healthy.get(observable) ?? new Float64Array();
    const band = bandOf(column, state.healthy.sample.weights, check);
    let chance: number | undefined;
    if (evidence.kind === 'categorical' && check.outcome.kind === 'answers') {
      const width = check.outcome.answers.length;
      const { weights, count } = state.healthy.sample;
      let sum = 0;
      let whole = 0;
      for (let i = 0; i < count; i++) {
        sum += (weights[i] ?? 0) * (column[i * width + evidence.outcome] ?? 0);
        whole += weights[i] ?? 0;
      }
      chance = sum / whole;
    }
    return {
      reading: taken.id,
      check: taken.check,
      healthy: band,
      expected: draws && bandOf(draws.columnOf(observable), draws.weights, check),
      healthyChance: chance,
      stands: standing(value, band, chance),
      slip: slips[index] ?? 0,
    };
  });
}

function standing(
  value: number | undefined,
  band: ReturnType<typeof bandOf>,
  chance: number | undefined,
): ReadingInLight['stands'] {
  if (value !== undefined && band !== undefined)
    return value < band.low ? 'low' : value > band.high ? 'high' : 'in';
  if (chance !== undefined) return chance < 0.15 ? 'unusual' : 'usual';
  return 'none';
}
