/** Junction: a two-terminal part whose current rises steeply (exponentially) with voltage; diode, zener.
 *    I = I(V),  V = V1 − V2 (first terminal: anode)
 *  I [A]   V [V]
 *  Source: step limiting after Nagel, SPICE2, ERL-M520 (1975), "pnjlim" [from memory]: past the knee, the
 *  voltage moves with the logarithm of the wanted step, since the current would overflow otherwise
 *  Valid: I(V) continuous and not falling     Leaves out: charge storage, reverse recovery
 *
 *  Own unknown: the voltage at which the law is linearised; the error of the law is (V − own) · slope.
 *  The law reads the voltage of `at` and writes current and slope to it; it is called once a Newton step. Hot.
 */
import type { Element, SpiceNames, Stamps } from '../element.ts';
import { stampTangent } from './tangent.ts';

/** What a law of current reads, voltage [V], and writes: current [A] and its derivative by voltage [S]. */
export interface CurrentAtVoltage {
  voltage: number;
  current: number;
  dByVoltage: number;
}

export interface JunctionDescription {
  readonly name: string;
  readonly anode: number;
  readonly cathode: number;
  /** Writes I(V) and dI/dV at `at.voltage` to `at`. */
  readonly law: (at: CurrentAtVoltage) => void;
  /** Voltage in which the current grows e-fold: ideality · kT/q [V]. */
  readonly slopeVoltage: number;
  /** Voltage above which steps are limited, near 0.6 V for silicon [V]. */
  readonly kneeVoltage: number;
  /** I(V) as a SPICE expression of the given voltage expression. */
  readonly spiceLaw?: (voltage: string) => string;
}

export class Junction implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number];
  readonly #description: JunctionDescription;
  readonly #at: CurrentAtVoltage = { voltage: 0, current: 0, dByVoltage: 0 };
  private voltage = 0;
  private start = 0;

  constructor(description: JunctionDescription) {
    this.name = description.name;
    this.terminals = [description.anode, description.cathode];
    this.#description = description;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const at = this.#at;
    at.voltage = this.voltage;
    this.#description.law(at);
    stampTangent(this.terminals, at, voltages, stamps, slots);
  }

  prepare(): void {
    this.start = this.voltage;
  }

  advance(voltages: Float64Array): void {
    const aim = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
    this.hold(aim);
  }

  reset(voltages: Float64Array): void {
    const voltage = voltages[this.terminals[0]]! - voltages[this.terminals[1]]!;
    this.voltage = Math.min(voltage, this.#description.kneeVoltage);
  }

  writeCurrents(_voltages: Float64Array, out: Float64Array, offset: number): void {
    out[offset] = this.#at.current;
    out[offset + 1] = -this.#at.current;
  }

  spiceLines(names: SpiceNames): string[] {
    const { spiceLaw } = this.#description;
    if (spiceLaw === undefined) throw new RangeError(`junction ${this.name}: no SPICE expression was given`);
    const anode = names.node(this.terminals[0]);
    const cathode = names.node(this.terminals[1]);
    return [`B${names.element} ${anode} ${cathode} I=${spiceLaw(`(V(${anode})-V(${cathode}))`)}`];
  }

  /** Goes to `aim`, or as far towards it as is safe. */
  private hold(aim: number): void {
    const { slopeVoltage, kneeVoltage } = this.#description;
    const { start } = this;
    if (aim <= kneeVoltage || Math.abs(aim - start) <= 2 * slopeVoltage) this.voltage = aim;
    else if (start <= 0) this.voltage = Math.min(aim, kneeVoltage);
    else {
      const growth = 1 + (aim - start) / slopeVoltage;
      this.voltage = growth > 0 ? start + slopeVoltage * Math.log(growth) : kneeVoltage;
    }
  }
}

/** A junction between two nodes. */
export function junction(description: JunctionDescription): Junction {
  return new Junction(description);
}
