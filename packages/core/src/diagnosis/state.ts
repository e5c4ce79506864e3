import type { Skill } from '../checks/index.ts';
import type { Reading } from '../readings/index.ts';
import type { HealthyView } from './healthy-view.ts';
import type { DrawCache, Posterior, PosteriorReliability } from './inference/index.ts';
import type { BoatModel } from './model.ts';
import type { Joined } from './readings-as-evidence.ts';

/** What a diagnosis knows after a set of readings; shared by the files that put it into words. */
export interface State {
  readonly model: BoatModel;
  readonly cache: DrawCache;
  readonly posterior: Posterior;
  readonly reliability: PosteriorReliability;
  readonly joined: readonly Joined[];
  readonly readings: readonly Reading[];
  readonly healthy: HealthyView;
  readonly skill: Skill;
}
