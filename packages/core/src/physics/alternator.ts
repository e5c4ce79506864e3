/** Claw-pole alternator with its diode bridge, feeding a steady voltage: output current in closed form.
 *    ω = p · Ω                                    V_s = ω · ψ(i_f)
 *    ψ(i_f) = ψ_r + φ · i_f / sqrt(1 + (i_f / i_sat)²)
 *    V_e = V_dc + 2 · V_d                         E = 2 · V_e / π
 *    (E + R_s · I)² + (ω · L_s · I)² = V_s²       I_dc = 3 · I / π           (zero where V_s < E)
 *  Ω shaft speed [rad/s]  p pole pairs  ω electrical speed [rad/s]  i_f field current [A]  ψ flux linkage [V·s]
 *  φ flux per ampere [V·s/A]  i_sat [A]  ψ_r residual flux [V·s]  V_s phase voltage amplitude [V]  V_dc at the stud [V]
 *  V_d one diode [V]  R_s stator resistance per phase, star [Ω]  L_s synchronous inductance [H]
 *  I phase current amplitude [A]  I_dc output current, out of B+ [A]
 *  Source: [CALISKAN2003] with stator resistance added; saturation curve chosen (smooth, odd, one parameter).
 *  Valid: continuous conduction. Near cut-in the real bridge conducts in gaps and gives less: against a time-step
 *  simulation [RIVAS2004] the formula is high by 17 % at 1.5 times the cut-in speed, 4 % at 2.5 times, 1 % at 5 times.
 *  Leaves out: the fall of the diodes' drop with temperature, third harmonic, saliency, iron loss in the electrical balance, avalanche of the diodes, reversed batteries.
 *
 *  Smoothing: V_s − E and E pass through softPlus with width 0.05 V. That is about the emission voltage of two
 *  silicon diodes in series (2 · n · k · T / q · 2/π ≈ 0.05 V), so the knee at cut-in is as soft as a real one.
 *  Current falls with voltage, rises with field current, and is never negative. */
import { copperRatio } from './conductor.ts';
import { softPlus, softPlusSlope, softPlusSpice, spiceNumber } from './smooth.ts';

export interface AlternatorMachine {
  readonly polePairs: number;
  /** Flux linkage per field ampere, unsaturated, so that phase amplitude = electrical speed · flux [V·s/A]. */
  readonly fluxPerAmp: number;
  /** Field current at which flux has fallen to 1/√2 of the straight line [A]; Infinity = never saturates. */
  readonly saturationCurrent: number;
  /** Flux linkage left in the iron without field current [V·s]. */
  readonly residualFlux: number;
  /** Synchronous inductance per phase, star [H]. */
  readonly synchronousInductance: number;
  /** Stator resistance per phase, star, at 293.15 K [Ω]. */
  readonly statorResistance20: number;
  /** Field winding between the slip rings at 293.15 K [Ω]. */
  readonly fieldResistance20: number;
  /** One bridge diode, conducting [V]. */
  readonly diodeDrop: number;
  /** Both brushes together [V]. */
  readonly brushDrop: number;
}

/** What `alternatorCurrent` fills in. Reuse one object for many calls. */
export interface AlternatorCurrent {
  /** Out of B+ [A], ≥ 0. */
  current: number;
  /** ∂ current / ∂ output voltage [A/V], ≤ 0. */
  dByVoltage: number;
  /** ∂ current / ∂ field current [A/A], ≥ 0. */
  dByFieldCurrent: number;
}

/** The call that every description of an alternator answers (machine or table bound to it). */
export type AlternatorCurrentLaw = (
  speed: number,
  fieldCurrent: number,
  outputVoltage: number,
  statorTemperature: number,
  share: number,
  out: AlternatorCurrent,
) => void;

/** Width of the smooth corners [V of phase amplitude]; see above. */
export const CUT_IN_WIDTH = 0.05;
/** Keeps E above zero so that no quotient is 0/0 with a stopped rotor on a short circuit [V]. */
const VOLTAGE_FLOOR = 1e-6;

