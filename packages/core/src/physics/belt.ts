/** Belt drive: geometry, grip, tension from deflection, slip and its heat.
 *    wrap     θ = π − 2 · asin((D − d) / (2C))            smaller pulley of an open belt
 *    length   L = √(4C² − (D − d)²) + ½ · (D · θ_D + d · θ_d)
 *    grip     (T_1 − T_c) / (T_2 − T_c) = g = e^(μ · θ / sin(β/2))          T_c = m · v²
 *    pull     T_1 − T_2 ≤ 2 · (T_s − T_c) · (g − 1) / (g + 1)               T_s = (T_1 + T_2) / 2, standing tension
 *    wrap's   q(θ) / q(θ_usual),  q = (g − 1) / (g + 1) = tanh(μ · θ / (2 · sin(β/2)))    share of pull, same tension
 *    span     t = √(C² − ((D − d)/2)²)      F at mid-span deflecting it by y:   T = F · t / (4 · y)
 *    slip     s = k + (1 − k) · softClamp((u − 1) / 0.25, 1)     k = 0.01 · tanh(u)     u = torque / capacity
 *  D, d pulley diameters, C centre distance, L, t, y [m]  θ [rad]  β groove angle [rad], π for a flat belt
 *  μ friction  m [kg/m]  v [m/s]  T [N]  s slip: 1 − pulley speed / speed without slip
 *  Source: Euler–Eytelwein; geometry [SHIG 17-1, 17-2], [MOTT 7-3, 7-4]; span [PMM fig. 7-14]; standing tension as the
 *  mean of the two strands [SHIG]. V-belt friction 0.5123 · sin(β/2) [SHIG]; a rib's flank is taken to be that of a V-belt's
 *  36° groove. Creep of 1 % at capacity and the quarter
 *  above capacity within which slip becomes full are choices; the limits (creep below, full slip above) are textbook.
 *  Leaves out: bending stiffness, hysteresis, wear, temperature, more than two pulleys (give the wrap directly). */
import { beltPractice, beltSection, beltSectionNames, type BeltSectionName } from '../handbook/index.ts';
import { requirePositive, requireWithin } from './guard.ts';
import { softClamp, softClampSlope } from './smooth.ts';

export interface BeltGrip {
  /** μ of the flank, not the effective one. */
  readonly friction: number;
  /** β [rad]; π for a flat belt. */
  readonly grooveAngle: number;
  /** θ at the alternator pulley [rad]. */
  readonly wrap: number;
  /** m of the whole belt set [kg/m]. */
  readonly massPerLength: number;
  /** T_s of the whole belt set [N]. */
  readonly standingTension: number;
  /** Pitch diameter of the alternator pulley [m]. */
  readonly pulleyDiameter: number;
}

/** What `beltSlip` fills in. */
export interface BeltSlip {
  slip: number;
  /** ∂ slip / ∂ (torque / capacity). */
  dByLoad: number;
}

const CREEP = 0.01;
const SLIP_BAND = 0.25;
const SLIP_WIDTH = 0.02;

/** Wrap on the smaller pulley of an open belt [rad]. */
export function smallPulleyWrap(large: number, small: number, centreDistance: number): number {
  requireWithin(
    'smallPulleyWrap',
    '(large − small) / (2 · centreDistance)',
    (large - small) / (2 * centreDistance),
    '',
    0,
    1,
  );
  return Math.PI - 2 * Math.asin((large - small) / (2 * centreDistance));
}

/** Length of an open belt, exact [m]. */
export function openBeltLength(large: number, small: number, centreDistance: number): number {
  const smallWrap = smallPulleyWrap(large, small, centreDistance);
  const largeWrap = 2 * Math.PI - smallWrap;
  return (
    Math.sqrt(4 * centreDistance ** 2 - (large - small) ** 2) + (large * largeWrap + small * smallWrap) / 2
  );
}

/** Centre distance for a belt length, from the approximate length L = 2C + π(D + d)/2 + (D − d)²/(4C) [m]. [MOTT 7-4] */
export function centreDistanceFor(length: number, large: number, small: number): number {
  const b = 4 * length - 2 * Math.PI * (large + small);
  const square = b * b - 32 * (large - small) ** 2;
  requireWithin('centreDistanceFor', 'discriminant', square, 'm²', 0, Infinity);
  return (b + Math.sqrt(square)) / 16;
}

