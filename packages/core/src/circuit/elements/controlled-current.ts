/** Controlled current element: any number of terminals, all currents given by all terminal voltages.
 *    I_k = I_k(V_1 … V_n)
 *  I_k current into terminal k [A]   V_k [V] against the reference
 *  Used for machines and regulators, whose currents at one terminal depend on the voltage of another.
 *  Source: definition
 *  Valid: continuous with the derivatives that the law writes. The currents must add up to zero, and must not
 *  change when all terminals rise alike: otherwise charge would vanish. A test helper checks laws for both.
 *
 *  Own unknowns, only with `limit`: the terminal voltages U at which the law is linearised,
 *    I_k = I_k(U) + Σ ∂I_k/∂V_m · (V_m − U_m).
 *  `limit` may hold U back where a full step would jump over a bend (a regulator that goes from full to no field
 *  within some 0.1 V). The solution is not changed: it counts as one only when U = V.
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

/** One SPICE expression per terminal for the current into it, from the voltage expressions of all terminals.
 *  `define` names an intermediate result: it puts it on a node of its own and returns that node's voltage.
 *  Use it for every part that occurs more than once; SPICE differentiates expressions symbolically, and nested
 *  repetitions cost it seconds. */
export type SpiceLaw = (
  voltages: readonly string[],
  define: (expression: string) => string,
) => readonly string[];

export interface ControlledCurrentDescription {
  readonly name: string;
  readonly terminals: readonly number[];
  readonly law: (at: TerminalState) => void;
  /** Changes `aim` (wanted terminal voltages) in place where it lies too far from `start` (those of the last step). */
  readonly limit?: (aim: Float64Array, start: Float64Array) => void;
  /** The same law for SPICE. */
  readonly spiceLaw?: SpiceLaw;
}

export class ControlledCurrent implements Element {
  readonly name: string;
  readonly terminals: readonly number[];
  readonly #law: (at: TerminalState) => void;
  readonly #spiceLaw: SpiceLaw | undefined;
  readonly #at: TerminalState;
  readonly #limit: ((aim: Float64Array, start: Float64Array) => void) | undefined;
  readonly #start: Float64Array;

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
    this.#limit = description.limit;
    this.#start = new Float64Array(count);
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const terminals = this.terminals;
    const count = terminals.length;
    const { voltages: own, currents, derivatives } = this.#at;
    const { injected, matrix } = stamps;
    if (this.#limit === undefined) this.#moveOwn(voltages);
    this.#evaluate();
    for (let terminal = 0; terminal < count; terminal++)
      injected[terminals[terminal]!]! += currents[terminal]!;
    for (let entry = 0; entry < slots.length; entry++) matrix[slots[entry]!]! += derivatives[entry]!;
    if (this.#limit === undefined) return;
    for (let column = 0; column < count; column++) {
      const distance = voltages[terminals[column]!]! - own[column]!;
      if (distance === 0) continue;
      let error = Math.abs(distance);
      for (let row = 0; row < count; row++) {
        const change = derivatives[row * count + column]! * distance;
        injected[terminals[row]!]! += change;
        error = Math.max(error, Math.abs(change));
      }
      if (!(error <= stamps.lawError)) {
        stamps.lawError = error;
        stamps.lawNode = terminals[column]!;
      }
    }
  }

  prepare(): void {
    this.#start.set(this.#at.voltages);
  }

  advance(voltages: Float64Array): void {
    this.#moveOwn(voltages);
    this.#limit?.(this.#at.voltages, this.#start);
  }

  reset(voltages: Float64Array): void {
    this.#moveOwn(voltages);
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    this.#moveOwn(voltages);
    this.#evaluate();
    const { currents } = this.#at;
    for (let terminal = 0; terminal < currents.length; terminal++)
      out[offset + terminal] = currents[terminal]!;
  }

  spiceLines(names: SpiceNames): string[] {
    if (this.#spiceLaw === undefined) {
      throw new RangeError(`controlled current ${this.name}: no SPICE expression was given`);
    }
    const nodes = this.terminals.map((node) => names.node(node));
    const lines: string[] = [];
    const define = (expression: string): string => {
      const inner = `i_${names.element}_${lines.length}`;
      lines.push(`B${inner} ${inner} 0 V=${expression}`);
      return `V(${inner})`;
    };
    const expressions = this.#spiceLaw(
      nodes.map((node) => (node === '0' ? '0' : `V(${node})`)),
      define,
    );
    const currents = nodes.map(
      (node, terminal) => `B${names.element}_${terminal} ${node} 0 I=${expressions[terminal] ?? '0'}`,
    );
    return [...currents, ...lines];
  }

  #moveOwn(voltages: Float64Array): void {
    const own = this.#at.voltages;
    for (let terminal = 0; terminal < own.length; terminal++)
      own[terminal] = voltages[this.terminals[terminal]!]!;
  }

  #evaluate(): void {
    const { currents, derivatives } = this.#at;
    for (let terminal = 0; terminal < currents.length; terminal++) currents[terminal] = 0;
    for (let entry = 0; entry < derivatives.length; entry++) derivatives[entry] = 0;
    this.#law(this.#at);
  }
}

/** For use in `limit`: `aim` held back so that it does not jump over the bend of a saturating law at `center`.
 *  Outside `center` ± 3 `width` the law counts as flat and steps are free; they stop at the edge of the bend.
 *  Inside, a step is at most `width`. Take the width in which a logistic law changes e-fold: 1 / gain [V]. */
export function heldAtBend(aim: number, start: number, center: number, width: number): number {
  const low = center - 3 * width;
  const high = center + 3 * width;
  if (start < low) return aim > low ? low : aim;
  if (start > high) return aim < high ? high : aim;
  if (aim > start + width) return start + width;
  if (aim < start - width) return start - width;
  return aim;
}

/** A controlled current element between any number of nodes. */
export function controlledCurrent(description: ControlledCurrentDescription): ControlledCurrent {
  return new ControlledCurrent(description);
}
