/** Operating points per second, side by side with ngspice on the same circuits and the same machine.
 *  Run: npx tsx bench/speed.ts
 *
 *  Each point changes two resistances and is solved again. Ours: cold (from 0 V) and warm (from the last point).
 *  ngspice: all points of a circuit in one process, `alter` and `op`, nothing printed, started at the solution of the
 *  first point; once with the tolerance that the comparison tests use, once with its own defaults (which err by some
 *  0.1 mV). Only circuits are taken on which its plain Newton finds every point at its default tolerance.
 *  Charge runs: ours and a transient of ngspice of the same boat (speed/boats.ts). */
import { PerformanceObserver } from 'node:perf_hooks';
import {
  createSolution,
  resetSolution,
  Resistor,
  solveOperatingPoint,
} from '../packages/core/src/circuit/index.ts';
import type { Circuit } from '../packages/core/src/circuit/index.ts';
import { NGSPICE_OPTIONS } from '../packages/core/test/oracle/ngspice.ts';
import { apply, ngspiceTime, type Change } from './speed/ngspice-time.ts';
import { micro, processorSeconds } from './speed/processor.ts';
import { chargeRuns, wholePoints } from './speed/boats.ts';
import { logBetween, randomBoatCircuit, randomSource } from '../packages/core/test/circuit/random-circuit.ts';

const NODE_COUNTS = [10, 20, 50, 100, 200];
const CIRCUITS_PER_COUNT = 2;
const CANDIDATES = 15;
const OUR_POINTS = 20_000;
/** Enough that the start of the process is spread thin: with 100 points it made half of a point's time. */
const NGSPICE_POINTS = 800;
const TIGHT_POINTS = 100;
/** Larger ones take ngspice minutes at the tight tolerance. */
const TIGHT_NODES_MAXIMUM = 20;
/** Of 15 circuits of 200 nodes ngspice solved none; only our growth is shown there. */
const COMPARED_NODES_MAXIMUM = 100;

const POINTS = 1000;
const planned = new WeakMap<Circuit, Change[]>();

interface Rate {
  /** [s] per point */
  readonly cold: number;
  readonly warm: number;
  readonly warmIterations: number;
  readonly coldIterations: number;
  readonly failed: number;
}

function main(): void {
  console.log(
    `Node ${process.version}, one thread. Processor times per operating point; ratio = ngspice / ours.\n`,
  );
  console.log(
    'nodes  kept | ours cold   warm      steps c/w | ngspice 1e-9   default         rescued | ratio cold   warm | warm, default',
  );
  for (const count of NODE_COUNTS) {
    const solvable = count <= COMPARED_NODES_MAXIMUM ? circuitsThatNgspiceSolves(count) : [];
    const circuits = solvable.length > 0 ? solvable : [randomBoatCircuit(500, count - 8, false)];
    const ours = mean(circuits.map((circuit) => ourRate(circuit)));
    const tight = solvable
      .filter(() => count <= TIGHT_NODES_MAXIMUM)
      .map((circuit) => ngspiceTime(circuit, plannedChanges(circuit), NGSPICE_OPTIONS, TIGHT_POINTS));
    const loose = solvable.map((circuit) =>
      ngspiceTime(circuit, plannedChanges(circuit), '', NGSPICE_POINTS),
    );
    const tightTime = average(tight.map((run) => run.time));
    const looseTime = average(loose.map((run) => run.time));
    const rescued = [tight, loose].map((runs) => runs.reduce((sum, run) => sum + run.rescued, 0)).join('+');
    const kept = average(circuits.map((circuit) => circuit.plan.keptRows.length));
    console.log(
      [
        String(count).padStart(5),
        kept.toFixed(0).padStart(5),
        '|',
        micro(ours.cold),
        micro(ours.warm),
        `${ours.coldIterations.toFixed(1)}/${ours.warmIterations.toFixed(1)}`.padStart(10),
        '|',
        micro(tightTime),
        micro(looseTime),
        `${rescued} of ${circuits.length * TIGHT_POINTS}+${circuits.length * NGSPICE_POINTS}`.padStart(14),
        '|',
        ratio(tightTime, ours.cold, 9),
        ratio(tightTime, ours.warm, 6),
        '|',
        ratio(looseTime, ours.warm, 6),
        ours.failed > 0 ? `  (ours failed ${ours.failed})` : '',
      ].join(' '),
    );
  }
  arithmetic();
  wholePoints();
  chargeRuns();
}

/** Random healthy circuits on which ngspice's plain Newton finds every point at its default tolerance, so that its
 *  failures and its slow rescue methods do not count as slowness. */
function circuitsThatNgspiceSolves(nodeCount: number): Circuit[] {
  const found: Circuit[] = [];
  for (let seed = 500; seed < 500 + CANDIDATES && found.length < CIRCUITS_PER_COUNT; seed++) {
    const circuit = randomBoatCircuit(seed, nodeCount - 8, false);
    const trial = ngspiceTime(circuit, plannedChanges(circuit), '', TIGHT_POINTS);
    if (trial.rescued + trial.failed === 0) found.push(circuit);
  }
  return found;
}

