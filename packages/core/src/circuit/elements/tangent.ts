/** A law of two terminals stamped as its tangent at a voltage that the element holds for itself.
 *    I ≈ I(V_own) + dI/dV (V − V_own)      error = |V − V_own| · max(dI/dV, 1 S)
 *  At least 1 S, so that a step held back where the law is flat is seen as an error.
 */
import type { Stamps } from '../element.ts';

/** `at`: the law at the own voltage, current into the first terminal. Hot. */
export function stampTangent(
  terminals: readonly [number, number],
  at: { readonly voltage: number; readonly current: number; readonly dByVoltage: number },
  voltages: Float64Array,
  stamps: Stamps,
  slots: Int32Array,
): void {
  const from = terminals[0];
  const to = terminals[1];
  const conductance = at.dByVoltage;
  const gap = voltages[from]! - voltages[to]! - at.voltage;
  const current = at.current + conductance * gap;
  const error = Math.abs(gap) * Math.max(conductance, 1);
  if (!(error <= stamps.lawError)) {
    stamps.lawError = error;
    stamps.lawNode = from === 0 ? to : from;
  }
  stamps.injected[from]! += current;
  stamps.injected[to]! -= current;
  stamps.matrix[slots[0]!]! += conductance;
  stamps.matrix[slots[1]!]! -= conductance;
  stamps.matrix[slots[2]!]! -= conductance;
  stamps.matrix[slots[3]!]! += conductance;
}
