/** Constant-power load (converter, refrigerator drive), limited at low voltage.
 *    V ≥ V0:   I = P / V
 *    |V| < V0: I = (P / V0) · (3 x − 3 x³ + x⁵),  x = V / V0    (value, slope, curvature continuous)
 *    V ≤ −V0:  I = P / V  (odd continuation)
 *  I [A]   P [W]   V voltage over the load [V]   V0 limit voltage [V]
 *  Source: definition of power; the limit is a smoothing of this project, not a law     Valid: P ≥ 0, V0 > 0
 *  Leaves out: cut-out at low voltage with hysteresis
 *  Errors: RangeError outside Valid
 *
 *  `power` may be changed between solves.
 */
import { requireInRange } from '../element.ts';
import type { Element, SpiceNames, Stamps } from '../element.ts';

export interface PowerLoadDescription {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** [W] */
  readonly power: number;
  /** [V] */
  readonly limitVoltage: number;
}

export class PowerLoad implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number];
  /** [W]; read anew at every solve. */
  power: number;
  readonly limitVoltage: number;

  constructor(description: PowerLoadDescription) {
    const { name, from, to, power, limitVoltage } = description;
    requireInRange(`power load ${name}`, 'power', power, 'W', 0, 1e6);
    requireInRange(`power load ${name}`, 'limitVoltage', limitVoltage, 'V', 1e-3, 1e3);
    this.name = name;
    this.terminals = [from, to];
    this.power = power;
    this.limitVoltage = limitVoltage;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const [from, to] = this.terminals;
    const voltage = voltages[from]! - voltages[to]!;
    const ratio = voltage / this.limitVoltage;
    const square = ratio * ratio;
    let current: number;
    let conductance: number;
    if (square >= 1) {
      current = this.power / voltage;
      conductance = -current / voltage;
    } else {
      const unit = this.power / this.limitVoltage;
      current = unit * ratio * (3 + square * (square - 3));
      conductance = (unit / this.limitVoltage) * (3 + square * (5 * square - 9));
    }
    stamps.injected[from]! += current;
    stamps.injected[to]! -= current;
    stamps.matrix[slots[0]!]! += conductance;
    stamps.matrix[slots[1]!]! -= conductance;
    stamps.matrix[slots[2]!]! -= conductance;
    stamps.matrix[slots[3]!]! += conductance;
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    const voltage = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
    const ratio = voltage / this.limitVoltage;
    const square = ratio * ratio;
    const current =
      square >= 1
        ? this.power / voltage
        : (this.power / this.limitVoltage) * ratio * (3 + square * (square - 3));
    out[offset] = current;
    out[offset + 1] = -current;
  }

  spiceLines(names: SpiceNames): string[] {
    const from = names.node(this.terminals[0]);
    const to = names.node(this.terminals[1]);
    const ratio = `((V(${from})-V(${to}))/${this.limitVoltage})`;
    const inner = `${ratio}*(3-3*${ratio}*${ratio}+${ratio}*${ratio}*${ratio}*${ratio})`;
    // The denominator is held off zero: SPICE evaluates both branches of a choice.
    const outer = `1/(abs(${ratio})>0.5 ? ${ratio} : 1)`;
    const unit = this.power / this.limitVoltage;
    return [`B${names.element} ${from} ${to} I=${unit}*(abs(${ratio})>=1 ? ${outer} : ${inner})`];
  }
}

/** A constant-power load between two nodes. */
export function powerLoad(description: PowerLoadDescription): PowerLoad {
  return new PowerLoad(description);
}
