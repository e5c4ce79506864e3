/** Prints the heap growth of a warm solve [bytes], for allocation.test.ts. Run with --expose-gc and a young generation
 *  that holds the whole growth, so that no collection hides it. */
import { boatAt, boatFromTemplate } from '../../src/boat/index.ts';
import type { Resistor } from '../../src/circuit/index.ts';
import { createSolution, solveFromNear, solveOperatingPoint } from '../../src/circuit/index.ts';
import { asFound, Operator } from '../../src/operate/index.ts';
import { randomBoatCircuit } from './random-circuit.ts';

const WARM = 60_000;
const COUNTED = 100_000;

/** Solves once at another resistance of a cable. */
function circuitSolver(): (resistance: number) => void {
  const circuit = randomBoatCircuit(500, 12, false);
  const solution = createSolution(circuit);
  const cable = circuit.elements.find((element) => element.name === 'charge cable') as Resistor;
  return (resistance) => {
    cable.resistance = resistance;
    solveOperatingPoint(circuit, solution);
    if (!solution.converged) throw new Error('a solve did not converge');
  };
}

function plantSolver(): (resistance: number) => void {
  const operator = new Operator(boatAt(boatFromTemplate('selector-switch', { excitation: 'ignition' })));
  operator.at({ ...asFound, engine: 'running', engineSpeed: 157, sinceStart: 300 });
  const { circuit, solution, wiring } = operator.plant;
  const cable = wiring.conductors[0]!;
  return (resistance) => {
    cable.resistance = resistance;
    if (!solveFromNear(circuit, solution, 30)) throw new Error('a solve did not converge');
  };
}

const [low, high] = [0.003, 0.0035];
const solve = process.argv[2] === 'plant' ? plantSolver() : circuitSolver();
const run = (count: number): void => {
  for (let i = 0; i < count; i++) solve(i % 2 === 0 ? low : high);
};

run(WARM);
run(WARM);
global.gc?.();
const before = process.memoryUsage().heapUsed;
run(COUNTED);
const growth = process.memoryUsage().heapUsed - before;
console.log((growth / COUNTED).toFixed(2));
