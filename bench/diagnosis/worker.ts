/** Plays a share of the boats and writes a line of JSON for each game. Started by bench/diagnosis.ts. */
import { performance } from 'node:perf_hooks';
import type { TemplateId } from '../../packages/core/src/boat/index.ts';
import { playTool, type Play } from './game.ts';
import { playTradeOrder } from './trade-order.ts';
import { truthOf, type Draw } from './truth.ts';

export interface WorkerPlan {
  readonly seedSet: string;
  readonly draw: Draw;
  readonly first: number;
  readonly boats: number;
  readonly step: number;
  readonly draws: number | undefined;
  readonly templates: readonly TemplateId[];
  readonly skill: 'owner' | 'apprentice' | 'electrician';
  readonly most: number;
  /** No boat is begun later. */
  readonly minutes: number;
  /** Random checks are played on one boat in so many; 0: never. */
  readonly randomEvery: number;
  /** All checks there are, on one boat in so many; 0: never. */
  readonly allEvery: number;
}

export type Strategy = 'tool' | 'trade' | 'random' | 'all';

export interface Game extends Play {
  readonly draw: Draw;
  readonly strategy: Strategy;
  readonly index: number;
  readonly template: TemplateId;
  readonly templates: readonly TemplateId[];
  readonly truth: readonly string[];
  readonly severity: number;
  readonly present: boolean;
  readonly crash?: string;
}

const nothing: Play = {
  named: [],
  nothingFits: 0,
  ended: 'crash',
  readings: 0,
  minutes: 0,
  log: [],
  path: [],
  seconds: [],
  operatingPoints: 0,
  notConverged: 0,
};

const plan = JSON.parse(process.argv[2] ?? '{}') as WorkerPlan;
const options = {
  draws: plan.draws,
  skill: plan.skill,
  most: plan.most,
  seconds: () => performance.now() / 1000,
};

for (let index = plan.first; index < plan.boats; index += plan.step) {
  if (performance.now() > 60_000 * plan.minutes) break;
  const truth = truthOf(plan.seedSet, index, plan.draw, plan.templates);
  const emit = (strategy: Strategy, play: () => Play): void => {
    const about = {
      draw: plan.draw,
      strategy,
      index,
      template: truth.template,
      templates: plan.templates,
      truth: truth.faults.map(({ id }) => id),
      severity: truth.severity,
      present: truth.present,
    };
    let game: Game;
    try {
      game = { ...about, ...play() };
    } catch (error) {
      game = { ...about, ...nothing, crash: error instanceof Error ? error.message : String(error) };
    }
    process.stdout.write(`${JSON.stringify(game)}\n`);
  };
  emit('trade', () => playTradeOrder(truth));
  emit('tool', () => playTool(truth, 'own', options));
  for (const [strategy, every] of [
    ['random', plan.randomEvery],
    ['all', plan.allEvery],
  ] as const) {
    if (every > 0 && index % every === 0) emit(strategy, () => playTool(truth, strategy, options));
  }
}
