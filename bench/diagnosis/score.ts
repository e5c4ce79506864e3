/** Marks for the games of one strategy. */
import {
  exchangePrice,
  insideAlternator,
  middleOf,
  priceTable,
  placedFaults,
  remedyPrice,
  sameRepair,
  type PlacedFault,
} from '../../packages/core/src/faults/index.ts';
import { truthOf, type Draw } from './truth.ts';
import type { Game, Strategy } from './worker.ts';

export interface ReliabilityRow {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly said: number;
  readonly was: number;
}

export interface Marks {
  readonly draw: Draw;
  readonly strategy: Strategy;
  readonly games: number;
  /** Exactly the hidden state first; and the same repair first. */
  readonly exactFirst: number;
  readonly rightFirst: number;
  readonly rightInThree: number;
  /** Pairs: both states, or their repairs, among the first four. */
  readonly bothInFour: number | undefined;
  readonly normalGames: number;
  readonly normalAsNormal: number;
  readonly faultAsNormal: number;
  /** Share of boats with a good alternator whose alternator is named first, and of those, by a firm verdict. */
  readonly condemned: number;
  readonly condemnedFirmly: number;
  readonly readings: number;
  readonly minutes: number;
  readonly wasted: number;
  readonly nothingFits: number;
  readonly noCheckWorthIt: number;
  readonly unfinished: number;
  readonly crashes: number;
  readonly brier: number;
  readonly calibrationError: number;
  readonly reliability: readonly ReliabilityRow[];
  readonly secondsMedian: number;
  readonly secondsHigh: number;
  readonly notConverged: number;
}

export interface Judged {
  readonly game: Game;
  readonly truth: readonly PlacedFault[];
  readonly rank: number;
  readonly rightFirst: boolean;
  /** Each hidden state, or one of its repair, among the first four named. */
  readonly allInFour: boolean;
  readonly first: PlacedFault | undefined;
}

/** Joins games with the states that their ids stand for. */
export function judge(games: readonly Game[], seedSet: string): readonly Judged[] {
  return games.map((game) => {
    const { told, faults } = truthOf(seedSet, game.index, game.draw, game.templates);
    const byId = new Map(placedFaults(told).map((placed) => [placed.id, placed]));
    const right = (id: string): boolean => {
      const [fault, part] = id.split('@');
      const placed = byId.get(id);
      return faults.some((hidden) =>
        fault === 'replace-alternator'
          ? insideAlternator(hidden) && (hidden.part === part || hidden.part === regulatorOf(part))
          : placed !== undefined && sameRepair(placed, hidden),
      );
    };
    const rank = game.named.findIndex(({ id }) => right(id));
    const firstId = game.named[0]?.id ?? '';
    const four = game.named.slice(0, 4).flatMap(({ id }) => byId.get(id) ?? []);
    const allInFour = faults.every((hidden) => four.some((placed) => sameRepair(placed, hidden)));
    return { game, truth: faults, rank, rightFirst: rank === 0, allInFour, first: byId.get(firstId) };
  });
}

const regulatorOf = (alternator: string | undefined): string =>
  (alternator ?? '').replace('alternator', 'regulator');

export function marksOf(judged: readonly Judged[]): Marks {
  const sample = judged[0];
  if (sample === undefined) throw new RangeError('marksOf: no games');
  const share = (list: readonly Judged[], is: (one: Judged) => boolean): number =>
    list.length === 0 ? NaN : list.filter(is).length / list.length;
  const normal = judged.filter(({ truth }) => truth.every(({ fault }) => fault.nature === 'normal'));
  const faulty = judged.filter(({ truth }) => truth.some(({ fault }) => fault.nature === 'fault'));
  const goodMachine = judged.filter(({ truth }) => !truth.some(insideAlternator));
  const seconds = judged.flatMap(({ game }) => game.seconds).sort((a, b) => a - b);
  const { rows, error } = reliabilityOf(judged);
  return {
    draw: sample.game.draw,
    strategy: sample.game.strategy,
    games: judged.length,
    exactFirst: share(judged, ({ game, truth }) => truth.some(({ id }) => id === game.named[0]?.id)),
    rightFirst: share(judged, ({ rightFirst }) => rightFirst),
    rightInThree: share(judged, ({ rank }) => rank >= 0 && rank < 3),
    bothInFour: sample.game.draw === 'pairs' ? share(judged, ({ allInFour }) => allInFour) : undefined,
    normalGames: normal.length,
    normalAsNormal: share(normal, saysNormal),
    faultAsNormal: share(faulty, saysNormal),
    condemned: share(goodMachine, condemns),
    condemnedFirmly: share(goodMachine, (one) => condemns(one) && one.game.ended === 'decided'),
    readings: mean(judged.map(({ game }) => game.readings)),
    minutes: mean(judged.map(({ game }) => game.minutes)),
    wasted: mean(judged.map(wastedOn)),
    nothingFits: share(judged, ({ game }) => game.ended === 'nothing-fits'),
    noCheckWorthIt: share(judged, ({ game }) => game.ended === 'no-check-worth-it'),
    unfinished: share(judged, ({ game }) => game.ended === 'most-readings' || game.ended === 'go-on'),
    crashes: share(judged, ({ game }) => game.crash !== undefined),
    // Odds are judged only of a strategy that states them.
    brier: sample.game.strategy === 'trade' ? NaN : mean(judged.map(brierOf)),
    calibrationError: error,
    reliability: rows,
    secondsMedian: seconds[Math.floor(seconds.length / 2)] ?? NaN,
    secondsHigh: seconds[Math.floor(seconds.length * 0.95)] ?? NaN,
    notConverged:
      judged.reduce((sum, { game }) => sum + game.notConverged, 0) /
      Math.max(
        1,
        judged.reduce((sum, { game }) => sum + game.operatingPoints, 0),
      ),
  };
}

