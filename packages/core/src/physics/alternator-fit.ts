/** A machine fitted to what the nameplate says.
 *  At full field, i_F = (V_t − V_b) / R_f, the curve of alternator.ts must pass through each point (Ω_k, I_k):
 *    ψ² − (L_s · I_k)² = ((E + R_s · I_k) / ω_k)²        I_k = π/3 · output current     E = 2 · (V_t + 2 · V_d) / π
 *  which is linear in ψ² and L_s² once R_s is known, so the fit is closed:
 *    cut-in known:               ψ = E / ω_0; L_s from the rated point; R_s from the rule below
 *    cut-in and low point known: R_s too, from a quadratic
 *    low point known:            ψ² and L_s² from two linear equations; R_s from the rule
 *  With more points, or one that no exact curve passes, the nearest curve: alternator-curve.ts.
 *  R_s rule: R_s20 · (π/3 · I_rated) = 0.55 · E, the mean of two machines: 0.52 [RIVAS2004], 0.58 [SARAFIANOS2015].
 *  Saturation: i_sat = 0.7 · i_F; least squares over the nine points of [SARAFIANOS2015] gives 0.60 (cold) to 0.84 (hot).
 *  V_t test voltage 13.5 or 27 V, rated current at 6000 min⁻¹ [ISO8854, from memory]. V_b, V_d assumed 0.6 V and 0.85 V;
 *  two diodes 1.53–1.85 V [SARAFIANOS2015].
 *  Leaves out: everything that a nameplate does not say; the error near cut-in of the closed form.
 *  Errors: RangeError for values that no machine has. Points that no machine of this form comes near are returned as
 *  `did-not-fit`, with what cannot be met, by how much, and the nearest machine. */
import type { AlternatorMachine } from './alternator.ts';
import { currentOn, exactCurve, nearestCurve, type Curve, type CurvePoint } from './alternator-curve.ts';
import { copperRatio } from './conductor.ts';
import { requirePositive, requireWithin } from './guard.ts';

export interface AlternatorNameplate {
  readonly nominalVoltage: 12 | 24;
  /** Output at 6000 min⁻¹ of its own shaft [A]. */
  readonly ratedCurrent: number;
  /** Shaft speed at which output begins [rad/s]. Typical 105–155 (1000–1500 min⁻¹). */
  readonly cutInSpeed?: number;
  /** More points of the full-field curve below the rated one, by rising speed. */
  readonly points?: readonly SpeedPoint[];
  readonly polePairs?: number;
  /** Between the slip rings at 293.15 K [Ω]. */
  readonly fieldResistance?: number;
  /** Winding temperature for which the nameplate figures hold [K]. Default 353.15: warmed up on a bench. */
  readonly ratingTemperature?: number;
}

export interface SpeedPoint {
  /** Of its own shaft [rad/s]. */
  readonly speed: number;
  /** Output at full field [A]. */
  readonly current: number;
}

/** A told point and what the nearest curve gives at its speed [A]. */
export interface MissedPoint extends SpeedPoint {
  readonly nearest: number;
}

export type AlternatorFit =
  | { readonly kind: 'fitted'; readonly machine: AlternatorMachine }
  | {
      readonly kind: 'did-not-fit';
      readonly reason: string;
      readonly missed: readonly MissedPoint[];
      /** The machine that comes nearest, where there is one. */
      readonly nearest: AlternatorMachine | undefined;
    };

/** Shaft speed at which the rated current is stated: 6000 min⁻¹ [rad/s]. [ISO8854, from memory] */
export const RATED_SPEED = (6000 * 2 * Math.PI) / 60;
/** Cut-in assumed when a nameplate tells nothing: 1150 min⁻¹ [rad/s]. Common practice: 1000–1500. */
export const TYPICAL_CUT_IN_SPEED = (1150 * 2 * Math.PI) / 60;

const STATOR_DROP_SHARE = 0.55;
const SATURATION_SHARE = 0.7;
// A residual phase voltage of 0.1–0.5 V ac at 1500–2000 min⁻¹ is 1–5 % of full flux (common practice, low confidence).
const RESIDUAL_SHARE = 0.03;
/** A told point counts as met within this share of the rated current: an ammeter and a printed curve tell no more. */
const MET_WITHIN = 0.05;
const DIODE_DROP = 0.85;
const BRUSH_DROP = 0.6;

