/** Fuel of a small marine diesel against speed and load (Willans line). data/handbook/fuel.json */
import table from '../../data/handbook/fuel.json' with { type: 'json' };
import { citationOf, requireNumber, type Citation } from './citation.ts';

const LITRE = 1e-3;
const KILOWATT_HOUR = 3.6e6;

/** Fuel that more load takes [m³/J], part load. Common practice, from memory. */
export const fuelForLoad: { readonly value: number; readonly citation: Citation } = {
  value: (table.load.litres_per_kWh * LITRE) / KILOWATT_HOUR,
  citation: citationOf(table.load),
};

/** Fuel of turning without load [m³/s].   V' = c · P_rated · n / n_rated
 *  P_rated [W]  n, n_rated [rad/s]  c 0.06 L/h for each rated kW   Source: common practice, from memory
 *  Leaves out: cold running, propeller load   Errors: RangeError for values below 0 */
export function fuelWithoutLoad(
  engine: { readonly ratedPower: number; readonly ratedSpeed: number },
  speed: number,
): { readonly value: number; readonly citation: Citation } {
  requireNumber('fuelWithoutLoad', 'ratedPower', engine.ratedPower, 'W', 'positive');
  requireNumber('fuelWithoutLoad', 'ratedSpeed', engine.ratedSpeed, 'rad/s', 'positive');
  requireNumber('fuelWithoutLoad', 'speed', speed, 'rad/s', 'not negative');
  const perWatt = (table.no_load.litres_per_hour_per_kW * LITRE) / 3600 / 1000;
  return {
    value: perWatt * engine.ratedPower * (speed / engine.ratedSpeed),
    citation: citationOf(table.no_load),
  };
}
