/** A battery as the circuit solver sees it, whatever its chemistry.
 *    terminal voltage   V = E + f(I)          I [A] main-branch current, charging positive
 *    gassing            I_gas(V)              in parallel with the main branch
 *    terminal current   I_total = I + I_gas(V)
 *  Prepare once per state (`prepareBattery`), then call the two hot functions as often as needed.
 *  Capacity is the charge delivered in 20 h (C20) in coulombs, as it is now; a law that is written for
 *  the 10 h capacity (C10) converts it itself.
 *  State of charge counts coulombs of the main branch against C20, 1 = full. */

import { prepareLeadAcid, leadAcidOverpotential, leadAcidOverpotentialExpression } from './lead-acid.ts';
import { gassingCurrent, gassingExpression } from './lead-acid-gassing.ts';
import { lithiumOverpotential, lithiumOverpotentialExpression, prepareLithium } from './lithium.ts';
import {
  prepareRivalLeadAcid,
  prepareRivalLithium,
  rivalOverpotential,
  rivalOverpotentialExpression,
} from './rival-battery.ts';
import type {
  BatteryLaw,
  BatteryState,
  BatteryStep,
  CurrentAt,
  CurrentOut,
  PreparedBattery,
  VoltageAt,
  VoltageOut,
} from './battery-law.ts';
import {
  polarisationShares,
  relaxPolarisation,
  rememberedPolarisation,
  settledShare,
} from './battery-polarisation.ts';

export type {
  BatteryLaw,
  BatteryState,
  BatteryStep,
  CurrentOut,
  PreparedBattery,
  VoltageOut,
} from './battery-law.ts';

/** Temperatures that a battery law can be asked for [K]. */
export const batteryTemperatureRange = [233, 343] as const;

/** Constants for the hot functions, `elapsed` seconds after the current changed from what left `state`;
 *  Infinity means settled. Writes into `into` when given.
 *  Errors: RangeError for a law or a state outside its range. */
export function prepareBattery(
  law: BatteryLaw,
  state: BatteryState,
  elapsed: number = Infinity,
  into: PreparedBattery = emptyPrepared(),
): PreparedBattery {
  checkLaw(law);
  if (!(elapsed >= 0)) throw new RangeError(`prepareBattery: elapsed = ${elapsed} s, must be ≥ 0`);
  if (!(state.stateOfCharge >= 0 && state.stateOfCharge <= 1)) {
    throw new RangeError(`prepareBattery: stateOfCharge = ${state.stateOfCharge}, must be 0..1`);
  }
  const rival = law.family === 'rival';
  if (law.chemistry === 'lifepo4') {
    if (rival) prepareRivalLithium(law, state.stateOfCharge, into);
    else prepareLithium(law, state.stateOfCharge, into);
  } else if (rival) prepareRivalLeadAcid(law, state.stateOfCharge, into);
  else prepareLeadAcid(law, state.stateOfCharge, into);
  const shares = polarisationShares(law.chemistry);
  into.share = settledShare(shares, elapsed);
  into.offset = rememberedPolarisation(shares, state, elapsed);
  return into;
}

/** Lets the rest voltage of a prepared battery follow the current of a step that it ends, so that a steep end of the
 *  table does not make the step swing:   E → E + dE/dSoC · (I − I_predicted) · step / 2C
 *  step [s], C [C], I_predicted [A]: what the state of charge was prepared for (trapezoidal rule). */
export function followCurrent(
  prepared: PreparedBattery,
  capacity: number,
  step: number,
  predicted: number,
): void {
  const direct = 1 - prepared.share;
  if (direct < 1e-9) return;
  const follows = (prepared.emfSlope * step) / (2 * capacity);
  prepared.ohmicResistance += follows / direct;
  prepared.offset -= follows * predicted;
}

/** Terminal voltage and its slope at the main-branch current `at.current`. Hot: no allocation, one log and exp or sqrt. */
export function terminalVoltageAt(prepared: PreparedBattery, at: VoltageAt): void {
  settledOverpotential(prepared, at);
  const direct = (1 - prepared.share) * prepared.ohmicResistance;
  at.voltage = prepared.emf + prepared.offset + direct * at.current + prepared.share * at.voltage;
  at.dByCurrent = direct + prepared.share * at.dByCurrent;
}

/** The same at a current of its own [A]. */
export function terminalVoltage(prepared: PreparedBattery, current: number, out: VoltageOut): void {
  VOLTAGE_AT.current = current;
  terminalVoltageAt(prepared, VOLTAGE_AT);
  out.voltage = VOLTAGE_AT.voltage;
  out.dByCurrent = VOLTAGE_AT.dByCurrent;
}

