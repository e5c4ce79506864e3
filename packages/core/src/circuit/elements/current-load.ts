/** Constant-current load, fading to a resistance at low voltage.
 *    V ≥ V0:   I = I0
 *    |V| < V0: I = I0 · (15 x − 10 x³ + 3 x⁵) / 8,  x = V / V0    (value, slope, curvature continuous)
 *    V ≤ −V0:  I = −I0
 *  I, I0 [A]   V voltage over the load [V]   V0 fade voltage [V]; with V0 = 0 the source is ideal
 *  Source: definition; the fade is a smoothing of this project, not a law     Valid: V0 ≥ 0
 *  Errors: RangeError for V0 < 0 or I0 not finite
 *
 *  An ideal source (V0 = 0) at a node that nothing else feeds pulls it to I0 / 1 µS: give loads a fade voltage.
 *  `current` may be changed between solves; negative values feed the first node.
 */
import { requireInRange } from '../element.ts';
import type { Element, SpiceNames, Stamps } from '../element.ts';

export interface CurrentLoadDescription {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** [A], into the first terminal */
  readonly current: number;
  /** [V] */
  readonly fadeVoltage: number;
}

export class CurrentLoad implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number];
  /** [A]; read anew at every solve. */
  current: number;
  readonly fadeVoltage: number;

  constructor(description: CurrentLoadDescription) {
    const { name, from, to, current, fadeVoltage } = description;
    requireInRange(`current load ${name}`, 'current', current, 'A', -1e6, 1e6);
    requireInRange(`current load ${name}`, 'fadeVoltage', fadeVoltage, 'V', 0, 1e3);
    this.name = name;
    this.terminals = [from, to];
    this.current = current;
    this.fadeVoltage = fadeVoltage;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const [from, to] = this.terminals;
    const voltage = voltages[from]! - voltages[to]!;
    const current = this.#currentAt(voltage);
    stamps.injected[from]! += current;
    stamps.injected[to]! -= current;
    const ratio = this.fadeVoltage > 0 ? voltage / this.fadeVoltage : 2;
    if (ratio > -1 && ratio < 1) {
      const rest = 1 - ratio * ratio;
      const conductance = ((this.current / this.fadeVoltage) * 15 * rest * rest) / 8;
      stamps.matrix[slots[0]!]! += conductance;
      stamps.matrix[slots[1]!]! -= conductance;
      stamps.matrix[slots[2]!]! -= conductance;
      stamps.matrix[slots[3]!]! += conductance;
    }
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    const current = this.#currentAt(voltages[this.terminals[0]]! - voltages[this.terminals[1]]!);
    out[offset] = current;
    out[offset + 1] = -current;
  }

  spiceLines(names: SpiceNames): string[] {
    const from = names.node(this.terminals[0]);
    const to = names.node(this.terminals[1]);
    if (this.fadeVoltage === 0) return [`I${names.element} ${from} ${to} DC ${this.current}`];
    const ratio = `min(1,max(-1,(V(${from})-V(${to}))/${this.fadeVoltage}))`;
    const fade = `((15*${ratio}-10*(${ratio})*(${ratio})*(${ratio})+3*(${ratio})*(${ratio})*(${ratio})*(${ratio})*(${ratio}))/8)`;
    return [`B${names.element} ${from} ${to} I=${this.current}*${fade}`];
  }

  #currentAt(voltage: number): number {
    if (voltage >= this.fadeVoltage || this.fadeVoltage === 0) return this.current;
    if (voltage <= -this.fadeVoltage) return -this.current;
    const ratio = voltage / this.fadeVoltage;
    const square = ratio * ratio;
    return (this.current * ratio * (15 + square * (3 * square - 10))) / 8;
  }
}

/** A constant-current load between two nodes. */
export function currentLoad(description: CurrentLoadDescription): CurrentLoad {
  return new CurrentLoad(description);
}
