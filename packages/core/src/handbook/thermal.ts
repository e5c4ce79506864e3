/** Heat: ambient figures, insulation classes, derating, what ten degrees cost, air to carry heat away. */
import tables from '../../data/handbook/thermal.json' with { type: 'json' };
import { celsius } from '../units/index.ts';
import { citationOf, requireNumber, type Answer, type Citation } from './citation.ts';

/** Ambient temperatures [K] that rules and tests assume. */
export const ambientFigures: readonly {
  id: string;
  words: string;
  temperature: number;
  citation: Citation;
}[] = tables.ambients.map((row) => ({
  id: row.id,
  words: row.words,
  temperature: celsius(row.temperature_degC),
  citation: citationOf(row),
}));

export type ThermalClass = 'A' | 'E' | 'B' | 'F' | 'H' | 'N';

/** Limit of a winding's insulation class [K]. [IEC60085], from memory */
export function thermalClassLimit(thermalClass: ThermalClass): { value: number; citation: Citation } {
  const row = tables.thermal_classes.rows.find((entry) => entry.class === thermalClass);
  if (!row) throw new RangeError(`thermalClassLimit: class "${thermalClass}" is not A, E, B, F, H or N`);
  return { value: celsius(row.limit_degC), citation: citationOf(tables.thermal_classes) };
}

/** Share of its rating that a machine rated at 40 °C keeps at 50 °C ambient. [CFR46, 183.320(b)] */
export const shareOfFortyDegreeMachineAtFifty = {
  value: tables.machine_derate.factor,
  citation: citationOf(tables.machine_derate),
} as const;

/** Share of the cold rating that an alternator gives in a 60 to 90 °C space, low and high. Common practice. */
export const hotAlternatorShare = {
  low: tables.hot_alternator.low,
  high: tables.hot_alternator.high,
  citation: citationOf(tables.hot_alternator),
} as const;

/** Life of insulation against another temperature.   ratio = 2^(−ΔT / halving)
 *  ΔT hotter [K]; halving 10 K, from 8 to 12 K   Source: [MONTSINGER], from memory   Valid: about ±30 K */
export function insulationLifeRatio(hotterBy: number): {
  typical: number;
  low: number;
  high: number;
  citation: Citation;
} {
  const ratio = (halving: number) => 2 ** (-hotterBy / halving);
  const [short, usual, long] = tables.life_rule.halving_K as [number, number, number];
  const ends = [ratio(short), ratio(long)];
  return {
    typical: ratio(usual),
    low: Math.min(...ends),
    high: Math.max(...ends),
    citation: citationOf(tables.life_rule),
  };
}

/** Air to carry heat away.   V = P / (ρ · c_p · ΔT),  ρ = p / (287.05 · T)
 *  V [m³/s]  P heat [W]  ρ [kg/m³]  c_p 1006 J/(kg·K)  ΔT rise of the air [K]  T inlet [K]  p 101 325 Pa
 *  Source: [TEXTBOOK]   Valid: dry air at sea level   Leaves out: combustion air of the engine, heat through the hull
 *  Errors: RangeError for heat < 0, rise ≤ 0, inlet ≤ 0 */
export function ventilationAirFlow(space: { heat: number; rise: number; inletTemperature?: number }): Answer {
  const { heat, rise, inletTemperature = 293.15 } = space;
  requireNumber('ventilationAirFlow', 'heat', heat, 'W', 'not negative');
  requireNumber('ventilationAirFlow', 'rise', rise, 'K', 'positive');
  requireNumber('ventilationAirFlow', 'inletTemperature', inletTemperature, 'K', 'positive');
  return {
    name: 'air flow for the heat and the rise',
    value: heat / (airDensity(inletTemperature) * AIR_SPECIFIC_HEAT * rise),
    dimension: 'volumeFlow',
    formula: 'V = P / (ρ · c_p · ΔT);  ρ = p / (287.05 · T)',
    inputs: [
      { name: 'heat', value: heat, dimension: 'power' },
      { name: 'rise of the air', value: rise, dimension: 'temperatureDifference' },
      { name: 'inlet temperature', value: inletTemperature, dimension: 'temperature' },
    ],
    citation: {
      source: 'TEXTBOOK',
      clause: 'heat carried by air',
      edition: '',
      seen: 'M',
      confidence: 'high',
    },
  };
}

/** Density of dry air at sea level [kg/m³].   ρ = p / (R · T), R = 287.05 J/(kg·K)   [TEXTBOOK] */
export function airDensity(temperature: number): number {
  requireNumber('airDensity', 'temperature', temperature, 'K', 'positive');
  return 101325 / (287.05 * temperature);
}

/** Case temperature that temperature-limited regulators hold [K], low and high. Common practice. */
export const alternatorCaseLimit = {
  low: celsius(tables.case_limit.low_degC),
  high: celsius(tables.case_limit.high_degC),
  citation: citationOf(tables.case_limit),
} as const;

const AIR_SPECIFIC_HEAT = 1006;