/** Flux linkage at a field current [V·s]. HOT: no allocation. */
export function alternatorFlux(machine: AlternatorMachine, fieldCurrent: number): number {
  const knee = fieldCurrent / machine.saturationCurrent;
  return machine.residualFlux + (machine.fluxPerAmp * fieldCurrent) / Math.sqrt(1 + knee * knee);
}

/** d flux / d field current [V·s/A]. HOT: no allocation. */
export function alternatorFluxSlope(machine: AlternatorMachine, fieldCurrent: number): number {
  const knee = fieldCurrent / machine.saturationCurrent;
  const root = Math.sqrt(1 + knee * knee);
  return machine.fluxPerAmp / (root * root * root);
}

/** A machine at one speed, temperature and health: what does not change within a solve, worked out once. */
export interface TurningMachine {
  machine: AlternatorMachine;
  /** ω [rad/s]. */
  electricalSpeed: number;
  /** R_s hot [Ω]. */
  resistance: number;
  /** ω · L_s [Ω]. */
  reactance: number;
  /** Share of healthy output, 1 when healthy (alternator-fault.ts). */
  share: number;
}

/** What `turningOutput` reads, field current [A] and output voltage [V], and what it writes. */
export interface MachinePoint extends AlternatorCurrent {
  fieldCurrent: number;
  voltage: number;
}

/** Sets speed of the shaft [rad/s], winding temperature [K] and share of healthy output. */
export function turnMachine(
  turning: TurningMachine,
  speed: number,
  statorTemperature: number,
  share: number,
): void {
  const { machine } = turning;
  turning.electricalSpeed = machine.polePairs * speed;
  turning.resistance = machine.statorResistance20 * copperRatio(statorTemperature);
  turning.reactance = turning.electricalSpeed * machine.synchronousInductance;
  turning.share = share;
}

/** Output current and its derivatives at a point, written to it. HOT: no allocation; one object in and out, because a
 *  number that is handed to a function is boxed on the heap. */
export function turningOutput(turning: TurningMachine, at: MachinePoint): void {
  const { machine, electricalSpeed, resistance, reactance } = turning;
  const knee = at.fieldCurrent / machine.saturationCurrent;
  const bend = 1 / Math.sqrt(1 + knee * knee);
  const source = electricalSpeed * (machine.residualFlux + machine.fluxPerAmp * at.fieldCurrent * bend);
  const raw = (2 / Math.PI) * (at.voltage + 2 * machine.diodeDrop);
  const back = softPlus(raw, CUT_IN_WIDTH) + VOLTAGE_FLOOR;
  const rise = softPlus(source - back, CUT_IN_WIDTH);
  const riseSlope = softPlusSlope(source - back, CUT_IN_WIDTH);
  const driving = back + rise;
  const impedance2 = resistance * resistance + reactance * reactance;
  const reactive = reactance * back;
  const root = Math.sqrt(impedance2 * driving * driving - reactive * reactive);
  // The textbook root (−E·R + root)/Z² cancels near cut-in; this is the same number without the cancellation.
  const amplitude = (rise * (back + driving)) / (back * resistance + root);
  const byDriving = driving / root;
  const byBack = -(resistance + (reactance * reactive) / root) / impedance2;
  const scale = (3 / Math.PI) * turning.share;
  at.current = scale * amplitude;
  at.dByVoltage =
    scale * ((1 - riseSlope) * byDriving + byBack) * softPlusSlope(raw, CUT_IN_WIDTH) * (2 / Math.PI);
  at.dByFieldCurrent =
    scale * riseSlope * byDriving * electricalSpeed * machine.fluxPerAmp * bend * bend * bend;
}

/** The same for a machine that is not kept turning. `speed` of the shaft [rad/s]; `statorTemperature` [K]; `share` of
 *  healthy output. Arguments are not checked here. */
