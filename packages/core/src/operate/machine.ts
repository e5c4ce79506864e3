/** Alternator as a circuit element: terminal currents and derivatives from the laws of physics/.
 *    i_f = softPlus(V_high − V_low − V_brush) / R_field          field winding, brushes, slip rings
 *    I_out = I(i_f, V_B+ − V_case)                               machine-law.ts: closed form, or table
 *  Terminals: B+, case, field high, field low.   V [V], i_f, I_out [A], R_field [Ω] hot, brushes included
 *
 *  Linearised where it helps: output begins steeply at cut-in and is flat below it, so the field voltage less brush drop
 *  and the output voltage are own unknowns; regulator-element.ts moves them, for the loop is one.
 */
import type { Element, SpiceNames, Stamps } from '../circuit/index.ts';
import {
  copperRatio,
  softPlus,
  softPlusSlope,
  softPlusSpice,
  spiceNumber,
  type AlternatorMachine,
  type MachineLaw,
  type MachinePoint,
} from '../physics/index.ts';

/** Width of the corner at which brushes begin to conduct [V]. */
const BRUSH_WIDTH = 0.02;

/** Output voltages closer than this are stepped to as they are [V]. */
const CLOSE_VOLTAGE = 0.3;

/** What the machine element reads at each stamp; set before a solve. */
export interface MachineSetting {
  /** Fitted to the nameplate: windings, brushes, losses, residual magnetism. */
  machine: AlternatorMachine;
  /** What gives the output; set to the speed, temperature and share below. */
  law: MachineLaw;
  speed: number; // rad/s of its shaft
  temperature: number; // K of the windings
  share: number; // of healthy output
  fieldResistance: number; // Ω at 20 °C, turns shorted accounted for
  brushResistance: number; // Ω
}

/** Field resistance in the circuit [Ω]: hot copper and brushes. */
function hotFieldResistance(setting: MachineSetting): number {
  return setting.fieldResistance * copperRatio(setting.temperature) + setting.brushResistance;
}

/** Field current at a voltage across brushes and winding [A]. */
export function fieldCurrentAt(setting: MachineSetting, voltage: number): number {
  return softPlus(voltage - setting.machine.brushDrop, BRUSH_WIDTH) / hotFieldResistance(setting);
}