/** Current of the gassing branch and its slope at the terminal voltage `at.voltage`. Hot: no allocation, two exp. */
export function gassingAt(prepared: PreparedBattery, at: CurrentAt): void {
  gassingCurrent(prepared, at);
}

/** The same at a voltage of its own [V]. */
export function gassing(prepared: PreparedBattery, voltage: number, out: CurrentOut): void {
  CURRENT_AT.voltage = voltage;
  gassingCurrent(prepared, CURRENT_AT);
  out.current = CURRENT_AT.current;
  out.dByVoltage = CURRENT_AT.dByVoltage;
}

/** Main-branch current that gives a terminal voltage [A]: safeguarded Newton, the law being monotone. */
export function mainCurrentAt(prepared: PreparedBattery, voltage: number): number {
  let low = -1;
  let high = 1;
  terminalVoltage(prepared, low, SCRATCH);
  while (SCRATCH.voltage > voltage) terminalVoltage(prepared, (low *= 4), SCRATCH);
  terminalVoltage(prepared, high, SCRATCH);
  while (SCRATCH.voltage < voltage) terminalVoltage(prepared, (high *= 4), SCRATCH);
  let current = 0;
  for (let iteration = 0; iteration < 200; iteration++) {
    terminalVoltage(prepared, current, SCRATCH);
    const excess = SCRATCH.voltage - voltage;
    if (excess > 0) high = current;
    else low = current;
    if (Math.abs(excess) < 1e-10) break;
    const next = current - excess / SCRATCH.dByCurrent;
    current = next > low && next < high ? next : (low + high) / 2;
  }
  return current;
}

/** Advance `state` in place by `duration` seconds of constant main and gassing current.
 *    ΔSoC = I·t/C20;   polarisation: exact exponentials;   loss = (V̄ − E)·I·t + V̄·I_gas·t
 *  Charge beyond full is lost too: + E·overcharge, counted with the gassing.
 *  heat: losses, less 1.48 V per cell of gassing where the gas vents (flooded); AGM and gel recombine it.
 *  V̄ is the mean of the terminal voltages before and after the step, at the same current.
 *  Errors: RangeError for a negative duration. Leaves out: the change of E and f∞ within the step, and so of
 *  `emfSlope`, which a stiff run needs near the ends of LiFePO4. Keep the step within 1 % of charge. Discharge
 *  below empty is clipped too, and then the energy does not close: the caller ends the run there. */
export function advanceBattery(
  law: BatteryLaw,
  state: BatteryState,
  current: number,
  gassingCurrent: number,
  duration: number,
  out: BatteryStep = emptyStep(),
): BatteryStep {
  prepareBattery(law, state, 0, PREPARED);
  return advancePrepared(law, state, PREPARED, current, gassingCurrent, duration, out);
}

/** The same where `prepared` is already that of `law` and `state`, 0 s after a change; it is that of the new state then. Hot. */
export function advancePrepared(
  law: BatteryLaw,
  state: BatteryState,
  prepared: PreparedBattery,
  current: number,
  gassingCurrent: number,
  duration: number,
  out: BatteryStep,
): BatteryStep {
  if (!(duration >= 0)) throw new RangeError(`advanceBattery: duration = ${duration} s, must be ≥ 0`);
  const emfBefore = prepared.emf;
  const shareBefore = state.stateOfCharge;
  terminalVoltage(prepared, current, SCRATCH);
  const before = SCRATCH.voltage;
  VOLTAGE_AT.current = current;
  settledOverpotential(prepared, VOLTAGE_AT);
  const settled = VOLTAGE_AT.voltage - prepared.ohmicResistance * current;
  relaxPolarisation(polarisationShares(law.chemistry), state, settled, current, law.capacity, duration);
  const wanted = shareBefore + (current * duration) / law.capacity;
  state.stateOfCharge = Math.min(1, Math.max(0, wanted));
  out.clippedCharge = (wanted - state.stateOfCharge) * law.capacity;
  prepareBattery(law, state, 0, prepared);
  terminalVoltage(prepared, current, SCRATCH);
  const mean = (before + SCRATCH.voltage) / 2;
  const emf = (emfBefore + prepared.emf) / 2;
  out.stored = emf * (state.stateOfCharge - shareBefore) * law.capacity;
  out.mainLoss = (mean - emf) * current * duration;
  const overcharge = Math.max(0, out.clippedCharge);
  const vented = ventedVoltage(law) * (gassingCurrent * duration + overcharge);
  out.gassingLoss = mean * gassingCurrent * duration + emf * overcharge;
  out.heat = out.mainLoss + Math.max(0, out.gassingLoss - vented);
  return out;
}

