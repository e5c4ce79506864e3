/** A machine fitted to what the nameplate says.
 *  At full field, i_F = (V_t − V_b) / R_f, the curve of alternator.ts must pass through each point (Ω_k, I_k):
 *    ψ² − (L_s · I_k)² = ((E + R_s · I_k) / ω_k)²        I_k = π/3 · output current     E = 2 · (V_t + 2 · V_d) / π
 *  which is linear in ψ² and L_s² once R_s is known, so the fit is closed:
 *    cut-in known:               ψ = E / ω_0; L_s from the rated point; R_s from the rule below
 *    cut-in and low point known: R_s too, from a quadratic
 *    low point known:            ψ² and L_s² from two linear equations; R_s from the rule
 *  R_s rule: R_s20 · (π/3 · I_rated) = 0.55 · E, the mean of two machines: 0.52 [RIVAS2004], 0.58 [SARAFIANOS2015].
 *  Saturation: i_sat = 0.7 · i_F; least squares over the nine points of [SARAFIANOS2015] gives 0.60 (cold) to 0.84 (hot).
 *  V_t test voltage 13.5 or 27 V, rated current at 6000 min⁻¹ [ISO8854, from memory]. V_b, V_d assumed 0.6 V and 0.85 V;
 *  two diodes 1.53–1.85 V [SARAFIANOS2015].
 *  Leaves out: everything that a nameplate does not say; the error near cut-in of the closed form.
 *  Errors: RangeError for values that no machine has. A set of points that no machine of this form can pass is
 *  returned as `did-not-fit`. */
import type { AlternatorMachine } from './alternator.ts';
import { copperRatio } from './conductor.ts';
import { requirePositive, requireWithin } from './guard.ts';

export interface AlternatorNameplate {
  readonly nominalVoltage: 12 | 24;
  /** Output at 6000 min⁻¹ of its own shaft [A]. */
  readonly ratedCurrent: number;
  /** Shaft speed at which output begins [rad/s]. Typical 105–155 (1000–1500 min⁻¹). */
  readonly cutInSpeed?: number;
  /** One more point of the full-field curve: shaft speed [rad/s], output [A]. */
  readonly lowSpeedPoint?: { readonly speed: number; readonly current: number };
  readonly polePairs?: number;
  /** Between the slip rings at 293.15 K [Ω]. */
  readonly fieldResistance?: number;
  /** Winding temperature for which the nameplate figures hold [K]. Default 353.15: warmed up on a bench. */
  readonly ratingTemperature?: number;
}

export type AlternatorFit =
  | { readonly kind: 'fitted'; readonly machine: AlternatorMachine }
  | { readonly kind: 'did-not-fit'; readonly reason: string };

/** Shaft speed at which the rated current is stated: 6000 min⁻¹ [rad/s]. [ISO8854, from memory] */
export const RATED_SPEED = (6000 * 2 * Math.PI) / 60;
/** Cut-in assumed when a nameplate tells nothing: 1150 min⁻¹ [rad/s]. Common practice: 1000–1500. */
export const TYPICAL_CUT_IN_SPEED = (1150 * 2 * Math.PI) / 60;

const STATOR_DROP_SHARE = 0.55;
const SATURATION_SHARE = 0.7;
// A residual phase voltage of 0.1–0.5 V ac at 1500–2000 min⁻¹ is 1–5 % of full flux (common practice, low confidence).
const RESIDUAL_SHARE = 0.03;
const DIODE_DROP = 0.85;
const BRUSH_DROP = 0.6;

/** Test voltage of the rating [V]. [ISO8854, from memory] */
export function ratingVoltage(nominalVoltage: 12 | 24): number {
  return nominalVoltage === 12 ? 13.5 : 27;
}

