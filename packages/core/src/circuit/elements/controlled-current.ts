/** Controlled current element: any number of terminals, all currents given by all terminal voltages.
 *    I_k = I_k(V_1 … V_n)
 *  I_k current into terminal k [A]   V_k [V] against the reference
 *  Used for machines and regulators, whose currents at one terminal depend on the voltage of another.
 *  Source: definition
 *  Valid: continuous with the derivatives that the law writes. The currents must add up to zero, and must not
 *  change when all terminals rise alike: otherwise charge would vanish. A test helper checks laws for both.
 *
 *  The law reads `at.voltages` and writes `at.currents` and `at.derivatives` (row k, column m: ∂I_k/∂V_m [S] at
 *  k·n + m). The arrays are zeroed before the call. Hot.
 */
import type { Element, SpiceNames, Stamps } from '../element.ts';

export interface TerminalState {
  /** [V] */
  readonly voltages: Float64Array;
  /** [A], into the terminals */
  readonly currents: Float64Array;
  /** [S], row-major */
  readonly derivatives: Float64Array;
}

export interface ControlledCurrentDescription {
  readonly name: string;
  readonly terminals: readonly number[];
  readonly law: (at: TerminalState) => void;
  /** One SPICE expression per terminal for the current into it, from the voltage expressions of all terminals. */
  readonly spiceLaw?: (voltages: readonly string[]) => readonly string[];
}

export class ControlledCurrent implements Element {
  readonly name: string;
  readonly terminals: readonly number[];
  readonly #law: (at: TerminalState) => void;
  readonly #spiceLaw: ((voltages: readonly string[]) => readonly string[]) | undefined;
  readonly #at: TerminalState;

  constructor(description: ControlledCurrentDescription) {
    const count = description.terminals.length;
    if (count < 2)
      throw new RangeError(`controlled current ${description.name}: ${count} terminals; 2 are needed`);
    this.name = description.name;
    this.terminals = description.terminals;
    this.#law = description.law;
    this.#spiceLaw = description.spiceLaw;
    this.#at = {
      voltages: new Float64Array(count),
      currents: new Float64Array(count),
      derivatives: new Float64Array(count * count),
    };
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    this.#evaluate(voltages);
    const { currents, derivatives } = this.#at;
    const { injected, matrix } = stamps;
    const terminals = this.terminals;
    for (let terminal = 0; terminal < terminals.length; terminal++) {
      injected[terminals[terminal]!]! += currents[terminal]!;
    }
    for (let entry = 0; entry < slots.length; entry++) matrix[slots[entry]!]! += derivatives[entry]!;
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    this.#evaluate(voltages);
    const { currents } = this.#at;
    for (let terminal = 0; terminal < currents.length; terminal++)
      out[offset + terminal] = currents[terminal]!;
  }

  spiceLines(names: SpiceNames): string[] {
    if (this.#spiceLaw === undefined) {
      throw new RangeError(`controlled current ${this.name}: no SPICE expression was given`);
    }
    const nodes = this.terminals.map((node) => names.node(node));
    const expressions = this.#spiceLaw(nodes.map((node) => `V(${node})`));
    return nodes.map(
      (node, terminal) => `B${names.element}_${terminal} ${node} 0 I=${expressions[terminal] ?? '0'}`,
    );
  }

  #evaluate(voltages: Float64Array): void {
    const at = this.#at;
    const terminals = this.terminals;
    for (let terminal = 0; terminal < terminals.length; terminal++) {
      at.voltages[terminal] = voltages[terminals[terminal]!]!;
      at.currents[terminal] = 0;
    }
    for (let entry = 0; entry < at.derivatives.length; entry++) at.derivatives[entry] = 0;
    this.#law(at);
  }
}

/** A controlled current element between any number of nodes. */
export function controlledCurrent(description: ControlledCurrentDescription): ControlledCurrent {
  return new ControlledCurrent(description);
}
