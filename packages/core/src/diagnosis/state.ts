import type { Skill } from '../checks/index.ts';
import type { Reading } from '../readings/index.ts';
import type { HealthyView } from './healthy-view.ts';
import type { DrawCache, Posterior, PosteriorReliability } from './inference/index.ts';
import type { BoatModel, Repairs } from './model.ts';
import type { Joined } from './readings-as-evidence.ts';
import type { Tariff } from './repair-plan.ts';

/** What a diagnosis knows after a set of readings; shared by the files that put it into words. */
export interface State {
  readonly model: BoatModel;
  readonly cache: DrawCache;
  readonly posterior: Posterior;
  readonly reliability: PosteriorReliability;
  readonly joined: readonly Joined[];
  readonly readings: readonly Reading[];
  /** Everything that was put right by now. */
  readonly repairs: Repairs;
  /** What is left of each hypothesis, and the chances of that (remaining.ts). */
  readonly remaining: Int32Array;
  readonly still: Float64Array;
  readonly healthy: HealthyView;
  readonly tariff: Tariff;
  readonly skill: Skill;
}

/** Readings of the boat as it stands now: those taken since the last repair. */
export function presentOf({ model, joined, repairs }: State): readonly Joined[] {
  return joined.filter(({ observable }) => model.repairs[observable] === repairs);
}
