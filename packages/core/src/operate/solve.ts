/** Solving a plant: from near, else by widening the regulators' band, else by the circuit solver's own means.
 *
 *  Widened, a regulator of gain g' < g turns about the same middle of its band, V_set' = V_set − d_max / 2g + d_max / 2g'
 *  (d_max greatest duty, g [1/V], V [V]): a mild problem, whose solution is near the wanted one. Only the start is changed,
 *  never the solution.
 */
import { resetSolution, solveFromNear, solveOperatingPoint } from '../circuit/index.ts';
import type { Plant } from './plant.ts';

const NEAR_ITERATIONS = 12;
const WIDENED_ITERATIONS = 40;
/** Shares of the true gain, one after another. */
const WIDENED = [0.08, 0.3];

/** Solves the circuit from the solution's voltages; whether it converged. Hot. */
export function solvePlant(plant: Plant): boolean {
  const { circuit, solution } = plant;
  if (solveFromNear(circuit, solution, NEAR_ITERATIONS)) return true;
  if (solveWidened(plant)) return true;
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
