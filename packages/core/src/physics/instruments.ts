/** Instruments: standard uncertainty of a reading.
 *    limit = a · |x| + k · q + o             σ = limit / √3
 *  x reading  a share of reading  k counts of the last digit, of size q  o fixed part (zero drift, share of full scale)
 *  An error "within ± limit" is taken as uniform, so its standard deviation is limit / √3 [JCGM100 4.3.7, from memory].
 *  AC ranges weaken the ripple above their bandwidth: factor 1 / √(1 + (f / f_c)²).
 *  The figures of the typical instruments are common practice.
 *  Leaves out: a wrong range, a flat meter battery, bad contact of the probe; those are slips, not spread. */
import { requireWithin } from './guard.ts';

export interface InstrumentError {
  /** a [1]. */
  readonly shareOfReading: number;
  /** k. */
  readonly counts: number;
  /** q, in the unit of the reading. */
  readonly resolution: number;
  /** o, in the unit of the reading. */
  readonly fixed: number;
}

/** Digital meter, 20 V DC range: 0.5 % + 2 counts of 10 mV. */
export const METER_DC_20V: InstrumentError = { shareOfReading: 0.005, counts: 2, resolution: 0.01, fixed: 0 };
/** Digital meter, 60 V DC range: 0.5 % + 2 counts of 10 mV. */
export const METER_DC_60V: InstrumentError = { shareOfReading: 0.005, counts: 2, resolution: 0.01, fixed: 0 };
/** Digital meter, 2 V DC range, for drops: 0.5 % + 2 counts of 1 mV. */
export const METER_DC_2V: InstrumentError = { shareOfReading: 0.005, counts: 2, resolution: 0.001, fixed: 0 };
/** Digital meter, AC millivolts: 1.5 % + 5 counts of 1 mV. */
export const METER_AC_2V: InstrumentError = { shareOfReading: 0.015, counts: 5, resolution: 0.001, fixed: 0 };
/** Digital meter, ohms: 1 % + 0.1 Ω of leads, 0.1 Ω resolution. */
export const METER_OHMS: InstrumentError = { shareOfReading: 0.01, counts: 2, resolution: 0.1, fixed: 0.1 };
/** DC clamp, 400 A: 2 % + 3 counts of 0.1 A + 0.5 A of zero drift. */
export const CLAMP_DC_400A: InstrumentError = {
  shareOfReading: 0.02,
  counts: 3,
  resolution: 0.1,
  fixed: 0.5,
};
/** Panel voltmeter 8–16 V, pointer: 3 % of the 16 V scale and reading to 0.2 V. */
export const PANEL_GAUGE_16V: InstrumentError = {
  shareOfReading: 0,
  counts: 1,
  resolution: 0.2,
  fixed: 0.48,
};
/** Panel voltmeter 16–32 V, pointer: 3 % of the 32 V scale and reading to 0.5 V. */
export const PANEL_GAUGE_32V: InstrumentError = {
  shareOfReading: 0,
  counts: 1,
  resolution: 0.5,
  fixed: 0.96,
};

/** Greatest error that the instrument admits, in the unit of the reading. */
export function errorLimit(instrument: InstrumentError, reading: number): number {
  return (
    instrument.shareOfReading * Math.abs(reading) +
    instrument.counts * instrument.resolution +
    instrument.fixed
  );
}

/** Standard uncertainty of a reading, in its unit. */
export function readingSigma(instrument: InstrumentError, reading: number): number {
  return errorLimit(instrument, reading) / Math.sqrt(3);
}

/** What the display shows: the value rounded to the resolution. */
export function displayed(instrument: InstrumentError, value: number): number {
  return Math.round(value / instrument.resolution) * instrument.resolution;
}

/** Share of an AC voltage that a meter of bandwidth `cutoff` [Hz] shows at `frequency` [Hz]. Plain meters: about 1 kHz. */
export function acResponse(frequency: number, cutoff: number): number {
  requireWithin('acResponse', 'cutoff', cutoff, 'Hz', 1, 1e9);
  return 1 / Math.hypot(1, frequency / cutoff);
}