export function alternatorCurrent(
  machine: AlternatorMachine,
  speed: number,
  fieldCurrent: number,
  outputVoltage: number,
  statorTemperature: number,
  share: number,
  out: AlternatorCurrent,
): void {
  turningOnce.machine = machine;
  turnMachine(turningOnce, speed, statorTemperature, share);
  pointOnce.fieldCurrent = fieldCurrent;
  pointOnce.voltage = outputVoltage;
  turningOutput(turningOnce, pointOnce);
  out.current = pointOnce.current;
  out.dByVoltage = pointOnce.dByVoltage;
  out.dByFieldCurrent = pointOnce.dByFieldCurrent;
}

const turningOnce: TurningMachine = {
  machine: undefined as unknown as AlternatorMachine,
  electricalSpeed: 0,
  resistance: 0,
  reactance: 0,
  share: 1,
};
const pointOnce: MachinePoint = {
  fieldCurrent: 0,
  voltage: 0,
  current: 0,
  dByVoltage: 0,
  dByFieldCurrent: 0,
};

/** `alternatorCurrent` as ngspice text, at one speed, temperature and share.
 *  `at.voltage` and `at.fieldCurrent` are ngspice expressions, such as 'v(stud,case)' and 'i(Vfield)'. */
export function alternatorCurrentSpice(
  machine: AlternatorMachine,
  speed: number,
  statorTemperature: number,
  share: number,
  at: { readonly voltage: string; readonly fieldCurrent: string },
): string {
  const n = spiceNumber;
  const electricalSpeed = machine.polePairs * speed;
  const resistance = machine.statorResistance20 * copperRatio(statorTemperature);
  const reactance = electricalSpeed * machine.synchronousInductance;
  const impedance2 = resistance * resistance + reactance * reactance;
  const source = `(${n(electricalSpeed)}*${alternatorFluxSpice(machine, at.fieldCurrent)})`;
  const raw = `(${n(2 / Math.PI)}*((${at.voltage})+${n(2 * machine.diodeDrop)}))`;
  const back = `(${softPlusSpice(raw, CUT_IN_WIDTH)}+${n(VOLTAGE_FLOOR)})`;
  const rise = softPlusSpice(`(${source}-${back})`, CUT_IN_WIDTH);
  const driving = `(${back}+${rise})`;
  const root = `sqrt(${n(impedance2)}*${driving}*${driving}-${n(reactance * reactance)}*${back}*${back})`;
  return `(${n((3 / Math.PI) * share)}*${rise}*(${back}+${driving})/(${n(resistance)}*${back}+${root}))`;
}

/** Flux linkage as ngspice text. */
export function alternatorFluxSpice(machine: AlternatorMachine, fieldCurrent: string): string {
  const n = spiceNumber;
  if (machine.saturationCurrent === Infinity) {
    return `(${n(machine.residualFlux)}+${n(machine.fluxPerAmp)}*(${fieldCurrent}))`;
  }
  const knee2 = n(machine.saturationCurrent ** -2);
  return `(${n(machine.residualFlux)}+${n(machine.fluxPerAmp)}*(${fieldCurrent})/sqrt(1+${knee2}*(${fieldCurrent})*(${fieldCurrent})))`;
}

/** Amplitude of the phase current that goes with an output current [A]: I = π · I_dc / 3.
 *  Source: [CALISKAN2003]; the measured rms ratio I_L / I_dc is 0.745–0.774 [SARAFIANOS2015] against π/(3√2) = 0.7405. */
export function phaseCurrentAmplitude(outputCurrent: number): number {
  return (Math.PI / 3) * outputCurrent;
}

/** Shaft speed below which the machine gives nothing at this field current and voltage [rad/s]: ω · ψ = E.
 *  Infinity when there is no flux. */
export function alternatorCutInSpeed(
  machine: AlternatorMachine,
  fieldCurrent: number,
  outputVoltage: number,
): number {
  const flux = alternatorFlux(machine, fieldCurrent);
  if (flux <= 0) return Infinity;
  return ((2 / Math.PI) * (outputVoltage + 2 * machine.diodeDrop)) / (machine.polePairs * flux);
}
