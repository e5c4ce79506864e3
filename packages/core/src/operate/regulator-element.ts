/** Regulator as a circuit element: a chopper seen as its mean over a cycle.
 *    positive-switched   V_F → d · V_supply,        I_supply = d · i,  rest through the freewheel from ground
 *    negative-switched   V_F → (1 − d) · V_supply,  I_ground = d · i,  rest back to the supply
 *  with the output resistance R_on.  d = duty(V_sense) of regulator.ts   Terminals: supply, F, sense, ground.
 *  Power: what leaves the supply is what the field gets plus R_on's loss, so nothing is created.
 *  Source: averaging of a buck chopper, any power-electronics textbook (from memory).
 *
 *  How the loop is solved. Duty falls from full to nothing within some 0.2 V of sensed voltage, and output begins steeply
 *  at cut-in, so Newton's method swings between full field and none. The element therefore picks the point at which
 *  regulator and machine are linearised: a step across the band stops in its middle, and inside the band the duty is
 *  the one that the output needs which the network asked for (needed field current, a closed form). It leaves
 *  the band only from its edge, and full field or none are then taken as they are. The solution is not changed:
 *  it counts as one only where the own unknowns equal the voltages.
 */
import type { Element, SpiceNames, Stamps } from '../circuit/index.ts';
import { regulatorDuty, regulatorDutySpice, spiceNumber } from '../physics/index.ts';
import type { MachineElement } from './machine.ts';

/** Output resistance of a regulator's switch [Ω]; estimate. */
const SWITCH_RESISTANCE = 0.04;
/** No winding conducts better [S]. */
const GREATEST_FIELD_CONDUCTANCE = 1;
/** Least share of the driven field voltage that leads leave to the winding. */
const LEAST_PASSED = 0.02;
/** Field voltages closer than this are stepped to as they are [V]. */
const CLOSE = 0.02;
/** Sensed voltages closer than this are stepped to as they are [V]. */
const CLOSE_SENSED = 0.02;
/** Output below which what the network asks for says nothing of the field [A]. */
const LEAST_ASKED = 0.5;
/** Duties closer than this share of the cap are alike. */
const SAME_DUTY = 0.01;
/** Largest duty looked at inside the band, of the cap. */
const MOST_DUTY = 0.98;

export interface RegulatorSetting {
  gain: number;
  setpoint: number;
  /** Greatest duty now: 0 dead, delayed or not enabled. */
  cap: number;
  stuckFull: boolean;
  /** 1, or 0 when its field output is taken off (field fed by hand). */
  connected: number;
  /** The field has no source but the machine's own stud; a lamp is one. */
  readonly selfFed: boolean;
}

const dutyOut = { duty: 0, dBySensed: 0 };
const within = (value: number, low: number, high: number): number => Math.max(low, Math.min(value, high));

/** Regulator element. Own unknowns: the sensed voltage at which the duty is linearised, the supply voltage and the field
 *  conductance that go with it (their products with the duty are not linear), and those of the machine.
 */
export class RegulatorElement implements Element {
  readonly name: string;
  readonly terminals: readonly [number, number, number, number];
  readonly #positive: boolean;
  readonly #setting: RegulatorSetting;
  readonly #machine: MachineElement;
  private sensed = 0;
  private startSensed = 0;
  private startDriving = 0;
  private startVoltage = 0;
  private volts = 0;
  /** Field current over mean field voltage [S], and the share of that voltage that reaches the winding. */
  private conductance = 0.2;
  private passed = 1;
  // Of the last stamp: share of the supply voltage, and its slope by sensed voltage.
  private share = 0;
  private slope = 0;