const saysNormal = ({ first, game }: Judged): boolean =>
  game.ended === 'nothing-wrong' || first?.fault.nature === 'normal';

const namesMachine = (id: string | undefined): boolean => id?.startsWith('replace-alternator') ?? false;

const condemns = ({ first, game }: Judged): boolean =>
  namesMachine(game.named[0]?.id) || (first !== undefined && insideAlternator(first));

const priceOf = ({ fault }: PlacedFault): number => middleOf(remedyPrice(fault));

/** Price of what is bought and is not what was broken. */
function wastedOn({ first, game, rightFirst, truth }: Judged): number {
  const machine = middleOf(exchangePrice(priceTable));
  const paid = namesMachine(game.named[0]?.id) ? machine : first === undefined ? 0 : priceOf(first);
  if (!rightFirst) return paid;
  return Math.max(0, paid - Math.min(...truth.map(priceOf)));
}

/** Brier score over all states: Σ (p − truth)², equal repairs counted as one. */
function brierOf({ game, truth }: Judged): number {
  const ids = truth.map(({ id }) => id);
  let score = 0;
  let right = 0;
  for (const { id, probability } of game.named) {
    if (ids.includes(id)) right += probability;
    else score += probability ** 2;
  }
  return score + (1 - right) ** 2;
}

/** What was said of the first suspect's repair, and how often it was so, after every reading of every game. */
function reliabilityOf(judged: readonly Judged[]): { rows: ReliabilityRow[]; error: number } {
  const edges = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.0000001];
  const pairs = judged.flatMap(({ game, truth }) =>
    game.path.map(({ id, probability }) => ({
      said: probability,
      was: truth.some((hidden) => hidden.id === id) ? 1 : 0,
    })),
  );
  const rows: ReliabilityRow[] = [];
  let error = 0;
  for (let k = 0; k + 1 < edges.length; k++) {
    const from = edges[k] ?? 0;
    const to = edges[k + 1] ?? 1;
    const inside = pairs.filter(({ said }) => said >= from && said < to);
    if (inside.length === 0) continue;
    const said = mean(inside.map((one) => one.said));
    const was = mean(inside.map((one) => one.was));
    rows.push({ from, to: Math.min(1, to), count: inside.length, said, was });
    error += (inside.length / pairs.length) * Math.abs(said - was);
  }
  return { rows, error: pairs.length === 0 ? NaN : error };
}

/** Pairs of states that were taken for each other, most frequent first. */
export function confusions(judged: readonly Judged[]): { truth: string; said: string; times: number }[] {
  const counts = new Map<string, number>();
  for (const { truth, game, rightFirst } of judged) {
    if (rightFirst) continue;
    const key = `${truth.map(({ fault }) => fault.id).join(' + ')} → ${(game.named[0]?.id ?? game.ended).split('@')[0]}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return [...counts]
    .map(([key, times]) => {
      const [truth = '', said = ''] = key.split(' → ');
      return { truth, said, times };
    })
    .sort((a, b) => b.times - a.times);
}

const mean = (list: readonly number[]): number =>
  list.length === 0 ? NaN : list.reduce((sum, value) => sum + value, 0) / list.length;
