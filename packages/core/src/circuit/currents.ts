/** Currents and powers of a solved circuit.
 *  Sign: current is positive into a terminal; power is positive where an element takes it up. Units: V, A, W. */
import type { Circuit } from './circuit.ts';
import { LEAK_CONDUCTANCE } from './element.ts';
import type { OperatingSolution } from './solution.ts';

/** Writes the current into every terminal of every element [A] to `out`; element e starts at
 *  `circuit.terminalOffsets[e]`. Hot. `out` must hold `circuit.terminalCount` numbers. */
export function writeTerminalCurrents(
  circuit: Circuit,
  solution: OperatingSolution,
  out: Float64Array,
): void {
  const { elements, terminalOffsets } = circuit;
  for (let index = 0; index < elements.length; index++) {
    elements[index]!.writeCurrents(solution.voltages, out, terminalOffsets[index]!);
  }
}

/** The current into every terminal of every element [A]. */
export function terminalCurrents(circuit: Circuit, solution: OperatingSolution): Float64Array {
  const out = new Float64Array(circuit.terminalCount);
  writeTerminalCurrents(circuit, solution, out);
  return out;
}

/** The power that each element takes up [W]: P = Σ V · I over its terminals. */
export function elementPowers(circuit: Circuit, solution: OperatingSolution): Float64Array {
  const currents = terminalCurrents(circuit, solution);
  return Float64Array.from(circuit.elements, (element, index) =>
    element.terminals.reduce(
      (power, node, terminal) =>
        power + solution.voltages[node]! * currents[circuit.terminalOffsets[index]! + terminal]!,
      0,
    ),
  );
}

/** The power lost in the leaks of all nodes [W]. */
export function leakPower(solution: OperatingSolution): number {
  return solution.voltages.reduce((power, voltage) => power + LEAK_CONDUCTANCE * voltage * voltage, 0);
}

/** For every node, the sum of all terminal currents and its leak [A]: zero but for rounding and tolerance.
 *  Entry 0 (reference) carries the sum of the leaks with the opposite sign. */
export function nodeCurrentSums(circuit: Circuit, solution: OperatingSolution): Float64Array {
  const currents = terminalCurrents(circuit, solution);
  const sums = Float64Array.from(solution.voltages, (voltage) => LEAK_CONDUCTANCE * voltage);
  circuit.elements.forEach((element, index) => {
    element.terminals.forEach((node, terminal) => {
      sums[node]! += currents[circuit.terminalOffsets[index]! + terminal]!;
    });
  });
  return sums;
}
