/** Charger or panel as a circuit element: its current until the voltage nears its set-point, then less, within 0.1 V.
 *    I = −softClamp(I_max · s · (V_set − V), I_max)       I into its positive terminal [A]   V [V]   s = 10 1/V
 *  Source: estimate of a constant-current, constant-voltage charger     Leaves out: its own stages, ripple
 *
 *  Own unknown: the voltage at which the law is linearised. Full current is flat and so is none, so that Newton's method
 *  would swing between them; a step across the whole slope stops in its middle, whose tangent is the slope itself.
 *  The solution is not changed: it counts as one only where the own unknown equals the voltage.
 */
import { stampTangent, type Element, type SpiceNames, type Stamps } from '../circuit/index.ts';
import { softClamp, softClampSlope, softClampSpice, spiceNumber } from '../physics/index.ts';

const SLOPE = 10;
const CORNER_SHARE = 0.01;

export interface SourceSetting {
  /** 0 when it is off. [A] */
  current: number;
  setpoint: number;
}

export class SourceElement implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number];
  readonly #setting: SourceSetting;
  readonly #at = { voltage: 0, current: 0, dByVoltage: 0 };
  private voltage = 0;
  private start = 0;

  constructor(name: string, terminals: readonly [number, number], setting: SourceSetting) {
    this.name = name;
    this.terminals = terminals;
    this.#setting = setting;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const { current: most, setpoint } = this.#setting;
    if (most <= 0) return;
    const demand = most * SLOPE * (setpoint - this.voltage);
    const at = this.#at;
    at.voltage = this.voltage;
    at.current = -softClamp(demand, most, CORNER_SHARE * most);
    at.dByVoltage = most * SLOPE * softClampSlope(demand, most, CORNER_SHARE * most);
    stampTangent(this.terminals, at, voltages, stamps, slots);
  }

  prepare(): void {
    this.start = this.voltage;
  }

  advance(voltages: Float64Array): void {
    const { setpoint } = this.#setting;
    const { start } = this;
    const aim = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
    const low = setpoint - 1 / SLOPE;
    const crosses = (start <= low && aim >= setpoint) || (start >= setpoint && aim <= low);
    this.voltage = crosses ? (low + setpoint) / 2 : aim;
  }

  reset(voltages: Float64Array): void {
    this.voltage = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    const { current: most, setpoint } = this.#setting;
    const voltage = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
    const given = most > 0 ? softClamp(most * SLOPE * (setpoint - voltage), most, CORNER_SHARE * most) : 0;
    out[offset] = -given;
    out[offset + 1] = given;
  }

  spiceLines(names: SpiceNames): string[] {
    const { current: most, setpoint } = this.#setting;
    const [from, to] = this.terminals.map((node) => names.node(node)) as [string, string];
    const volts = (node: string): string => (node === '0' ? '0' : `V(${node})`);
    const demand = `(${spiceNumber(most * SLOPE)}*(${spiceNumber(setpoint)}-(${volts(from)}-${volts(to)})))`;
    const given = most > 0 ? softClampSpice(demand, most, CORNER_SHARE * most) : '0';
    return [`B${names.element} ${from} ${to} I=-(${given})`];
  }
}
