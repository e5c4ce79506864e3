/** SI values of the units written most often in code and tests: `celsius(35)` is 308.15 K.
 *  Only for constants; quantities from outside go through `toSI`, which checks them. */
import { requireSI } from './convert.ts';

/** °C → K */
export const celsius = (value: number): number => requireSI({ value, unit: 'degC' }, 'temperature');
/** °F → K */
export const fahrenheit = (value: number): number => requireSI({ value, unit: 'degF' }, 'temperature');
/** min⁻¹ → rad/s */
export const revolutionsPerMinute = (value: number): number => requireSI({ value, unit: 'rpm' }, 'speed');
/** Ah → C */
export const ampereHours = (value: number): number => requireSI({ value, unit: 'Ah' }, 'charge');
/** mm² → m² */
export const squareMillimetres = (value: number): number => requireSI({ value, unit: 'mm2' }, 'area');
/** AWG number (1/0 is 0, 2/0 is −1 …) → m² */
export const wireGauge = (value: number): number => requireSI({ value, unit: 'AWG' }, 'area');
/** circular mil → m² */
export const circularMils = (value: number): number => requireSI({ value, unit: 'cmil' }, 'area');
/** ft → m */
export const feet = (value: number): number => requireSI({ value, unit: 'ft' }, 'length');
/** in → m */
export const inches = (value: number): number => requireSI({ value, unit: 'in' }, 'length');
/** mm → m */
export const millimetres = (value: number): number => requireSI({ value, unit: 'mm' }, 'length');
/** mΩ → Ω */
export const milliohms = (value: number): number => requireSI({ value, unit: 'mohm' }, 'resistance');
/** hp (550 ft·lbf/s) → W */
export const horsepower = (value: number): number => requireSI({ value, unit: 'hp' }, 'power');
/** min → s */
export const minutes = (value: number): number => requireSI({ value, unit: 'min' }, 'time');
/** h → s */
export const hours = (value: number): number => requireSI({ value, unit: 'h' }, 'time');
/** lbf → N */
export const poundsForce = (value: number): number => requireSI({ value, unit: 'lbf' }, 'force');
