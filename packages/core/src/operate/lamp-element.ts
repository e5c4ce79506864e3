/** Charge lamp as a circuit element; a blown one passes nothing.      I = I(V): physics/excitation.ts
 *
 *  Own unknown: the voltage at which the law is linearised. A glowing filament gives I ∝ V^0.6, on which Newton's method
 *  goes from V to −2/3 V where the lamp carries next to nothing. A step across 0 V therefore stops there, where the law is
 *  straight. The solution is not changed: it counts as one only where the own unknown equals the voltage.
 */
import { stampTangent, type Element, type SpiceNames, type Stamps } from '../circuit/index.ts';
import { lampCurrentAt, lampCurrentSpice, type Lamp } from '../physics/index.ts';

export interface LampSetting {
  lamp: Lamp;
  whole: boolean;
  readonly a: number;
  readonly b: number;
}

export class LampElement implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number];
  readonly #setting: LampSetting;
  readonly #at = { voltage: 0, current: 0, dByVoltage: 0 };
  private voltage = 0;
  private start = 0;

  constructor(name: string, setting: LampSetting) {
    this.name = name;
    this.terminals = [setting.a, setting.b];
    this.#setting = setting;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    if (!this.#setting.whole) return;
    const at = this.#at;
    at.voltage = this.voltage;
    lampCurrentAt(this.#setting.lamp, at);
    stampTangent(this.terminals, at, voltages, stamps, slots);
  }

  prepare(): void {
    this.start = this.voltage;
  }

  advance(voltages: Float64Array): void {
    const aim = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
    this.voltage = aim * this.start < 0 ? 0 : aim;
  }

  reset(voltages: Float64Array): void {
    this.voltage = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    const at = this.#at;
    at.voltage = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
    if (this.#setting.whole) lampCurrentAt(this.#setting.lamp, at);
    else at.current = 0;
    out[offset] = at.current;
    out[offset + 1] = -at.current;
  }

  spiceLines(names: SpiceNames): string[] {
    const [from, to] = this.terminals.map((node) => names.node(node)) as [string, string];
    const volts = (node: string): string => (node === '0' ? '0' : `V(${node})`);
    const { whole, lamp } = this.#setting;
    const law = whole ? lampCurrentSpice(lamp, `(${volts(from)}-${volts(to)})`) : '0';
    return [`B${names.element} ${from} ${to} I=${law}`];
  }
}
