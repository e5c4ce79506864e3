/** Voltage regulator: duty of the field, set-point, stages, start delay and ramp, heat limits.
 *    d = softClamp(g · (V_set − V_sense), d_max)                    width 0.005
 *    V_set(T) = V_25 + c · (T − 298.15)
 *    d_max = field cap · ramp(t) · heat factor
 *  d duty, 0 to 1  g gain [1/V]  V_set, V_sense [V]  c temperature compensation [V/K]  T at the battery [K]
 *  With finite gain the voltage settles below V_set by d / g, and falls as load grows: an ordinary, visible droop.
 *  Source: proportional control; compensation −5 mV/K per cell of flooded lead-acid, common practice
 *  (14.40 V at 25 °C gives 14.85 V at 10 °C and 13.95 V at 40 °C).
 *  Leaves out: chopping frequency, integral action. Duty falls with sensed voltage. */
import { requireWithin } from './guard.ts';
import { softClamp, softClampSlope, softClampSpice, spiceNumber } from './smooth.ts';

export type ChargeStage = 'bulk' | 'absorption' | 'float';
export type RegulatorState = 'normal' | 'dead' | 'stuck-full';

export interface RegulatorSettings {
  /** g [1/V]; full field over 1/g volts. Common practice: 5–20 at 12 V. */
  readonly gain: number;
  /** Set-points at 298.15 K [V]. A plain regulator has both alike. */
  readonly absorptionVoltage: number;
  readonly floatVoltage: number;
  /** c [V/K] for the whole battery, negative for lead-acid, 0 for lithium. */
  readonly temperatureCompensation: number;
  /** Compensation acts between these battery temperatures and holds outside [K]. */
  readonly compensationRange: readonly [low: number, high: number];
  /** Greatest duty it will ever use, 0–1. */
  readonly fieldCap: number;
  /** Seconds from enable to first field, then seconds to ramp up [s]. */
  readonly startDelay: number;
  readonly rampTime: number;
}

/** What `regulatorDuty` fills in. */
export interface RegulatorDuty {
  duty: number;
  /** ∂ duty / ∂ sensed voltage [1/V], ≤ 0. */
  dBySensed: number;
}

/** Width of the smooth corners of the duty. */
export const DUTY_WIDTH = 0.005;

/** A plain integral regulator: one set-point, no stages, −10 mV/K, no delay (common practice, 12 V; 24 V is twice). */
export function plainRegulator(nominalVoltage: 12 | 24): RegulatorSettings {
  const times = nominalVoltage / 12;
  return {
    gain: 10 / times,
    absorptionVoltage: 14.3 * times,
    floatVoltage: 14.3 * times,
    temperatureCompensation: -0.01 * times,
    compensationRange: [253.15, 353.15],
    fieldCap: 1,
    startDelay: 0,
    rampTime: 2,
  };
}

/** Duty and its slope. `cap` from `dutyCap`. HOT: no allocation; writes `out`. */
export function regulatorDuty(
  gain: number,
  setpoint: number,
  sensedVoltage: number,
  cap: number,
  out: RegulatorDuty,
): void {
  const demand = gain * (setpoint - sensedVoltage);
  out.duty = softClamp(demand, cap, DUTY_WIDTH);
  out.dBySensed = -gain * softClampSlope(demand, cap, DUTY_WIDTH);
}

/** `regulatorDuty` as ngspice text; `sensed` is an ngspice expression. */
export function regulatorDutySpice(gain: number, setpoint: number, cap: number, sensed: string): string {
  return softClampSpice(`(${spiceNumber(gain)}*(${spiceNumber(setpoint)}-(${sensed})))`, cap, DUTY_WIDTH);
}

/** Set-point of a stage at a battery temperature [V]. */
export function regulatorSetpoint(
  settings: RegulatorSettings,
  stage: ChargeStage,
  batteryTemperature: number,
): number {
  requireWithin('regulatorSetpoint', 'batteryTemperature', batteryTemperature, 'K', 200, 400);
  const [low, high] = settings.compensationRange;
  const held = Math.min(Math.max(batteryTemperature, low), high);
  const base = stage === 'float' ? settings.floatVoltage : settings.absorptionVoltage;
  return base + settings.temperatureCompensation * (held - 298.15);
}

/** Greatest duty now: cap · ramp · heat factor; 0 when dead, and before the start delay ends.
 *  `secondsEnabled` since the enable wire came on [s]; `heatFactor` 0–1 from `heatLimitFactor`. */
export function dutyCap(
  settings: RegulatorSettings,
  state: RegulatorState,
  secondsEnabled: number,
  heatFactor: number,
): number {
  if (state === 'dead') return 0;
  if (state === 'stuck-full') return 1;
  return settings.fieldCap * startRamp(settings.startDelay, settings.rampTime, secondsEnabled) * heatFactor;
}

/** Share of the cap allowed so long after enable: 0 during the delay, then straight up to 1 [0–1]. */
export function startRamp(startDelay: number, rampTime: number, secondsEnabled: number): number {
  if (secondsEnabled <= startDelay) return 0;
  if (rampTime <= 0) return 1;
  return Math.min((secondsEnabled - startDelay) / rampTime, 1);
}

/** Field allowed at a temperature [0–1]: 1 below `limit` − `band`/2, `floor` above `limit` + `band`/2, smooth between.
 *  Used for the alternator (case about 373–383 K) and for the regulator itself. Set-points are common practice. */
export function heatLimitFactor(temperature: number, limit: number, band: number, floor: number): number {
  const x = Math.min(Math.max((temperature - limit) / band + 0.5, 0), 1);
  return 1 - (1 - floor) * x * x * (3 - 2 * x);
}

export interface StageRules {
  /** Absorption begins within this of its set-point [V]. */
  readonly absorptionMargin: number;
  /** Float begins when charge current is below this share of the 20 h capacity per hour [1/h]. */
  readonly tailCurrentShare: number;
  /** ... or after so long in absorption [s]. */
  readonly longestAbsorption: number;
  /** Back to bulk when voltage has been below float by this [V]. */
  readonly rebulkMargin: number;
}

/** Tail 2 % of C20, longest absorption 4 h. Common practice; per 12 V. */
export const TYPICAL_STAGE_RULES: StageRules = {
  absorptionMargin: 0.1,
  tailCurrentShare: 0.02,
  longestAbsorption: 4 * 3600,
  rebulkMargin: 0.5,
};

export interface StageReading {
  readonly sensedVoltage: number;
  /** Into the battery [A]. */
  readonly chargeCurrent: number;
  /** 20 h capacity [C]. */
  readonly capacity: number;
  readonly secondsInStage: number;
}

/** The stage after this reading: bulk → absorption → float, and float → bulk when the voltage falls away. */
export function nextStage(
  settings: RegulatorSettings,
  rules: StageRules,
  stage: ChargeStage,
  reading: StageReading,
  batteryTemperature: number,
): ChargeStage {
  const absorption = regulatorSetpoint(settings, 'absorption', batteryTemperature);
  const float = regulatorSetpoint(settings, 'float', batteryTemperature);
  switch (stage) {
    case 'bulk':
      return reading.sensedVoltage >= absorption - rules.absorptionMargin ? 'absorption' : 'bulk';
    case 'absorption': {
      const tail = (rules.tailCurrentShare * reading.capacity) / 3600;
      const done = reading.chargeCurrent <= tail || reading.secondsInStage >= rules.longestAbsorption;
      return done ? 'float' : 'absorption';
    }
    case 'float':
      return reading.sensedVoltage < float - rules.rebulkMargin ? 'bulk' : 'float';
  }
}
