/** Dense Gaussian elimination with partial pivoting: the plain reference for linear circuits. */
import type { Circuit } from '../../src/circuit/index.ts';
import { CurrentLoad, LEAK_CONDUCTANCE, Resistor } from '../../src/circuit/index.ts';

/** Node voltages [V] of a circuit of resistors and ideal current loads; entry 0 is the reference. */
export function denseVoltages(circuit: Circuit): number[] {
  const size = circuit.nodes.length - 1;
  const rows = Array.from({ length: size }, (_, row) =>
    Array.from({ length: size + 1 }, (_unused, column) => (row === column ? LEAK_CONDUCTANCE : 0)),
  );
  const add = (row: number, column: number, value: number): void => {
    if (row > 0 && (column > 0 || column === -1)) rows[row - 1]![column === -1 ? size : column - 1]! += value;
  };
  for (const element of circuit.elements) {
    const [from = 0, to = 0] = element.terminals;
    if (element instanceof Resistor) {
      add(from, from, element.conductance);
      add(from, to, -element.conductance);
      add(to, from, -element.conductance);
      add(to, to, element.conductance);
    } else if (element instanceof CurrentLoad) {
      add(from, -1, -element.current);
      add(to, -1, element.current);
    } else {
      throw new RangeError(`denseVoltages: element ${element.name} is not linear`);
    }
  }
  for (let pivot = 0; pivot < size; pivot++) {
    let best = pivot;
    for (let row = pivot + 1; row < size; row++) {
      if (Math.abs(rows[row]![pivot]!) > Math.abs(rows[best]![pivot]!)) best = row;
    }
    [rows[pivot], rows[best]] = [rows[best]!, rows[pivot]!];
    for (let row = pivot + 1; row < size; row++) {
      const factor = rows[row]![pivot]! / rows[pivot]![pivot]!;
      for (let column = pivot; column <= size; column++)
        rows[row]![column]! -= factor * rows[pivot]![column]!;
    }
  }
  const voltages = Array.from({ length: size }, () => 0);
  for (let row = size - 1; row >= 0; row--) {
    let sum = rows[row]![size]!;
    for (let column = row + 1; column < size; column++) sum -= rows[row]![column]! * voltages[column]!;
    voltages[row] = sum / rows[row]![row]!;
  }
  return [0, ...voltages];
}
