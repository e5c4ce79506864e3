/** Small networks of yes/no variables, answered by listing every joint state: something exact to check the engine against.
 *  Each joint state is a hypothesis without unknowns; each variable is a categorical observable (0 no, 1 yes).
 *  Source: [PEARL1988, section 2.1]   Valid: up to 12 variables   Leaves out: everything that makes big networks fast
 */
import { createCache } from './cache.ts';
import { posteriorGiven } from './posterior.ts';
import type { Model, Reading } from './types.ts';

/** A variable: its parents by number (all before it), and its chance of yes for each state of them, first parent slowest. */
export interface NetworkVariable {
  readonly parents: readonly number[];
  readonly chanceOfYes: readonly number[];
}

/** Chance of yes of every variable, given what is known of some.
 *  Errors: RangeError for more than 12 variables, a parent that does not come before, or a table of the wrong length */
export function networkPosterior(
  variables: readonly NetworkVariable[],
  known: ReadonlyMap<number, boolean>,
): Float64Array {
  if (variables.length > 12)
    throw new RangeError(`networkPosterior: ${variables.length} variables, at most 12`);
  const states = 1 << variables.length;
  const priors = Float64Array.from({ length: states }, (_, state) => jointChance(variables, state));
  const model: Model = {
    dimensions: 0,
    observables: variables.map(() => ({ kind: 'categorical', outcomes: 2 })),
    predict(state, _, wanted, out) {
      wanted.forEach((variable, at) => {
        const yes = (state >> variable) & 1;
        out[2 * at] = 1 - yes;
        out[2 * at + 1] = yes;
      });
    },
  };
  const readings: Reading[] = [...known].map(([observable, yes]) => ({
    kind: 'categorical',
    observable,
    outcome: yes ? 1 : 0,
    slip: 0,
  }));
  const cache = createCache(model, { draws: 32 });
  const { posterior } = posteriorGiven(cache, priors, readings, { nothingFits: 0, dropBelow: 0 });
  const chances = new Float64Array(variables.length);
  for (let state = 0; state < states; state++)
    for (let v = 0; v < variables.length; v++)
      if ((state >> v) & 1) chances[v]! += posterior.probability[state]!;
  return chances;
}

function jointChance(variables: readonly NetworkVariable[], state: number): number {
  let chance = 1;
  variables.forEach(({ parents, chanceOfYes }, v) => {
    if (chanceOfYes.length !== 1 << parents.length)
      throw new RangeError(
        `networkPosterior: variable ${v} has ${chanceOfYes.length} chances, needs ${1 << parents.length}`,
      );
    let row = 0;
    for (const parent of parents) {
      if (!(parent < v))
        throw new RangeError(`networkPosterior: parent ${parent} of variable ${v} must come before it`);
      row = 2 * row + ((state >> parent) & 1);
    }
    const yes = chanceOfYes[row]!;
    chance *= (state >> v) & 1 ? yes : 1 - yes;
  });
  return chance;
}
