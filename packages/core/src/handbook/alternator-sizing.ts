/** Alternator to bank and to engine: charging share by chemistry, shaft power, test speeds, efficiency figures. */
import table from '../../data/handbook/alternator-sizing.json' with { type: 'json' };
import { requireSI, revolutionsPerMinute } from '../units/index.ts';
import { chargingSetPoints, type BatteryTableName } from './batteries.ts';
import { citationOf, requireNumber, type Answer, type Citation } from './citation.ts';
import { hotAlternatorShare } from './thermal.ts';

export interface AlternatorWindow {
  /** Cold rating [A] that serves the loads and the low end of the usual charging share, in a hot space at its worst. */
  readonly least: Answer;
  /** Rating [A] above which the bank cannot use more, hot output at its best. */
  readonly most: Answer;
  readonly citation: Citation;
}

/** Ratings that suit a bank.   least = (low · C20/h + loads) / hot share at worst;  most = (high · C20/h + loads) / at best
 *  low, high: usual charging current over C20 by chemistry (common practice); hot share 0.75 to 0.90
 *  capacity C20 [C], loads [A] running while charging   Errors: RangeError for capacity ≤ 0 or loads < 0 */
export function alternatorRatingForBank(bank: {
  chemistry: BatteryTableName;
  capacity: number;
  loads: number;
}): AlternatorWindow {
  requireNumber('alternatorRatingForBank', 'capacity', bank.capacity, 'C', 'positive');
  requireNumber('alternatorRatingForBank', 'loads', bank.loads, 'A', 'not negative');
  const [low, high] = chargingSetPoints(bank.chemistry).chargeCurrentRatio;
  const citation = citationOf(table.charge_share);
  const answer = (name: string, share: number, hot: number): Answer => ({
    name,
    value: ((share * bank.capacity) / 3600 + bank.loads) / hot,
    dimension: 'current',
    formula: 'rating = (share · C20 per hour + loads) / hot share',
    inputs: [
      { name: 'capacity, 20-hour', value: bank.capacity, dimension: 'charge' },
      { name: 'charging share of C20', value: share, dimension: 'ratio' },
      { name: 'loads while charging', value: bank.loads, dimension: 'current' },
      { name: 'hot share of the rating', value: hot, dimension: 'ratio' },
    ],
    citation,
  });
  return {
    least: answer('least alternator rating', low, hotAlternatorShare.low),
    most: answer('most that the bank can use', high, hotAlternatorShare.high),
    citation,
  };
}

/** Shaft power for an output.   P = U · I / η
 *  P [W]  U [V]  I [A]  η 0.5 at full load unless known   Source: definition; η [NEACSU]
 *  Errors: RangeError for values ≤ 0 or η > 1 */
export function shaftPowerForOutput(output: {
  current: number;
  voltage: number;
  efficiency?: number;
}): Answer {
  const { current, voltage, efficiency = table.full_load_efficiency.value } = output;
  requireNumber('shaftPowerForOutput', 'current', current, 'A', 'positive');
  requireNumber('shaftPowerForOutput', 'voltage', voltage, 'V', 'positive');
  if (!(efficiency > 0 && efficiency <= 1))
    throw new RangeError(`shaftPowerForOutput: efficiency ${efficiency} must lie above 0 and at most 1`);
  return {
    name: 'shaft power',
    value: (voltage * current) / efficiency,
    dimension: 'power',
    formula: 'P = U · I / η',
    inputs: [
      { name: 'output current', value: current, dimension: 'current' },
      { name: 'output voltage', value: voltage, dimension: 'voltage' },
      { name: 'efficiency', value: efficiency, dimension: 'ratio' },
    ],
    citation: citationOf(table.full_load_efficiency),
  };
}

/** Amps that one horsepower [550 ft·lbf/s] of shaft gives.   I = 745.7 W · η / U */
export function currentPerHorsepower(voltage: number, efficiency: number): number {
  return (requireSI({ value: 1, unit: 'hp' }, 'power') * efficiency) / voltage;
}