/** Machine element. */
export class MachineElement implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number, number, number];
  readonly #setting: MachineSetting;
  /** Own unknowns, moved by the regulator: field voltage less brush drop, output voltage [V]. */
  driving = 0;
  voltage = 0;
  private readonly at: MachinePoint = {
    fieldCurrent: 0,
    voltage: 0,
    current: 0,
    dByVoltage: 0,
    dByFieldCurrent: 0,
  };
  // Of the last stamp, for the next step.
  private output = 0;
  private outputByDriving = 0;
  private outputByVoltage = 0;

  /** `terminals`: B+, case, field high, field low. */
  constructor(name: string, terminals: readonly [number, number, number, number], setting: MachineSetting) {
    this.name = name;
    this.terminals = terminals;
    this.#setting = setting;
  }

  get brushDrop(): number {
    return this.#setting.machine.brushDrop;
  }

  get turns(): boolean {
    return this.#setting.speed > 0 && this.#setting.share > 0;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const [stud, frame, high, low] = this.terminals;
    const setting = this.#setting;
    const resistance = hotFieldResistance(setting);
    const fieldSlope = softPlusSlope(this.driving, BRUSH_WIDTH) / resistance;
    let field = softPlus(this.driving, BRUSH_WIDTH) / resistance;
    const { machine, law } = setting;
    const { at } = this;
    at.fieldCurrent = field;
    at.voltage = this.voltage;
    law.output(at);
    const byVoltage = at.dByVoltage;
    const byDriving = at.dByFieldCurrent * fieldSlope;
    this.output = at.current;
    this.outputByVoltage = byVoltage;
    this.outputByDriving = byDriving;
    const drivingGap = voltages[high]! - voltages[low]! - machine.brushDrop - this.driving;
    const voltageGap = voltages[stud]! - voltages[frame]! - this.voltage;
    field += fieldSlope * drivingGap;
    const output = at.current + byDriving * drivingGap + byVoltage * voltageGap;
    // At least 1 S, so that a step held back where the law is flat is seen as an error.
    const error = Math.max(
      Math.abs(drivingGap) * Math.max(byDriving, fieldSlope, 1),
      Math.abs(voltageGap) * Math.max(-byVoltage, 1),
    );
    if (!(error <= stamps.lawError)) {
      stamps.lawError = error;
      stamps.lawNode = stud === 0 ? high : stud;
    }
    const { injected, matrix } = stamps;
    injected[stud]! -= output;
    injected[frame]! += output;
    injected[high]! += field;
    injected[low]! -= field;
    matrix[slots[0]!]! -= byVoltage;
    matrix[slots[1]!]! += byVoltage;
    matrix[slots[2]!]! -= byDriving;
    matrix[slots[3]!]! += byDriving;
    matrix[slots[4]!]! += byVoltage;
    matrix[slots[5]!]! -= byVoltage;
    matrix[slots[6]!]! += byDriving;
    matrix[slots[7]!]! -= byDriving;
    matrix[slots[10]!]! += fieldSlope;
    matrix[slots[11]!]! -= fieldSlope;
    matrix[slots[14]!]! -= fieldSlope;
    matrix[slots[15]!]! += fieldSlope;
  }

  /** Voltage across brushes and winding [V]. */
  fieldVoltage(voltages: Float64Array): number {
    return voltages[this.terminals[2]]! - voltages[this.terminals[3]]!;
  }

  /** Puts both own unknowns where the voltages are. Hot. */
  follow(voltages: Float64Array): void {
    const [stud, frame] = this.terminals;
    this.driving = this.fieldVoltage(voltages) - this.#setting.machine.brushDrop;
    this.voltage = voltages[stud]! - voltages[frame]!;
  }

  /** Output begins steeply where the voltage falls below that of the open machine: does not step over that. Hot. */
  holdAtOpenVoltage(start: number): void {
    if (Math.abs(this.voltage - start) < CLOSE_VOLTAGE) return;
    const current = softPlus(this.driving, BRUSH_WIDTH) / hotFieldResistance(this.#setting);
    const open = this.#setting.law.openVoltage(current);
    const above = start > open + CLOSE_VOLTAGE;
    const below = start < open - CLOSE_VOLTAGE;
    if ((above && this.voltage < open) || (below && this.voltage > open)) this.voltage = open;
  }

  /** Output of a whole machine that the linear model of the last stamp says of other unknowns [A]. Hot. */
  linearOutput(driving: number, voltage: number, startDriving: number, startVoltage: number): number {
    return (
      (this.output +
        this.outputByDriving * (driving - startDriving) +
        this.outputByVoltage * (voltage - startVoltage)) /
      this.#setting.share
    );
  }

  /** Field voltage less brush drop for an output of a whole machine [V]; infinite beyond saturation. */
  neededDriving(output: number, voltage: number): number {
    const current = this.#setting.law.neededField(output, voltage);
    return current < 0 ? -this.brushDrop : current * hotFieldResistance(this.#setting);
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    const [stud, frame, high, low] = this.terminals;
    const { at } = this;
    const field = fieldCurrentAt(this.#setting, voltages[high]! - voltages[low]!);
    at.fieldCurrent = field;
    at.voltage = voltages[stud]! - voltages[frame]!;
    this.#setting.law.output(at);
    out[offset] = -at.current;
    out[offset + 1] = at.current;
    out[offset + 2] = field;
    out[offset + 3] = -field;
  }

  spiceLines(names: SpiceNames): string[] {
    const setting = this.#setting;
    const nodes = this.terminals.map((node) => names.node(node));
    const volts = nodes.map((node) => (node === '0' ? '0' : `V(${node})`));
    const driving = `(${volts[2]}-${volts[3]}-${spiceNumber(setting.machine.brushDrop)})`;
    const field = `(${softPlusSpice(driving, BRUSH_WIDTH)}/${spiceNumber(hotFieldResistance(setting))})`;
    const inner = `i_${names.element}`;
    const out = setting.law.spice({
      voltage: `(${volts[0]}-${volts[1]})`,
      fieldCurrent: `V(${inner}_f)`,
    });
    const into = [`-V(${inner}_o)`, `V(${inner}_o)`, `V(${inner}_f)`, `-V(${inner}_f)`];
    return [
      ...nodes.map((node, terminal) => `B${names.element}_${terminal} ${node} 0 I=${into[terminal]}`),
      `B${inner}_f ${inner}_f 0 V=${field}`,
      `B${inner}_o ${inner}_o 0 V=${out}`,
    ];
  }
}