/** Test voltage of the rating [V]. [ISO8854, from memory] */
export function ratingVoltage(nominalVoltage: 12 | 24): number {
  return nominalVoltage === 12 ? 13.5 : 27;
}

/** Machine whose full-field curve at the test voltage passes the nameplate's points, or comes near them. */
export function fitAlternator(nameplate: AlternatorNameplate): AlternatorFit {
  checkNameplate(nameplate);
  const polePairs = nameplate.polePairs ?? 6;
  const heat = copperRatio(nameplate.ratingTemperature ?? 353.15);
  const back = (2 / Math.PI) * (ratingVoltage(nameplate.nominalVoltage) + 2 * DIODE_DROP);
  const seen = ({ speed, current }: SpeedPoint): CurvePoint => ({
    speed: polePairs * speed,
    current: (Math.PI / 3) * current,
  });
  const rated = seen({ speed: RATED_SPEED, current: nameplate.ratedCurrent });
  const told = nameplate.points ?? [];
  const points = told.map(seen);
  const cutIn =
    nameplate.cutInSpeed === undefined && points.length > 0
      ? undefined
      : polePairs * (nameplate.cutInSpeed ?? TYPICAL_CUT_IN_SPEED);
  const usualResistance = (heat * STATOR_DROP_SHARE * back) / rated.current;

  const exact = points.length > 1 ? undefined : exactCurve(back, rated, points[0], cutIn, usualResistance);
  if (exact !== undefined) return { kind: 'fitted', machine: machineOf(nameplate, exact, heat) };
  const nearest = nearestCurve({ back, rated, points, cutIn, usualResistance });
  if (nearest === undefined)
    return {
      kind: 'did-not-fit',
      reason: 'the rated amps are too many for a machine with that cut-in speed',
      missed: [],
      nearest: undefined,
    };
  const machine = machineOf(nameplate, nearest, heat);
  const missed = told
    .map((point, k) => ({
      ...point,
      nearest: Math.max(0, (3 / Math.PI) * currentOn(nearest, points[k]!.speed, back)),
    }))
    .filter((point) => Math.abs(point.nearest - point.current) > MET_WITHIN * nameplate.ratedCurrent);
  if (missed.length === 0) return { kind: 'fitted', machine };
  return { kind: 'did-not-fit', reason: missed.map(missWords).join('; '), missed, nearest: machine };
}

const rpmOf = (speed: number): string => ((speed * 60) / (2 * Math.PI)).toFixed(0);

const missWords = ({ speed, current, nearest }: MissedPoint): string =>
  `${current.toFixed(0)} A at ${rpmOf(speed)} min⁻¹ cannot be met: the nearest machine gives ${nearest.toFixed(0)} A there, ` +
  `${Math.abs(current - nearest).toFixed(0)} A ${nearest < current ? 'less' : 'more'}`;

function machineOf(nameplate: AlternatorNameplate, curve: Curve, heat: number): AlternatorMachine {
  const { flux, inductance, resistance } = curve;
  const fieldResistance20 = nameplate.fieldResistance ?? (nameplate.nominalVoltage === 12 ? 3 : 11);
  const fullField = (ratingVoltage(nameplate.nominalVoltage) - BRUSH_DROP) / (fieldResistance20 * heat);
  const perUnit = fullField / Math.hypot(1, 1 / SATURATION_SHARE);
  return {
    polePairs: nameplate.polePairs ?? 6,
    fluxPerAmp: ((1 - RESIDUAL_SHARE) * flux) / perUnit,
    saturationCurrent: SATURATION_SHARE * fullField,
    residualFlux: RESIDUAL_SHARE * flux,
    synchronousInductance: inductance,
    statorResistance20: resistance / heat,
    fieldResistance20,
    diodeDrop: DIODE_DROP,
    brushDrop: BRUSH_DROP,
  };
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
  (nameplate.points ?? []).forEach(({ speed, current }, k, points) => {
    const { ratedCurrent } = nameplate;
    const before = points[k - 1];
    requireWithin(
      where,
      `points[${k}].current`,
      current,
      'A',
      Math.max(0.05 * ratedCurrent, before?.current ?? 0),
      0.98 * ratedCurrent,
    );
    requireWithin(
      where,
      `points[${k}].speed`,
      speed,
      'rad/s',
      before === undefined ? 50 : 1.05 * before.speed,
      0.95 * RATED_SPEED,
    );
  });
}