/** The shop's rule: one engine horsepower for each 25 A at 14 V [W/A]. Common practice; it implies η of 0.47. */
export const shopRule = {
  powerPerAmpere: requireSI({ value: 1, unit: 'hp' }, 'power') / table.shop_rule.amps_per_hp,
  citation: citationOf(table.shop_rule),
} as const;

/** Share of the engine's power that the alternator takes. Margin: against what is left at `powerAvailable` [W]. */
export function engineShareForOutput(load: {
  current: number;
  voltage: number;
  powerAvailable: number;
  efficiency?: number;
}): Answer {
  requireNumber('engineShareForOutput', 'powerAvailable', load.powerAvailable, 'W', 'positive');
  const shaft = shaftPowerForOutput(load);
  const share = shaft.value / load.powerAvailable;
  return {
    name: 'share of engine power',
    value: share,
    dimension: 'ratio',
    formula: 'share = U · I / (η · engine power at that speed)',
    inputs: [
      ...shaft.inputs,
      { name: 'engine power at that speed', value: load.powerAvailable, dimension: 'power' },
    ],
    citation: shaft.citation,
    margin: 1 - share,
  };
}

/** Standard test conditions. [ISO8854]; speeds and voltages from memory (low speed 1500 min⁻¹ in 1988, 1800 in 2012). */
export const standardTest = {
  ratedSpeed: revolutionsPerMinute(table.standard_test.rated_rpm),
  lowSpeed1988: revolutionsPerMinute(table.standard_test.low_rpm_1988),
  lowSpeed2012: revolutionsPerMinute(table.standard_test.low_rpm_2012),
  /** V for 12 V and 24 V machines. */
  testVoltage: { 12: table.standard_test.voltage_12_V, 24: table.standard_test.voltage_24_V },
  citation: citationOf(table.standard_test),
} as const;

/** Nameplate designation "70/140 A 14 V": amps at low speed, rated amps, voltage. undefined when it is none. [ISO8854] */
export function designationOf(
  nameplate: string,
): { lowSpeedCurrent: number; ratedCurrent: number; voltage: number } | undefined {
  const match = /(\d+)\s*[/-]\s*(\d+)\s*A\D*?(\d+(?:[.,]\d+)?)\s*V/i.exec(nameplate);
  if (!match) return undefined;
  const lowSpeedCurrent = Number(match[1]);
  const ratedCurrent = Number(match[2]);
  if (!(lowSpeedCurrent > 0 && lowSpeedCurrent < ratedCurrent)) return undefined;
  return { lowSpeedCurrent, ratedCurrent, voltage: Number(match[3]!.replace(',', '.')) };
}

/** EU weighted efficiency of a machine from its efficiency at half rated current and 14.3 V.
 *    η = 0.25 η(1800) + 0.40 η(3000) + 0.25 η(6000) + 0.10 η(10 000 min⁻¹)
 *  Source: [EU785, table 1]: weights and points seen, sum formula from memory   Errors: RangeError outside 0..1 */
export function weightedEfficiencyEU(at: {
  rpm1800: number;
  rpm3000: number;
  rpm6000: number;
  rpm10000: number;
}): number {
  for (const [name, value] of Object.entries(at))
    if (!(value >= 0 && value <= 1))
      throw new RangeError(`weightedEfficiencyEU: ${name} ${value} must lie between 0 and 1`);
  const [low, middle, high, top] = table.eu_efficiency.weights as [number, number, number, number];
  return low * at.rpm1800 + middle * at.rpm3000 + high * at.rpm6000 + top * at.rpm10000;
}

/** Shaft power saved by a better machine [W].   P / η_old − P / η_new   [EU785, formulae 3 to 5; from memory] */
export function shaftPowerSaved(output: number, efficiencyOld: number, efficiencyNew: number): number {
  requireNumber('shaftPowerSaved', 'efficiencyOld', efficiencyOld, '', 'positive');
  requireNumber('shaftPowerSaved', 'efficiencyNew', efficiencyNew, '', 'positive');
  return output / efficiencyOld - output / efficiencyNew;
}

/** EU baseline machine at half load. [EU785] */
export const baselineEfficiencyEU = {
  value: table.eu_efficiency.baseline,
  citation: citationOf(table.eu_efficiency),
} as const;