/** Machine whose full-field curve at the test voltage passes the nameplate's points. */
export function fitAlternator(nameplate: AlternatorNameplate): AlternatorFit {
  checkNameplate(nameplate);
  const polePairs = nameplate.polePairs ?? 6;
  const voltage = ratingVoltage(nameplate.nominalVoltage);
  const heat = copperRatio(nameplate.ratingTemperature ?? 353.15);
  const back = (2 / Math.PI) * (voltage + 2 * DIODE_DROP);
  const rated = { speed: polePairs * RATED_SPEED, current: (Math.PI / 3) * nameplate.ratedCurrent };
  const low = nameplate.lowSpeedPoint && {
    speed: polePairs * nameplate.lowSpeedPoint.speed,
    current: (Math.PI / 3) * nameplate.lowSpeedPoint.current,
  };
  const cutIn =
    nameplate.cutInSpeed === undefined && low !== undefined
      ? undefined
      : polePairs * (nameplate.cutInSpeed ?? TYPICAL_CUT_IN_SPEED);

  let resistance: number | undefined = (heat * STATOR_DROP_SHARE * back) / rated.current;
  let flux2: number;
  if (cutIn !== undefined) {
    flux2 = (back / cutIn) ** 2;
    if (low !== undefined) resistance = resistanceThrough(flux2, back, low, rated);
    if (resistance === undefined)
      return didNotFit('no stator resistance carries the curve from cut-in through the low point');
  } else {
    const first = ((back + resistance * low!.current) / low!.speed) ** 2;
    const second = ((back + resistance * rated.current) / rated.speed) ** 2;
    const inductance2 = (first - second) / (rated.current ** 2 - low!.current ** 2);
    flux2 = second + inductance2 * rated.current ** 2;
  }
  const inductance2 = (flux2 - ((back + resistance * rated.current) / rated.speed) ** 2) / rated.current ** 2;
  if (!(inductance2 > 0 && flux2 > 0))
    return didNotFit('the points rise too steeply for a machine with this stator resistance');

  const flux = Math.sqrt(flux2);
  const fieldResistance20 = nameplate.fieldResistance ?? (nameplate.nominalVoltage === 12 ? 3 : 11);
  const fullField = (voltage - BRUSH_DROP) / (fieldResistance20 * heat);
  const perUnit = fullField / Math.hypot(1, 1 / SATURATION_SHARE);
  return {
    kind: 'fitted',
    machine: {
      polePairs,
      fluxPerAmp: ((1 - RESIDUAL_SHARE) * flux) / perUnit,
      saturationCurrent: SATURATION_SHARE * fullField,
      residualFlux: RESIDUAL_SHARE * flux,
      synchronousInductance: Math.sqrt(inductance2),
      statorResistance20: resistance / heat,
      fieldResistance20,
      diodeDrop: DIODE_DROP,
      brushDrop: BRUSH_DROP,
    },
  };
}

interface CurvePoint {
  readonly speed: number;
  readonly current: number;
}

/** R_s for which cut-in, low and rated point lie on one curve; undefined when none is positive. */
function resistanceThrough(
  flux2: number,
  back: number,
  low: CurvePoint,
  rated: CurvePoint,
): number | undefined {
  const a = low.speed ** -2;
  const b = rated.speed ** -2;
  const lowBack = back / low.current;
  const ratedBack = back / rated.current;
  const quadratic = a - b;
  const half = lowBack * a - ratedBack * b;
  const constant = lowBack ** 2 * a - ratedBack ** 2 * b - flux2 * (low.current ** -2 - rated.current ** -2);
  const discriminant = half * half - quadratic * constant;
  if (discriminant < 0) return undefined;
  const resistance = (-half + Math.sqrt(discriminant)) / quadratic;
  return resistance > 0 ? resistance : undefined;
}

function didNotFit(reason: string): AlternatorFit {
  return { kind: 'did-not-fit', reason };
}

function checkNameplate(nameplate: AlternatorNameplate): void {
  const where = 'fitAlternator';
  requireWithin(where, 'ratedCurrent', nameplate.ratedCurrent, 'A', 1, 1000);
  if (nameplate.cutInSpeed !== undefined)
    requireWithin(where, 'cutInSpeed', nameplate.cutInSpeed, 'rad/s', 20, 600);
  if (nameplate.fieldResistance !== undefined)
    requirePositive(where, 'fieldResistance', nameplate.fieldResistance, 'Ω');
  if (nameplate.polePairs !== undefined) requireWithin(where, 'polePairs', nameplate.polePairs, '', 1, 24);
  if (nameplate.ratingTemperature !== undefined) {
    requireWithin(where, 'ratingTemperature', nameplate.ratingTemperature, 'K', 250, 450);
  }
  if (nameplate.lowSpeedPoint !== undefined) {
    requireWithin(
      where,
      'lowSpeedPoint.current',
      nameplate.lowSpeedPoint.current,
      'A',
      0.05 * nameplate.ratedCurrent,
      0.98 * nameplate.ratedCurrent,
    );
    requireWithin(
      where,
      'lowSpeedPoint.speed',
      nameplate.lowSpeedPoint.speed,
      'rad/s',
      50,
      0.95 * RATED_SPEED,
    );
  }
}