/** A battery that has rested long enough for every memory to fade. */
export function restedState(stateOfCharge: number): BatteryState {
  return { stateOfCharge, polarisation: 0, slowPolarisation: 0, surfaceCharge: 0 };
}

/** A battery that has carried `current` for hours (loads before the engine started, say). */
export function settledState(law: BatteryLaw, stateOfCharge: number, current: number): BatteryState {
  const prepared = prepareBattery(law, restedState(stateOfCharge), Infinity, PREPARED);
  VOLTAGE_AT.current = current;
  settledOverpotential(prepared, VOLTAGE_AT);
  const settled = VOLTAGE_AT.voltage - prepared.ohmicResistance * current;
  return { stateOfCharge, polarisation: settled, slowPolarisation: settled, surfaceCharge: settled };
}

/** V(I) as text for a circuit simulator: `+ − * / pow sqrt max` and numbers only.
 *  `current` is the text of the main-branch current, charging positive, e.g. `i(vsense)`. */
export function terminalVoltageExpression(prepared: PreparedBattery, current: string): string {
  const overpotential =
    prepared.family === 0
      ? leadAcidOverpotentialExpression(prepared, current)
      : prepared.family === 1
        ? lithiumOverpotentialExpression(prepared, current)
        : rivalOverpotentialExpression(prepared, current);
  const direct = (1 - prepared.share) * prepared.ohmicResistance;
  return `(${prepared.emf + prepared.offset}+${direct}*(${current})+${prepared.share}*(${overpotential}))`;
}

/** I_gas(V) as text for a circuit simulator; `voltage` is the text of the terminal voltage, e.g. `v(b)`. */
export function gassingCurrentExpression(prepared: PreparedBattery, voltage: string): string {
  return gassingExpression(prepared, voltage);
}

/** Thermoneutral voltage of splitting water, carried off as gas [V]. Source: textbook, from memory. */
function ventedVoltage(law: BatteryLaw): number {
  return law.chemistry === 'flooded' ? 1.48 * (law.cells - law.shortedCells) : 0;
}

function settledOverpotential(prepared: PreparedBattery, at: VoltageAt): void {
  if (prepared.family === 0) leadAcidOverpotential(prepared, at);
  else if (prepared.family === 1) lithiumOverpotential(prepared, at);
  else rivalOverpotential(prepared, at);
}

function checkLaw(law: BatteryLaw): void {
  if (!(Number.isInteger(law.cells) && law.cells >= 1 && law.cells <= 48)) {
    throw new RangeError(`prepareBattery: cells = ${law.cells}, must be a whole number 1..48`);
  }
  if (!(Number.isInteger(law.shortedCells) && law.shortedCells >= 0 && law.shortedCells < law.cells)) {
    throw new RangeError(
      `prepareBattery: shortedCells = ${law.shortedCells}, must be a whole number 0..${law.cells - 1}`,
    );
  }
  if (!(law.capacity > 0)) throw new RangeError(`prepareBattery: capacity = ${law.capacity} C, must be > 0`);
  if (!(law.resistanceFactor > 0)) {
    throw new RangeError(`prepareBattery: resistanceFactor = ${law.resistanceFactor}, must be > 0`);
  }
  if (!(law.sulphation >= 0 && law.sulphation <= 1)) {
    throw new RangeError(`prepareBattery: sulphation = ${law.sulphation}, must be 0..1`);
  }
  const [coldest, hottest] = batteryTemperatureRange;
  if (!(law.temperature >= coldest && law.temperature <= hottest)) {
    throw new RangeError(
      `prepareBattery: temperature = ${law.temperature} K, must be ${coldest}..${hottest} K`,
    );
  }
}

/** Room for what a step gives. */
export const emptyStep = (): BatteryStep => ({
  stored: 0,
  mainLoss: 0,
  gassingLoss: 0,
  heat: 0,
  clippedCharge: 0,
});

/** Room for the constants of one battery. */
export function emptyPrepared(): PreparedBattery {
  return {
    family: 0,
    emf: 0,
    emfSlope: 0,
    offset: 0,
    ohmicResistance: 0,
    share: 1,
    perAmpere: 0,
    chargeScale: 0,
    chargeConstant: 0,
    dischargeScale: 0,
    dischargeConstant: 0,
    slopeStep: 0,
    linearResistance: 0,
    rampResistance: 0,
    rampWidth: 1,
    gassingCells: 0,
    gassingConductance: 0,
  };
}

const VOLTAGE_AT: VoltageAt = { current: 0, voltage: 0, dByCurrent: 0 };
const CURRENT_AT: CurrentAt = { voltage: 0, current: 0, dByVoltage: 0 };
const SCRATCH: VoltageOut = { voltage: 0, dByCurrent: 0 };
const PREPARED: PreparedBattery = emptyPrepared();
