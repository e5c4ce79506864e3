/** A second, independent description of both families, behind the same interface: for checks and benchmarks.
 *  Lead-acid after Jackey and Ceraolo (per cell, 50 Ah set, charging positive, D = 1 − s):
 *    E = 2.18 − 0.0006·(273 + θ)·D
 *    f∞ = [R0 + R1]·I + R2·ramp(I)
 *    R0 = R00·(1 + A0·D)   R1 = −R10·ln(s)   R2 = R20·exp(A21·D)
 *    ramp(I) = (I + sqrt(I² + w²) − w)/2,  w = 2·Is/|A22|
 *  Published is R2·I/(1 + exp(A22·I/Is)), which is not monotone in I on discharge near full; the ramp has the
 *  same limits (0 on discharge, R2·I on charge) and is. Resistances scale by 50 Ah/C20, Is by C20/50 Ah.
 *  Source: [JACKEY2007] set in data/batteries/rival.json. Gassing is shared with the main law: same source.
 *  LiFePO4 from electrode curves, V vs lithium:
 *    E = U₊(s₊) − U₋(s₋),  s₋ = 0.0176..0.81,  s₊ = 0.62..0.0038 as charge goes 0..1
 *    U₊ = 3.4077 − 0.020269 s + 0.5 e^(−150 s) − 0.9 e^(−30(1−s))
 *    U₋ = 1.9793 e^(−39.3631 s) + 0.2482 − 0.0909 tanh(29.8538(s − 0.1234))
 *         − 0.04478 tanh(14.9159(s − 0.2769)) − 0.0205 tanh(30.4444(s − 0.6103))
 *  Source: U₊ [AFSHAR], U₋ [CHEN], ends at full [PRADA]; s₊ at empty is an estimate (it moves E by < 15 mV).
 *  Valid: room temperature.  Leaves out: hysteresis. */

import rival from '../../data/batteries/rival.json' with { type: 'json' };

import type { BatteryLaw, PreparedBattery, VoltageAt } from './battery-law.ts';
import { prepareGassing } from './lead-acid-gassing.ts';
import { prepareLithium } from './lithium.ts';

/** Fill the constants of the rival lead-acid law. All lead-acid chemistries use the one published set. */
export function prepareRivalLeadAcid(law: BatteryLaw, stateOfCharge: number, into: PreparedBattery): void {
  const set = rival.leadAcid;
  const active = law.cells - law.shortedCells;
  const depth = 1 - stateOfCharge;
  const size = law.capacity / (set.capacity_Ah * 3600);
  const scale = (active * law.resistanceFactor) / size;
  const celsius = law.temperature - 273.15;
  into.family = 2;
  into.emf = active * (set.Em0_V - set.Ke_V_per_K * (273 + celsius) * depth);
  into.emfSlope = active * set.Ke_V_per_K * (273 + celsius);
  into.ohmicResistance = scale * set.R00_ohm * (1 + set.A0 * depth);
  into.linearResistance =
    into.ohmicResistance - scale * set.R10_ohm * Math.log(Math.max(0.02, stateOfCharge));
  into.rampResistance = scale * set.R20_ohm * Math.exp(set.A21 * depth) * (1 + 4 * law.sulphation);
  into.rampWidth = (2 * set.Istar_A * size) / Math.abs(set.A22);
  prepareGassing(law, active, 1, into);
}

/** Fill the constants of the rival LiFePO4 law: another rest voltage, resistance a fifth higher. */
export function prepareRivalLithium(law: BatteryLaw, stateOfCharge: number, into: PreparedBattery): void {
  prepareLithium(law, stateOfCharge, into);
  into.emf = (law.cells - law.shortedCells) * lithiumVoltageFromElectrodes(stateOfCharge);
  const half = 0.0005;
  into.emfSlope =
    ((law.cells - law.shortedCells) / (2 * half)) *
    (lithiumVoltageFromElectrodes(stateOfCharge + half) - lithiumVoltageFromElectrodes(stateOfCharge - half));
  into.linearResistance *= 1.2;
}

/** Settled f∞(I) of the rival lead-acid law. Hot: one sqrt, no allocation. */
export function rivalOverpotential(p: PreparedBattery, at: VoltageAt): void {
  const { current } = at;
  const root = Math.sqrt(current * current + p.rampWidth * p.rampWidth);
  at.voltage = p.linearResistance * current + 0.5 * p.rampResistance * (current + root - p.rampWidth);
  at.dByCurrent = p.linearResistance + 0.5 * p.rampResistance * (1 + current / root);
}

/** The same law as text. */
export function rivalOverpotentialExpression(p: PreparedBattery, current: string): string {
  const width = p.rampWidth;
  return (
    `(${p.linearResistance}*(${current})` +
    `+${0.5 * p.rampResistance}*((${current})+sqrt((${current})*(${current})+${width * width})-${width}))`
  );
}

/** Rest voltage of a LiFePO4 cell from its electrodes [V]; charge 0..1. */
export function lithiumVoltageFromElectrodes(stateOfCharge: number): number {
  const set = rival.lithium;
  const negative = set.negativeEmpty + (set.negativeFull - set.negativeEmpty) * stateOfCharge;
  const positive = set.positiveEmpty + (set.positiveFull - set.positiveEmpty) * stateOfCharge;
  return ironPhosphateVoltageAfshar(positive) - graphiteVoltageChen(negative);
}

/** LiFePO4 against lithium [V], s = lithium fraction 0..1. Source: [AFSHAR] */
export function ironPhosphateVoltageAfshar(s: number): number {
  return 3.4077 - 0.020269 * s + 0.5 * Math.exp(-150 * s) - 0.9 * Math.exp(-30 * (1 - s));
}

/** Graphite against lithium [V], s = lithium fraction 0..1. Source: [CHEN] */
export function graphiteVoltageChen(s: number): number {
  return (
    1.9793 * Math.exp(-39.3631 * s) +
    0.2482 -
    0.0909 * Math.tanh(29.8538 * (s - 0.1234)) -
    0.04478 * Math.tanh(14.9159 * (s - 0.2769)) -
    0.0205 * Math.tanh(30.4444 * (s - 0.6103))
  );
}