/** Free span between the pulleys [m]. */
export function beltSpan(large: number, small: number, centreDistance: number): number {
  requireWithin(
    'beltSpan',
    '(large − small) / (2 · centreDistance)',
    (large - small) / (2 * centreDistance),
    '',
    0,
    1,
  );
  return Math.sqrt(centreDistance ** 2 - ((large - small) / 2) ** 2);
}

/** Tension of a strand from a push at mid-span [N]: 16 · F when the deflection is span / 64. */
export function tensionFromDeflection(force: number, span: number, deflection: number): number {
  requirePositive('tensionFromDeflection', 'deflection', deflection, 'm');
  return (force * span) / (4 * deflection);
}

/** g = (T_1 − T_c) / (T_2 − T_c) at the edge of slip. */
export function gripRatio(friction: number, grooveAngle: number, wrap: number): number {
  requireWithin('gripRatio', 'grooveAngle', grooveAngle, 'rad', 0.1, Math.PI);
  return Math.exp((friction * wrap) / Math.sin(grooveAngle / 2));
}

/** Flank friction of a rubber V-belt in a groove: 0.5123 · sin(β/2). [SHIG, V-belts] */
export function vBeltFriction(grooveAngle: number): number {
  return 0.5123 * Math.sin(grooveAngle / 2);
}

/** μ / (2 · sin(β/2)) of each section, μ that of a V-belt's 36° groove. */
const halfFriction = Object.fromEntries(
  beltSectionNames.map((name) => [
    name,
    vBeltFriction(Math.PI / 5) / (2 * Math.sin(beltSection(name).grooveAngle / 2)),
  ]),
) as Readonly<Record<BeltSectionName, number>>;

/** T_c [N]. */
export function centrifugalTension(massPerLength: number, beltSpeed: number): number {
  return massPerLength * beltSpeed * beltSpeed;
}

/** Greatest T_1 − T_2 [N], 0 when the belt lifts off. */
export function greatestPull(grip: BeltGrip, beltSpeed: number): number {
  const ratio = gripRatio(grip.friction, grip.grooveAngle, grip.wrap);
  const gripping = grip.standingTension - centrifugalTension(grip.massPerLength, beltSpeed);
  return gripping > 0 ? (2 * gripping * (ratio - 1)) / (ratio + 1) : 0;
}

/** Pull of a section with this wrap [rad] against what it pulls with the usual one, at the same tension [1].
 *  1 at `beltPractice.usualWrap`; never above 1/q(θ_usual), some 1.6.   HOT: no allocation.
 *  Valid: 1 to 4.5 rad   Leaves out: what more or less wrap does to bearings and bending */
export function wrapShare(section: BeltSectionName, wrap: number): number {
  const half = halfFriction[section];
  return Math.tanh(half * wrap) / Math.tanh(half * beltPractice.usualWrap);
}

/** Torque that the alternator pulley can take [N·m]; `pulleySpeed` [rad/s]. */
export function torqueCapacity(grip: BeltGrip, pulleySpeed: number): number {
  return (greatestPull(grip, (pulleySpeed * grip.pulleyDiameter) / 2) * grip.pulleyDiameter) / 2;
}

/** Slip against load = torque / capacity: creep below 1, full slip above 1.25, rising all the way.
 *  HOT: no allocation; writes `out`. */
export function beltSlip(load: number, out: BeltSlip): void {
  const over = (load - 1) / SLIP_BAND;
  const gone = softClamp(over, 1, SLIP_WIDTH);
  const bent = Math.tanh(load);
  const creep = CREEP * bent;
  out.slip = creep + (1 - creep) * gone;
  out.dByLoad =
    CREEP * (1 - bent * bent) * (1 - gone) + ((1 - creep) * softClampSlope(over, 1, SLIP_WIDTH)) / SLIP_BAND;
}

/** Heat of slip [W]: torque times the speed lost. `freeSpeed` of the pulley without slip [rad/s]. */
export function slipHeat(torque: number, freeSpeed: number, slip: number): number {
  return torque * freeSpeed * slip;
}
