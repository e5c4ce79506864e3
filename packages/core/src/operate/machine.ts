/** Alternator and regulator as circuit elements: terminal currents and derivatives from the laws of physics/.
 *
 *  Machine, terminals B+, case, field high, field low:
 *    i_f = softPlus(V_high − V_low − V_brush) / R_field          (field winding, brushes, slip rings)
 *    I_out = share · I_dc(speed, i_f, V_B+ − V_case)             (alternator.ts)
 *  Regulator, terminals supply, F, sense, ground; a chopper seen as its mean over a cycle:
 *    positive-switched   V_F → d · V_supply,        I_supply = d · i,  rest through the freewheel from ground
 *    negative-switched   V_F → (1 − d) · V_supply,  I_ground = d · i,  rest back to the supply
 *  with the output resistance R_on.  d = duty(V_sense) of regulator.ts.
 *  Power: what leaves the supply is what the field gets plus R_on's loss, so nothing is created.
 *  Source: averaging of a buck chopper, any power-electronics textbook (from memory).
 */
import {
  controlledCurrent,
  type ControlledCurrent,
  type Element,
  type SpiceNames,
  type Stamps,
  type TerminalState,
} from '../circuit/index.ts';
import {
  alternatorCurrent,
  alternatorCurrentSpice,
  copperRatio,
  regulatorDuty,
  regulatorDutySpice,
  softPlus,
  softPlusSlope,
  softPlusSpice,
  spiceNumber,
  type AlternatorMachine,
} from '../physics/index.ts';

/** Width of the corner at which brushes begin to conduct [V]. */
const BRUSH_WIDTH = 0.02;
/** Output resistance of a regulator's switch [Ω]; estimate. */
const SWITCH_RESISTANCE = 0.04;

/** What the machine element reads at each stamp; set before a solve. */
export interface MachineSetting {
  machine: AlternatorMachine;
  speed: number; // rad/s of its shaft
  temperature: number; // K of the windings
  share: number; // of healthy output
  fieldResistance: number; // Ω at 20 °C, turns shorted accounted for
  brushResistance: number; // Ω
}

export interface RegulatorSetting {
  gain: number;
  setpoint: number;
  /** Greatest duty now: 0 dead, delayed or not enabled. */
  cap: number;
  stuckFull: boolean;
  /** 1, or 0 when its field output is taken off (field fed by hand). */
  connected: number;
}

const machineOut = { current: 0, dByVoltage: 0, dByFieldCurrent: 0 };
const dutyOut = { duty: 0, dBySensed: 0 };

/** Field resistance in the circuit [Ω]: hot copper and brushes. */
export function hotFieldResistance(setting: MachineSetting): number {
  return setting.fieldResistance * copperRatio(setting.temperature) + setting.brushResistance;
}

/** Field current at a voltage across brushes and winding [A]. */
export function fieldCurrentAt(setting: MachineSetting, voltage: number): number {
  return softPlus(voltage - setting.machine.brushDrop, BRUSH_WIDTH) / hotFieldResistance(setting);
}

/** Machine element. `terminals`: B+, case, field high, field low. */
export function machineElement(
  name: string,
  terminals: readonly [number, number, number, number],
  setting: MachineSetting,
): ControlledCurrent {
  const law = (at: TerminalState): void => {
    const [stud, frame, high, low] = at.voltages as unknown as [number, number, number, number];
    const resistance = hotFieldResistance(setting);
    const driving = high - low - setting.machine.brushDrop;
    const field = softPlus(driving, BRUSH_WIDTH) / resistance;
    const fieldSlope = softPlusSlope(driving, BRUSH_WIDTH) / resistance;
    alternatorCurrent(
      setting.machine,
      setting.speed,
      field,
      stud - frame,
      setting.temperature,
      setting.share,
      machineOut,
    );
    const { currents, derivatives } = at;
    const byField = machineOut.dByFieldCurrent * fieldSlope;
    currents[0] = -machineOut.current;
    currents[1] = machineOut.current;
    currents[2] = field;
    currents[3] = -field;
    derivatives[0] = -machineOut.dByVoltage;
    derivatives[1] = machineOut.dByVoltage;
    derivatives[2] = -byField;
    derivatives[3] = byField;
    derivatives[4] = machineOut.dByVoltage;
    derivatives[5] = -machineOut.dByVoltage;
    derivatives[6] = byField;
    derivatives[7] = -byField;
    derivatives[10] = fieldSlope;
    derivatives[11] = -fieldSlope;
    derivatives[14] = -fieldSlope;
    derivatives[15] = fieldSlope;
  };
  return controlledCurrent({
    name,
    terminals,
    law,
    spiceLaw: (volts) => {
      const driving = `(${volts[2]}-${volts[3]}-${spiceNumber(setting.machine.brushDrop)})`;
      const field = `(${softPlusSpice(driving, BRUSH_WIDTH)}/${spiceNumber(hotFieldResistance(setting))})`;
      const out = alternatorCurrentSpice(setting.machine, setting.speed, setting.temperature, setting.share, {
        voltage: `(${volts[0]}-${volts[1]})`,
        fieldCurrent: field,
      });
      return [`-(${out})`, out, field, `-(${field})`];
    },
  });
}

