/** Solving a plant: from near; else by widening the regulators' band; else by growing the machines; else by the circuit
 *  solver's own means. Each only changes where the last solve starts, never the solution.
 *
 *  Widened, a regulator of gain g' < g turns about the same middle of its band, V_set' = V_set − d_max / 2g + d_max / 2g'
 *  (d_max greatest duty, g [1/V], V [V]): a mild problem, whose solution is near the wanted one.
 *  Grown, all machines give a share s of their output: none at first, when batteries and cables are a mild problem, then
 *  more and more of it, each solution the start of the next; a step that fails is made shorter (continuation in s).
 */
import { resetSolution, solveFromNear, solveOperatingPoint, startFrom } from '../circuit/index.ts';
import type { Plant } from './plant.ts';

/** A stud alone behind an isolator walks down the tail of its machine by one e-fold a step: up to sixteen. */
const NEAR_ITERATIONS = 20;
const WIDENED_ITERATIONS = 40;
/** Shares of the true gain, one after another. */
const WIDENED = [0.08, 0.3];
const GROWN_STEP = 0.25;
const GROWN_STEP_LEAST = 1 / 256;

/** Solves the circuit from the solution's voltages; whether it converged. Hot. */
export function solvePlant(plant: Plant): boolean {
  const { circuit, solution } = plant;
  if (solveFromNear(circuit, solution, NEAR_ITERATIONS)) return true;
  if (solveWidened(plant)) return true;
  if (solveGrown(plant)) return true;
  resetSolution(circuit, solution);
  return solveOperatingPoint(circuit, solution).converged;
}

function solveWidened({ circuit, solution, alternators }: Plant): boolean {
  const settings = alternators.map(({ regulator }) => regulator);
  const gains = settings.map(({ gain }) => gain);
  const setpoints = settings.map(({ setpoint }) => setpoint);
  for (const share of WIDENED) {
    settings.forEach((setting, i) => {
      const gain = gains[i]!;
      setting.gain = gain * share;
      setting.setpoint = setpoints[i]! + (setting.cap / 2) * (1 / setting.gain - 1 / gain);
    });
    if (!solveFromNear(circuit, solution, WIDENED_ITERATIONS)) break;
  }
  settings.forEach((setting, i) => {
    setting.gain = gains[i]!;
    setting.setpoint = setpoints[i]!;
  });
  return solveFromNear(circuit, solution, WIDENED_ITERATIONS);
}

function solveGrown({ circuit, solution, alternators }: Plant): boolean {
  const machines = alternators.map(({ machine }) => machine);
  const whole = machines.map(({ share }) => share);
  const give = (part: number): void =>
    machines.forEach((machine, i) => {
      machine.share = part * whole[i]!;
      machine.law.turn(machine.speed, machine.temperature, machine.share);
    });
  give(0);
  resetSolution(circuit, solution);
  let converged = solveOperatingPoint(circuit, solution).converged;
  const last = solution.voltages.slice();
  let part = 0;
  let step = GROWN_STEP;
  while (converged && part < 1) {
    const next = Math.min(1, part + step);
    give(next);
    if (solveFromNear(circuit, solution, WIDENED_ITERATIONS)) {
      part = next;
      last.set(solution.voltages);
      step *= 1.5;
    } else {
      step /= 4;
      converged = step >= GROWN_STEP_LEAST;
      startFrom(circuit, solution, last);
    }
  }
  give(1);
  return converged;
}