/** How far the solver is from its own arithmetic. */
function arithmetic(): void {
  const circuit = randomBoatCircuit(500, 12, false);
  const { plan, active, work } = circuit;
  const rate = ourRate(circuit, 200_000);
  const matrixOperations = plan.stepOperations + plan.keptWireEntries.length + 2 * plan.keptRows.length;
  const operations = rate.warmIterations * matrixOperations;
  const solution = solveOperatingPoint(circuit, createSolution(circuit));

  const rounds = 200_000;
  const start = processorSeconds();
  for (let round = 0; round < rounds; round++) {
    for (let index = 0; index < active.length; index++) {
      active[index]!.element.stamp(solution.voltages, work.stamps, active[index]!.slots);
    }
  }
  const laws = (processorSeconds() - start) / rounds;
  const perOperation = secondsPerMultiplyAdd() / 2;

  console.log(
    `\nOne warm point of a 20-node circuit: ${micro(rate.warm)}, ${rate.warmIterations.toFixed(2)} Newton steps`,
  );
  console.log(
    `  element laws, ${active.length} elements:  ${micro(laws)} a step (exponentials, logarithms, calls)`,
  );
  console.log(
    `  matrix: ${matrixOperations.toFixed(0)} operations a step, ${operations.toFixed(0)} a point; at this machine's ` +
      `${(1e-9 / perOperation).toFixed(2)} Gflop/s in plain JavaScript ${micro(operations * perOperation)}`,
  );
  const perStep = rate.warm / rate.warmIterations;
  console.log(
    `  measured: ${micro(perStep)} a step; least that laws and matrix leave: ${micro(laws + matrixOperations * perOperation)}; ` +
      `ratio ${(perStep / (laws + matrixOperations * perOperation)).toFixed(1)}, against the matrix alone ` +
      (rate.warm / (operations * perOperation)).toFixed(1),
  );
}

/** Heap growth over a million warm solves: two resistances are set for each, and each new one is a box of 16 bytes; the
 *  solves make nothing (packages/core/test/circuit/allocation.test.ts). */
async function allocation(): Promise<void> {
  const circuit = randomBoatCircuit(500, 12, false);
  const solution = createSolution(circuit);
  const changes = plannedChanges(circuit);
  const run = (points: number): void => {
    for (let point = 0; point < points; point++) {
      apply(changes, point % POINTS);
      solveOperatingPoint(circuit, solution);
    }
  };
  run(100_000);
  let collections = 0;
  const observer = new PerformanceObserver((list) => {
    collections += list.getEntries().length;
  });
  observer.observe({ entryTypes: ['gc'] });
  const before = process.memoryUsage().heapUsed;
  run(1_000_000);
  const growth = process.memoryUsage().heapUsed - before;
  await new Promise((resolve) => setTimeout(resolve, 50));
  observer.disconnect();
  console.log(`\nA million warm solves: heap ${growth} bytes, ${collections} garbage collections`);
}

function ourRate(circuit: Circuit, points = OUR_POINTS): Rate {
  const changes = plannedChanges(circuit);
  const solution = createSolution(circuit);
  let failed = 0;
  const run = (cold: boolean, count: number): { time: number; iterations: number } => {
    let iterations = 0;
    const start = processorSeconds();
    for (let point = 0; point < count; point++) {
      apply(changes, point % POINTS);
      if (cold) resetSolution(circuit, solution);
      solveOperatingPoint(circuit, solution);
      iterations += solution.iterations;
      if (!solution.converged) failed++;
    }
    return { time: (processorSeconds() - start) / count, iterations: iterations / count };
  };
  run(true, 2000);
  const cold = run(true, points);
  run(false, 2000);
  const warm = run(false, points);
  return {
    cold: cold.time,
    warm: warm.time,
    warmIterations: warm.iterations,
    coldIterations: cold.iterations,
    failed,
  };
}

/** The same changes at every call: they are drawn around the resistances that the circuit was built with. */
function plannedChanges(circuit: Circuit): Change[] {
  const known = planned.get(circuit);
  if (known !== undefined) return known;
  const random = randomSource(99);
  const changes = ['charge cable', 'return'].map((name) => {
    const resistor = circuit.elements.find((element) => element.name === name);
    if (!(resistor instanceof Resistor))
      throw new RangeError(`plannedChanges: no resistor is called ${name}`);
    const usual = resistor.resistance;
    return {
      resistor,
      values: Float64Array.from({ length: POINTS }, () => usual * logBetween(random, 0.7, 1.4)),
    };
  });
  planned.set(circuit, changes);
  return changes;
}

/** What one multiply and one add on arrays cost here [s]. */
function secondsPerMultiplyAdd(): number {
  const size = 1024;
  const values = new Float64Array(size).fill(1.0000001);
  const sums = new Float64Array(size);
  const rounds = 100_000;
  const start = processorSeconds();
  for (let round = 0; round < rounds; round++) {
    for (let index = 0; index < size; index++) sums[index] = sums[index]! * 0.999 + values[index]!;
  }
  return (processorSeconds() - start) / rounds / size;
}

function mean(rates: readonly Rate[]): Rate {
  return {
    cold: average(rates.map((rate) => rate.cold)),
    warm: average(rates.map((rate) => rate.warm)),
    warmIterations: average(rates.map((rate) => rate.warmIterations)),
    coldIterations: average(rates.map((rate) => rate.coldIterations)),
    failed: rates.reduce((sum, rate) => sum + rate.failed, 0),
  };
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function ratio(theirs: number, ours: number, width: number): string {
  return (Number.isNaN(theirs) ? '–' : (theirs / ours).toFixed(0)).padStart(width);
}

const started = performance.now();
main();
await allocation();
console.log(`\nThe whole took ${((performance.now() - started) / 1000).toFixed(0)} s`);