/** Regulator element, with the sensed voltage at which its duty is linearised as its own unknown: when a step would
 *  jump across the narrow band in which the duty falls from full to nothing, the law is first looked at in the middle
 *  of the band. Without it Newton's method swings between full field and none.
 */
export class RegulatorElement implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number, number, number];
  readonly #positive: boolean;
  readonly #setting: RegulatorSetting;
  #sensed = 0;
  #start = 0;

  /** `terminals`: supply, F, sense, ground. */
  constructor(
    name: string,
    terminals: readonly [number, number, number, number],
    switching: 'positive' | 'negative',
    setting: RegulatorSetting,
  ) {
    this.name = name;
    this.terminals = terminals;
    this.#positive = switching === 'positive';
    this.#setting = setting;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const [supply, field, sense, ground] = this.terminals;
    const setting = this.#setting;
    const base = voltages[ground]!;
    const sensed = voltages[sense]! - base;
    const volts = voltages[supply]! - base;
    const conductance = setting.connected / SWITCH_RESISTANCE;
    duty(setting, sensed);
    const exact = dutyOut.duty;
    duty(setting, this.#sensed);
    const slope = dutyOut.dBySensed;
    const d = dutyOut.duty + slope * (sensed - this.#sensed);
    const error = Math.abs(d - exact) * Math.abs(volts) * setting.connected;
    if (!(error <= stamps.lawError)) {
      stamps.lawError = error;
      stamps.lawNode = sense;
    }
    const share = this.#positive ? d : 1 - d;
    const shareSlope = this.#positive ? slope : -slope;
    const current = (share * volts - (voltages[field]! - base)) * conductance;
    stamps.injected[supply]! += share * current;
    stamps.injected[field]! -= current;
    stamps.injected[ground]! += (1 - share) * current;
    // Derivatives of the switch current by supply, F, sense, ground; the share moves with sense and ground alone.
    const bySupply = share * conductance;
    const bySense = shareSlope * volts * conductance;
    const { matrix } = stamps;
    for (let column = 0; column < 4; column++) {
      const by =
        column === 0
          ? bySupply
          : column === 1
            ? -conductance
            : column === 2
              ? bySense
              : conductance - bySupply - bySense;
      const shareBy = column === 2 ? shareSlope : column === 3 ? -shareSlope : 0;
      matrix[slots[column]!]! += share * by + shareBy * current;
      matrix[slots[4 + column]!]! -= by;
      matrix[slots[12 + column]!]! += (1 - share) * by - shareBy * current;
    }
  }

  prepare(): void {
    this.#start = this.#sensed;
  }

  advance(voltages: Float64Array): void {
    const { gain, setpoint, cap } = this.#setting;
    const aim = voltages[this.terminals[2]]! - voltages[this.terminals[3]]!;
    const low = setpoint - cap / gain;
    const jumps = (this.#start < low && aim > setpoint) || (this.#start > setpoint && aim < low);
    this.#sensed = jumps ? (low + setpoint) / 2 : aim;
  }

  reset(): void {
    this.#sensed = 0;
  }

  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void {
    const [supply, field, sense, ground] = this.terminals;
    const base = voltages[ground]!;
    const d = dutyAt(this.#setting, voltages[sense]! - base);
    const share = this.#positive ? d : 1 - d;
    const current =
      ((share * (voltages[supply]! - base) - (voltages[field]! - base)) * this.#setting.connected) /
      SWITCH_RESISTANCE;
    out[offset] = share * current;
    out[offset + 1] = -current;
    out[offset + 2] = 0;
    out[offset + 3] = (1 - share) * current;
  }

  spiceLines(names: SpiceNames): string[] {
    const setting = this.#setting;
    const nodes = this.terminals.map((node) => names.node(node));
    const [supply, field, sense, ground] = nodes.map((node) => `V(${node})`) as [
      string,
      string,
      string,
      string,
    ];
    const d = setting.stuckFull
      ? '1'
      : setting.cap <= 0
        ? '0'
        : regulatorDutySpice(setting.gain, setting.setpoint, setting.cap, `(${sense}-${ground})`);
    const share = this.#positive ? `(${d})` : `(1-(${d}))`;
    const conductance = spiceNumber(setting.connected / SWITCH_RESISTANCE);
    const current = `(${conductance}*(${share}*(${supply}-${ground})-(${field}-${ground})))`;
    const into = [`${share}*${current}`, `-(${current})`, '0', `(1-${share})*${current}`];
    return nodes.map((node, terminal) => `B${names.element}_${terminal} ${node} 0 I=${into[terminal]}`);
  }
}

function duty(setting: RegulatorSetting, sensed: number): void {
  if (setting.stuckFull || setting.cap <= 0) {
    dutyOut.duty = setting.stuckFull ? 1 : 0;
    dutyOut.dBySensed = 0;
    return;
  }
  regulatorDuty(setting.gain, setting.setpoint, sensed, setting.cap, dutyOut);
}

/** Duty of a regulator at a sensed voltage, 0 to 1. */
export function dutyAt(setting: RegulatorSetting, sensed: number): number {
  duty(setting, sensed);
  return dutyOut.duty;
}
