/** An alternator set to one speed, temperature and health, as the circuit meets it; the closed form of alternator.ts.
 *  What does not change within a solve is worked out once; `output` then reads and writes one object, since numbers
 *  that are handed on one by one are boxed on the heap.
 *    needed field current: alternator.ts solved for ψ, ψ for i_f
 *      ψ = sqrt((E + R_s · I)² + (ω · L_s · I)²) / ω        I = π/3 · output
 *      i_f = x / sqrt(φ² − (x / i_sat)²)                    x = ψ − ψ_r
 *    open voltage: V = (π/2) · ω · ψ(i_f) − 2 · V_d          where V_s = E
 *  Symbols and units of alternator.ts.   Source: [CALISKAN2003] with stator resistance, as there */
import {
  alternatorCurrentSpice,
  alternatorFlux,
  turningOutput,
  turnMachine,
  type AlternatorMachine,
  type MachinePoint,
  type TurningMachine,
} from './alternator.ts';

/** What every description of an alternator answers to the circuit. */
export interface MachineLaw {
  /** Sets shaft speed [rad/s], winding temperature [K] and share of healthy output. */
  turn(speed: number, temperature: number, share: number): void;
  /** Output current and its slopes. HOT: no allocation. */
  output(at: MachinePoint): void;
  /** Field current that makes a whole machine give `output` [A] at a voltage [V]: below 0 where none is needed,
   *  infinite beyond saturation. HOT. */
  neededField(output: number, voltage: number): number;
  /** Voltage at which output begins, at a field current [V]. HOT. */
  openVoltage(fieldCurrent: number): number;
  /** Output as ngspice text; `at` holds ngspice expressions. */
  spice(at: { readonly voltage: string; readonly fieldCurrent: string }): string;
}

/** The closed form. */
export class ClosedFormMachine implements MachineLaw {
  private readonly turning: TurningMachine;
  private speed = 0;
  private temperature = 293.15;

  constructor(machine: AlternatorMachine) {
    this.turning = { machine, electricalSpeed: 0, resistance: 0, reactance: 0, share: 1 };
    this.turn(0, 293.15, 1);
  }

  turn(speed: number, temperature: number, share: number): void {
    this.speed = speed;
    this.temperature = temperature;
    turnMachine(this.turning, speed, temperature, share);
  }

  output(at: MachinePoint): void {
    turningOutput(this.turning, at);
  }

  neededField(output: number, voltage: number): number {
    const { machine, electricalSpeed, resistance, reactance } = this.turning;
    const amplitude = (Math.PI / 3) * output;
    const back = Math.max((2 / Math.PI) * (voltage + 2 * machine.diodeDrop), 0);
    const along = back + resistance * amplitude;
    const across = reactance * amplitude;
    const flux = Math.sqrt(along * along + across * across) / electricalSpeed - machine.residualFlux;
    if (flux <= 0) return -1;
    const knee = flux / machine.saturationCurrent;
    const square = machine.fluxPerAmp * machine.fluxPerAmp - knee * knee;
    return square > 0 ? flux / Math.sqrt(square) : Infinity;
  }

  openVoltage(fieldCurrent: number): number {
    const { machine, electricalSpeed } = this.turning;
    return (Math.PI / 2) * electricalSpeed * alternatorFlux(machine, fieldCurrent) - 2 * machine.diodeDrop;
  }

  spice(at: { readonly voltage: string; readonly fieldCurrent: string }): string {
    const { machine, share } = this.turning;
    return alternatorCurrentSpice(machine, this.speed, this.temperature, share, at);
  }
}
