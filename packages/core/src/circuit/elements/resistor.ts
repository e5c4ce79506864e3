/** Resistor: cable, joint, fuse, closed or open switch, meter.
 *    I = (V1 − V2) / max(R, 20 µΩ)
 *  I [A]   V1, V2 [V]   R [Ω]
 *  Source: Ohm's law     Valid: R ≥ 0; infinity means open     Leaves out: heating (the caller sets R)
 *  Errors: RangeError for R < 0 or not a number
 *
 *  The solver knows resistors apart from all other elements: chains of them are eliminated once per solve.
 *  `resistance` may be changed between solves.
 */
import { JOINT_RESISTANCE_MINIMUM, requireInRange } from '../element.ts';
import type { Element, SpiceNames, Stamps } from '../element.ts';

export interface ResistorDescription {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** [Ω] */
  readonly resistance: number;
}

export class Resistor implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number];
  /** [Ω]; read anew at every solve. */
  resistance: number;

  constructor(description: ResistorDescription) {
    const { name, from, to, resistance } = description;
    requireInRange(`resistor ${name}`, 'resistance', resistance, 'Ω', 0);
    this.name = name;
    this.terminals = [from, to];
    this.resistance = resistance;
  }

  /** [S] */
  get conductance(): number {
    return 1 / Math.max(this.resistance, JOINT_RESISTANCE_MINIMUM);
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const [from, to] = this.terminals;
    const conductance = this.conductance;
    const current = conductance * (voltages[from]! - voltages[to]!);
    stamps.injected[from]! += current;
    stamps.injected[to]! -= current;
    stamps.matrix[slots[0]!]! += conductance;
    stamps.matrix[slots[1]!]! -= conductance;
    stamps.matrix[slots[2]!]! -= conductance;
    stamps.matrix[slots[3]!]! += conductance;
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    const current = this.conductance * (voltages[this.terminals[0]]! - voltages[this.terminals[1]]!);
    out[offset] = current;
    out[offset + 1] = -current;
  }

  spiceLines(names: SpiceNames): string[] {
    const [from, to] = this.terminals;
    const resistance = Math.min(1 / this.conductance, 1e15);
    return [`R${names.element} ${names.node(from)} ${names.node(to)} ${resistance}`];
  }
}

/** A resistor between two nodes. */
export function resistor(description: ResistorDescription): Resistor {
  return new Resistor(description);
}
