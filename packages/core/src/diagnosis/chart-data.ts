/** Computes the two charts of a job from the same draws as the verdict: the boat as it stands now, after all repairs. */
import { chargingPairs, chargingPaths, terminalWords } from '../boat/index.ts';
import { fastSpeed } from '../checks/index.ts';
import { asFound, type Condition, type OperatingPoint } from '../operate/index.ts';
import type { Reading } from '../readings/index.ts';
import type { LoopChart, RiseChart } from './charts.ts';
import { posteriorSample, weightedQuantiles, type PosteriorSample } from './inference/index.ts';
import type { World } from './model.ts';
import type { Session } from './session.ts';
import { presentOf, type State } from './state.ts';
import type { Band } from './verdict.ts';

const TIMES = [0, 10, 30, 60, 120, 180, 300, 600] as const;
const DRAWS = 24;

const runningAt = (engineSpeed: number, sinceStart: number): Condition => ({
  ...asFound,
  engine: 'running',
  engineSpeed,
  sinceStart,
});

/** Voltage of a bank against time since start, at an engine speed [rad/s]. */
export function riseChart(
  session: Session,
  readings: readonly Reading[],
  options: { readonly battery?: string; readonly engineSpeed?: number } = {},
): RiseChart {
  const state = session.state(readings);
  const engineSpeed = options.engineSpeed ?? fastSpeed;
  const battery = options.battery ?? chargingPaths(session.description)[0]?.battery ?? '';
  const volts = (world: World): number[] =>
    TIMES.map((time) => {
      const point = world.at(time === 0 ? asFound : runningAt(engineSpeed, time));
      return voltsOf(point, battery);
    });
  const probe = { plus: `${battery}.+`, minus: `${battery}.-` };
  return {
    battery,
    engineSpeed,
    times: TIMES,
    healthy: bandsOver(state, healthySample(state), volts),
    suspects: firstSuspects(state, 2).map(({ hypothesis, id, words }) => ({
      id,
      words,
      bands: bandsOver(state, sampleOf(state, hypothesis), volts),
    })),
    points: presentOf(state).flatMap(({ taken, check, value }) => {
      const { outcome, condition } = check;
      if (value === undefined || outcome.kind !== 'number' || outcome.probe.kind !== 'dc-volts') return [];
      if (outcome.probe.plus !== probe.plus || outcome.probe.minus !== probe.minus) return [];
      const off = condition.engine === 'off' && condition.loads === 'usual';
      if (!off && condition.engine !== 'running') return [];
      return [{ sinceStart: off ? 0 : condition.sinceStart, value, reading: taken.id }];
    }),
  };
}

/** Potentials along the loop at 1500 rpm, five minutes after the start, against the battery's negative post. */
export function loopChart(
  session: Session,
  readings: readonly Reading[],
  options: { readonly alternator?: string; readonly battery?: string } = {},
): LoopChart | undefined {
  const pairs = chargingPairs(session.description);
  const ofAlternator = pairs.filter(({ alternator: id }) => id === options.alternator);
  const path = ofAlternator.find((one) => one.battery === options.battery) ?? ofAlternator[0] ?? pairs[0];
  if (path?.battery === undefined) return undefined;
  const { alternator, battery, outward, back } = path;
  const terminals = [...outward, ...back];
  const state = session.state(readings);
  const condition = runningAt(fastSpeed, 300);
  const potentials = (world: World): number[] => {
    const point = world.at(condition);
    return terminals.map((terminal) =>
      world.read(point, { kind: 'dc-volts', plus: terminal as 'a.b', minus: `${battery}.-` as 'a.b' }),
    );
  };
  const healthy = bandsOver(state, healthySample(state), potentials);
  const now = bandsOver(
    state,
    posteriorSample(state.posterior, { perHypothesis: 12, leastChance: 0.02 }),
    potentials,
  );
  const empty: Band = { low: NaN, middle: NaN, high: NaN };
  return {
    alternator,
    battery,
    stations: terminals.map((terminal, index) => ({
      terminal,
      words: terminalWords(session.description, terminal),
      healthy: healthy[index] ?? empty,
      now: now[index] ?? empty,
      measured: measuredAt(state, terminal, `${battery}.-`),
    })),
  };
}

function voltsOf(point: OperatingPoint, battery: string): number {
  return point.batteries.find((one) => one.id === battery)?.voltage ?? NaN;
}

function measuredAt(state: State, terminal: string, reference: string): number | undefined {
  for (const { check, value } of presentOf(state)) {
    const { outcome, condition } = check;
    if (value === undefined || outcome.kind !== 'number' || outcome.probe.kind !== 'dc-volts') continue;
    if (condition.engine !== 'running' || condition.field !== 'regulated') continue;
    const { plus, minus } = outcome.probe;
    if (plus === terminal && minus === reference) return value;
  }
  return undefined;
}

const healthySample = (state: State): PosteriorSample => state.healthy.sample;

/** Draws of the hypotheses that leave a suspect. */
function sampleOf({ posterior, remaining, still }: State, suspect: number): PosteriorSample {
  const probability = posterior.probability.map((chance, h) =>
    remaining[h] === suspect ? chance / (still[suspect] ?? 1) : 0,
  );
  return posteriorSample({ ...posterior, probability }, { perHypothesis: DRAWS, leastChance: 0.1 });
}

function firstSuspects(state: State, count: number): { hypothesis: number; id: string; words: string }[] {
  return state.model.hypotheses
    .map(({ id, members }, hypothesis) => ({
      hypothesis,
      id,
      words: members.map(({ fault }) => fault.words).join(', and '),
    }))
    .filter(({ hypothesis }) => (state.still[hypothesis] ?? 0) > 0.02)
    .sort((a, b) => (state.still[b.hypothesis] ?? 0) - (state.still[a.hypothesis] ?? 0))
    .slice(0, count);
}

/** The 90 % band of each number that a world gives, over a sample. */
function bandsOver(
  state: State,
  sample: PosteriorSample,
  numbersOf: (world: World) => readonly number[],
): Band[] {
  const rows: (readonly number[])[] = [];
  const u = new Float64Array(state.model.dimensions);
  for (let draw = 0; draw < sample.count; draw++) {
    for (let j = 0; j < u.length; j++) u[j] = sample.rows[draw * sample.rowLength + j] ?? 0;
    rows.push(numbersOf(state.model.world(sample.hypothesis[draw] ?? -1, u, state.repairs)));
  }
  const first = rows[0] ?? [];
  return first.map((_, k) => {
    const values: number[] = [];
    const weights: number[] = [];
    rows.forEach((row, draw) => {
      const value = row[k] ?? NaN;
      if (!Number.isFinite(value)) return;
      values.push(value);
      weights.push(sample.weights[draw] ?? 0);
    });
    if (values.length === 0) return { low: NaN, middle: NaN, high: NaN };
    const [low = NaN, middle = NaN, high = NaN] = weightedQuantiles(values, weights, [0.05, 0.5, 0.95]);
    return { low, middle, high };
  });
}
