/** Branch with a voltage law: battery, source behind resistance, anything stated as voltage against current.
 *    V1 − V2 = V(I)
 *  I current into the first terminal [A] (charging a battery is positive)   V(I) [V], rising with I
 *  Source: definition. Own unknown I; one Newton step of the augmented system is
 *    I_new = I + (v − V(I)) / V'(I),  v = V1 − V2,
 *  which leaves the nodal matrix with the conductance 1 / V'(I) (Schur complement).
 *  Valid: V(I) continuous and rising; a slope below 20 µΩ is stepped as 20 µΩ, the solution is not changed
 *  Leaves out: time (the law is that of one instant)
 *
 *  The law reads the current of `at` and writes voltage and slope to it; it is called once a Newton step. Hot.
 *  (One object, since a number that is passed on is boxed on the heap.)
 */
import { JOINT_RESISTANCE_MINIMUM } from '../element.ts';
import type { Element, SpiceNames, Stamps } from '../element.ts';

/** What a voltage law reads, current [A], and writes: voltage [V] and its derivative by current [Ω]. */
export interface VoltageAtCurrent {
  current: number;
  voltage: number;
  dByCurrent: number;
}

export interface BranchDescription {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** Writes V(I) and dV/dI at `at.current` to `at`. */
  readonly law: (at: VoltageAtCurrent) => void;
  /** V(I) as a SPICE expression of the given current expression. */
  readonly spiceLaw?: (current: string) => string;
  /** Largest change of current in one Newton step [A]; for laws with steep bends. */
  readonly largestStep?: number;
}

const RESET_ITERATIONS = 20;

export class Branch implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number];
  /** Current into the first terminal [A] at the last solve. */
  current = 0;
  readonly #law: (at: VoltageAtCurrent) => void;
  readonly #spiceLaw: ((current: string) => string) | undefined;
  readonly #largestStep: number;
  readonly #at: VoltageAtCurrent = { current: 0, voltage: 0, dByCurrent: 1 };
  private start = 0;
  private change = 0;

  constructor(description: BranchDescription) {
    this.name = description.name;
    this.terminals = [description.from, description.to];
    this.#law = description.law;
    this.#spiceLaw = description.spiceLaw;
    this.#largestStep = description.largestStep ?? Number.POSITIVE_INFINITY;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const from = this.terminals[0];
    const to = this.terminals[1];
    const at = this.#at;
    at.current = this.current;
    this.#law(at);
    if (at.dByCurrent < JOINT_RESISTANCE_MINIMUM) at.dByCurrent = JOINT_RESISTANCE_MINIMUM;
    const conductance = 1 / at.dByCurrent;
    const correction = (voltages[from]! - voltages[to]! - at.voltage) * conductance;
    const current = this.current + correction;
    const error = Math.abs(correction);
    if (!(error <= stamps.lawError)) {
      stamps.lawError = error;
      stamps.lawNode = from === 0 ? to : from;
    }
    stamps.injected[from]! += current;
    stamps.injected[to]! -= current;
    stamps.matrix[slots[0]!]! += conductance;
    stamps.matrix[slots[1]!]! -= conductance;
    stamps.matrix[slots[2]!]! -= conductance;
    stamps.matrix[slots[3]!]! += conductance;
  }

  prepare(voltages: Float64Array, step: Float64Array): void {
    const from = this.terminals[0];
    const to = this.terminals[1];
    const at = this.#at;
    const aim = voltages[from]! + step[from]! - voltages[to]! - step[to]!;
    const change = (aim - at.voltage) / at.dByCurrent;
    const limit = this.#largestStep;
    this.start = this.current;
    this.change = Math.min(Math.max(change, -limit), limit);
  }

  advance(_voltages: Float64Array, stamps: Stamps): void {
    this.current = this.start + stamps.fraction * this.change;
  }

  /** The current that the law gives at the branch voltage; 0 A at 0 V, which stands for a cold start. */
  reset(voltages: Float64Array): void {
    const voltage = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
    this.current = 0;
    if (voltage === 0) return;
    const at = this.#at;
    for (let iteration = 0; iteration < RESET_ITERATIONS; iteration++) {
      at.current = this.current;
      this.#law(at);
      const change = (voltage - at.voltage) / Math.max(at.dByCurrent, JOINT_RESISTANCE_MINIMUM);
      this.current += Math.min(Math.max(change, -this.#largestStep), this.#largestStep);
    }
    if (!Number.isFinite(this.current)) this.current = 0;
  }

  writeCurrents(_voltages: Float64Array, out: Float64Array, offset: number): void {
    out[offset] = this.current;
    out[offset + 1] = -this.current;
  }

  spiceLines(names: SpiceNames): string[] {
    if (this.#spiceLaw === undefined)
      throw new RangeError(`branch ${this.name}: no SPICE expression was given`);
    const inner = `m_${names.element}`;
    return [
      `V${names.element} ${names.node(this.terminals[0])} ${inner} DC 0`,
      `B${names.element} ${inner} ${names.node(this.terminals[1])} V=${this.#spiceLaw(`I(V${names.element})`)}`,
    ];
  }
}

/** A branch with a voltage law between two nodes. */
export function branch(description: BranchDescription): Branch {
  return new Branch(description);
}