  /** `terminals`: supply, F, sense, ground. */
  constructor(
    name: string,
    terminals: readonly [number, number, number, number],
    switching: 'positive' | 'negative',
    setting: RegulatorSetting,
    machine: MachineElement,
  ) {
    this.name = name;
    this.#machine = machine;
    this.terminals = terminals;
    this.#positive = switching === 'positive';
    this.#setting = setting;
  }

  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void {
    const [supply, field, sense, ground] = this.terminals;
    const base = voltages[ground]!;
    const volts = voltages[supply]! - base;
    const conductance = this.#setting.connected / SWITCH_RESISTANCE;
    duty(this.#setting, this.sensed);
    const share = this.#positive ? dutyOut.duty : 1 - dutyOut.duty;
    const slope = this.#positive ? dutyOut.dBySensed : -dutyOut.dBySensed;
    this.share = share;
    this.slope = slope;
    const gap = voltages[sense]! - base - this.sensed;
    const moved = slope * gap;
    const current = (share * volts + this.volts * moved - (voltages[field]! - base)) * conductance;
    const driven = this.#positive ? share : share - 1;
    const own = this.#setting.connected * this.conductance * this.volts * driven;
    const product = share * current + own * moved;
    stamps.injected[supply]! += product;
    stamps.injected[field]! -= current;
    stamps.injected[ground]! += current - product;
    const error = Math.abs(gap) * Math.max(Math.abs(slope) * this.volts, 1) * this.#setting.connected;
    if (!(error <= stamps.lawError)) {
      stamps.lawError = error;
      stamps.lawNode = sense;
    }
    const bySupply = share * conductance;
    const bySense = this.volts * slope * conductance;
    const byGround = conductance - bySupply - bySense;
    const extra = own * slope;
    const { matrix } = stamps;
    matrix[slots[0]!]! += share * bySupply;
    matrix[slots[1]!]! -= share * conductance;
    matrix[slots[2]!]! += share * bySense + extra;
    matrix[slots[3]!]! += share * byGround - extra;
    matrix[slots[4]!]! -= bySupply;
    matrix[slots[5]!]! += conductance;
    matrix[slots[6]!]! -= bySense;
    matrix[slots[7]!]! -= byGround;
    const rest = 1 - share;
    matrix[slots[12]!]! += rest * bySupply;
    matrix[slots[13]!]! -= rest * conductance;
    matrix[slots[14]!]! += rest * bySense - extra;
    matrix[slots[15]!]! += rest * byGround + extra;
  }

  prepare(): void {
    this.startSensed = this.sensed;
    this.startDriving = this.#machine.driving;
    this.startVoltage = this.#machine.voltage;
  }

  advance(voltages: Float64Array): void {
    const [supply, , sense, ground] = this.terminals;
    const { cap, connected, stuckFull, gain, setpoint } = this.#setting;
    const machine = this.#machine;
    this.#learn(voltages);
    this.#follow(voltages);
    if (!machine.turns) return;
    const aim = voltages[sense]! - voltages[ground]!;
    const volts = voltages[supply]! - voltages[ground]!;
    machine.holdAtOpenVoltage(this.startVoltage);
    if (connected <= 0 || cap <= 0 || stuckFull) return;
    const low = setpoint - cap / gain;
    const start = this.startSensed;
    const { driving, voltage } = machine;
    const wasRegulated = start > low && start < setpoint;
    if (wasRegulated && Math.abs(driving - this.startDriving) < CLOSE && Math.abs(aim - start) < CLOSE_SENSED)
      return;
    if ((start <= low && aim <= low) || (start >= setpoint && aim >= setpoint)) {
      // No source but the machine itself feeds the field, so far above its own voltage it never gets.
      if (this.#setting.selfFed && driving > voltage + 1)
        machine.driving = Math.max(voltage - machine.brushDrop, 0);
      return;
    }
    const near = voltage + within(aim, low, setpoint) - aim;
    const perDriving = 1 / (this.passed * Math.max(volts + within(aim, low, setpoint) - aim, 1));
    const most = MOST_DUTY * cap;
    const least = Math.min((machine.neededDriving(LEAST_ASKED, near) + machine.brushDrop) * perDriving, most);
    let duty = cap / 2;
    if (wasRegulated) {
      const asked = machine.linearOutput(driving, voltage, this.startDriving, this.startVoltage);
      duty =
        asked > LEAST_ASKED ? (machine.neededDriving(asked, near) + machine.brushDrop) * perDriving : least;
      const from = gain * (setpoint - start);
      duty = within(duty, least, most);
      if (Math.abs(duty - from) < SAME_DUTY * cap) {
        // The field voltage that the linear model asks for may be any; no field gets more than its supply.
        machine.driving = within(driving, -machine.brushDrop, this.volts);
        return;
      }
    } else if (aim > low && aim < setpoint) {
      duty = gain * (setpoint - aim);
      // So little field that the machine gives nothing: what the network asks for is then as it is.
      if (start >= setpoint && duty < least) return;
    }
    this.#lookAt(within(duty, least, most), aim, volts);
  }

  reset(voltages: Float64Array): void {
    this.conductance = 0.2;
    this.passed = 1;
    this.#follow(voltages);
  }

  /** Starts from these voltages and this duty, whatever the set-point is now. */
  begin(voltages: Float64Array, duty: number): void {
    const [supply, , sense, ground] = this.terminals;
    const { cap, connected, stuckFull } = this.#setting;
    this.#follow(voltages);
    if (connected <= 0 || stuckFull || !(duty > 0.01 && duty < MOST_DUTY * cap)) return;
    this.#lookAt(duty, voltages[sense]! - voltages[ground]!, voltages[supply]! - voltages[ground]!);
  }

  /** A supply lead that is open floats anywhere for a step. */
  #plausible(volts: number): number {
    return within(volts, 0, 2 * this.#setting.setpoint);
  }

  /** Own unknowns go where the voltages are. */
  #follow(voltages: Float64Array): void {
    const [supply, , sense, ground] = this.terminals;
    this.#machine.follow(voltages);
    this.sensed = voltages[sense]! - voltages[ground]!;
    this.volts = this.#plausible(voltages[supply]! - voltages[ground]!);
  }

  /** Winding and leads as the linear model of the last step met them, within what they can be. */
  #learn(voltages: Float64Array): void {
    const [supply, field, sense, ground] = this.terminals;
    const machine = this.#machine;
    const base = voltages[ground]!;
    const volts = voltages[supply]! - base;
    const driven = this.share * volts + this.volts * this.slope * (voltages[sense]! - base - this.sensed);
    const across = this.#positive ? driven : volts - driven;
    if (!(across > 1 && this.#setting.connected > 0)) return;
    const current = (driven - (voltages[field]! - base)) / SWITCH_RESISTANCE;
    this.conductance = within((this.#positive ? current : -current) / across, 0, GREATEST_FIELD_CONDUCTANCE);
    this.passed = within(machine.fieldVoltage(voltages) / across, LEAST_PASSED, 1);
  }

  /** Linearises the loop where the duty is `duty`, inside the band, and all else goes with it. */
  #lookAt(duty: number, aim: number, volts: number): void {
    const { gain, setpoint } = this.#setting;
    const machine = this.#machine;
    this.sensed = setpoint - duty / gain;
    this.volts = this.#plausible(volts + this.sensed - aim);
    machine.voltage += this.sensed - aim;
    machine.driving = this.passed * duty * this.volts - machine.brushDrop;
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
    const inner = `i_${names.element}`;
    const [share, current] = [`V(${inner}_s)`, `V(${inner}_i)`];
    const conductance = spiceNumber(setting.connected / SWITCH_RESISTANCE);
    const into = [`${share}*${current}`, `-${current}`, '0', `(1-${share})*${current}`];
    return [
      ...nodes.map((node, terminal) => `B${names.element}_${terminal} ${node} 0 I=${into[terminal]}`),
      `B${inner}_s ${inner}_s 0 V=${this.#positive ? d : `1-(${d})`}`,
      `B${inner}_i ${inner}_i 0 V=${conductance}*(${share}*(${supply}-${ground})-(${field}-${ground}))`,
    ];
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
