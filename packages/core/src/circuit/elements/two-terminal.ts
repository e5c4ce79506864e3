/** Two-terminal part with a mild current law: lamp, gassing branch, charger.
 *    I = I(V),  V = V1 − V2
 *  I current into the first terminal [A]   V [V]
 *  Source: definition     Valid: continuous, with the slope that the law writes; steep laws want a junction
 *  Leaves out: time
 *
 *  The law reads the voltage of `at` and writes current and slope to it; it is called once a Newton step. Hot.
 */
import type { Element, SpiceNames, Stamps } from '../element.ts';
import type { CurrentAtVoltage } from './junction.ts';

export interface TwoTerminalDescription {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** Writes I(V) and dI/dV at `at.voltage` to `at`. */
  readonly law: (at: CurrentAtVoltage) => void;
  /** I(V) as a SPICE expression of the given voltage expression. */
  readonly spiceLaw: (voltage: string) => string;
}

export class TwoTerminal implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number];
  readonly #description: TwoTerminalDescription;
  readonly #at: CurrentAtVoltage = { voltage: 0, current: 0, dByVoltage: 0 };

  constructor(description: TwoTerminalDescription) {
    this.name = description.name;
    this.terminals = [description.from, description.to];
    this.#description = description;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const from = this.terminals[0];
    const to = this.terminals[1];
    const at = this.#at;
    at.voltage = voltages[from]! - voltages[to]!;
    this.#description.law(at);
    const conductance = at.dByVoltage;
    stamps.injected[from]! += at.current;
    stamps.injected[to]! -= at.current;
    stamps.matrix[slots[0]!]! += conductance;
    stamps.matrix[slots[1]!]! -= conductance;
    stamps.matrix[slots[2]!]! -= conductance;
    stamps.matrix[slots[3]!]! += conductance;
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    const at = this.#at;
    at.voltage = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
    this.#description.law(at);
    out[offset] = at.current;
    out[offset + 1] = -at.current;
  }

  spiceLines(names: SpiceNames): string[] {
    const [from, to] = this.terminals.map((node) => names.node(node)) as [string, string];
    const volts = (node: string): string => (node === '0' ? '0' : `V(${node})`);
    const law = this.#description.spiceLaw(`(${volts(from)}-${volts(to)})`);
    return [`B${names.element} ${from} ${to} I=${law}`];
  }
}

/** A two-terminal part with a mild current law. */
export function twoTerminal(description: TwoTerminalDescription): TwoTerminal {
  return new TwoTerminal(description);
}
