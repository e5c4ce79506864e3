/** Time-step simulation of a star-connected machine, its bridge and a steady bus: a second answer to what the closed form
 *  and the fault table say. Backward Euler on L·di/dt + R·i = e − v(i) − v_n per phase, Σ i = 0; a phase terminal sits at
 *  V + V_d while it feeds the plus, at −V_d while it returns from the minus, and carries nothing between. Each step is exact:
 *  the currents are a falling function of the star point v_n, found by bisection. No smoothing, no Newton. */
import type { AlternatorMachine } from '../../src/physics/alternator.ts';
import { alternatorFlux } from '../../src/physics/alternator.ts';

export type BridgeState = 'healthy' | 'diode-open' | 'diode-shorted' | 'phase-open';

export interface BridgeResult {
  /** Mean output current [A]. */
  readonly mean: number;
  /** RMS of its AC part over its mean. */
  readonly ripple: number;
  /** Order (1–12) of the strongest harmonic of the output current. */
  readonly strongest: number;
}

const STEPS = 720;
const CYCLES = 25;

export function simulatedBridge(
  machine: AlternatorMachine,
  speed: number,
  fieldCurrent: number,
  voltage: number,
  state: BridgeState,
): BridgeResult {
  const electrical = machine.polePairs * speed;
  const amplitude = electrical * alternatorFlux(machine, fieldCurrent);
  const dt = (2 * Math.PI) / electrical / STEPS;
  const inertia = machine.synchronousInductance / dt;
  const stiffness = inertia + machine.statorResistance20;
  const top = voltage + machine.diodeDrop;
  const bottom = -machine.diodeDrop;
  const tops = [state === 'diode-open' ? Infinity : top, top, top];

  const currentAt = (phase: number, drive: number): number => {
    if (phase === 0 && state === 'phase-open') return 0;
    if (phase === 0 && state === 'diode-shorted') return (drive - voltage) / stiffness;
    const up = drive - tops[phase]!;
    if (up > 0) return up / stiffness;
    const down = drive - bottom;
    return down < 0 ? down / stiffness : 0;
  };

  const currents = [0, 0, 0];
  const drives = [0, 0, 0];
  const cycle: number[] = [];
  for (let step = 1; step <= STEPS * CYCLES; step++) {
    const angle = (2 * Math.PI * step) / STEPS;
    for (let phase = 0; phase < 3; phase++) {
      drives[phase] = amplitude * Math.sin(angle - (2 * Math.PI * phase) / 3) + inertia * currents[phase]!;
    }
    let low = -2000;
    let high = 2000;
    for (let pass = 0; pass < 44; pass++) {
      const star = (low + high) / 2;
      const sum =
        currentAt(0, drives[0]! - star) + currentAt(1, drives[1]! - star) + currentAt(2, drives[2]! - star);
      if (sum > 0) low = star;
      else high = star;
    }
    let output = 0;
    for (let phase = 0; phase < 3; phase++) {
      const current = currentAt(phase, drives[phase]! - (low + high) / 2);
      currents[phase] = current;
      output += phase === 0 && state === 'diode-shorted' ? current : Math.max(current, 0);
    }
    if (step > STEPS * (CYCLES - 1)) cycle.push(output);
  }
  const mean = cycle.reduce((sum, value) => sum + value, 0) / STEPS;
  const squares = cycle.reduce((sum, value) => sum + (value - mean) ** 2, 0) / STEPS;
  let strongest = 0;
  let largest = 0;
  for (let order = 1; order <= 12; order++) {
    let cosine = 0;
    let sine = 0;
    cycle.forEach((value, k) => {
      cosine += value * Math.cos((2 * Math.PI * order * k) / STEPS);
      sine += value * Math.sin((2 * Math.PI * order * k) / STEPS);
    });
    if (Math.hypot(cosine, sine) > largest) {
      largest = Math.hypot(cosine, sine);
      strongest = order;
    }
  }
  return { mean, ripple: Math.sqrt(squares) / mean, strongest };
}
