/** The full-field curve of alternator.ts at the test voltage, through points or as near to them as it goes.
 *    ψ² − (L_s · I)² = ((E + R_s · I) / ω)²
 *  Exact, when there are as many points as unknowns: alternator-fit.ts says which.
 *  Nearest, the rated point always met:   least  Σ_k ((I(ω_k) / I_k − 1) / σ)² + ((ω_0 / ω_c − 1) / σ_c)² + (ln(R_s / R_u) / σ_R)²
 *    σ 0.03 of a point  σ_c 0.05 of a told cut-in speed  σ_R 0.5 of the usual resistance R_u: estimates of ours; the last one
 *    settles what the points leave open. Levenberg and Marquardt over ln ψ and ln R_s.
 *  ψ flux linkage [V·s]  L_s [H]  R_s hot [Ω]  I phase amplitude [A]  ω, ω_0 = E / ψ, ω_c electrical speeds [rad/s]
 *  Source: [CALISKAN2003] with stator resistance, as alternator.ts; least squares textbook */

export interface CurvePoint {
  /** Electrical [rad/s]. */
  readonly speed: number;
  /** Phase amplitude [A]. */
  readonly current: number;
}

export interface Curve {
  readonly flux: number;
  readonly inductance: number;
  /** Hot [Ω]. */
  readonly resistance: number;
}

export interface CurveData {
  /** E [V]. */
  readonly back: number;
  readonly rated: CurvePoint;
  readonly points: readonly CurvePoint[];
  /** ω_c where told. */
  readonly cutIn: number | undefined;
  /** R_u [Ω]. */
  readonly usualResistance: number;
}

const POINT_SPREAD = 0.03;
const CUT_IN_SPREAD = 0.05;
const RESISTANCE_SPREAD = 0.5;
const STEPS = 40;

/** Phase amplitude on a curve at an electrical speed [A]; below cut-in negative, so that a fit feels how far below. */
export function currentOn({ flux, inductance, resistance }: Curve, speed: number, back: number): number {
  const square = (resistance / speed) ** 2 + inductance ** 2;
  const half = (back * resistance) / speed ** 2;
  const rest = flux ** 2 - (back / speed) ** 2;
  if (rest < 0) return -Math.sqrt(-rest / square);
  return (Math.sqrt(half ** 2 + square * rest) - half) / square;
}

/** The curve through the rated point, at most one more, and cut-in; undefined when no machine has it. */
export function exactCurve(
  back: number,
  rated: CurvePoint,
  low: CurvePoint | undefined,
  cutIn: number | undefined,
  usualResistance: number,
): Curve | undefined {
  if (cutIn === undefined) {
    if (low === undefined) return undefined;
    const first = ((back + usualResistance * low.current) / low.speed) ** 2;
    const second = ((back + usualResistance * rated.current) / rated.speed) ** 2;
    const inductance2 = (first - second) / (rated.current ** 2 - low.current ** 2);
    return throughRated(back, rated, second + inductance2 * rated.current ** 2, usualResistance);
  }
  const flux2 = (back / cutIn) ** 2;
  const resistance = low === undefined ? usualResistance : resistanceThrough(flux2, back, low, rated);
  return resistance === undefined ? undefined : throughRated(back, rated, flux2, resistance);
}

/** The curve through the rated point that comes nearest to the rest; undefined when none starts from there. */
export function nearestCurve(data: CurveData): Curve | undefined {
  const { back, rated, points, cutIn, usualResistance } = data;
  const first = points[0];
  // Below the first point by as much as the usual machine is, or as told.
  const start = cutIn ?? (first === undefined ? rated.speed / 5 : 0.6 * first.speed);
  let at: Place = [Math.log(back / start), Math.log(usualResistance)];
  let misses = missesAt(data, at);
  for (let share = 0.5; misses === undefined && share > 0.01; share /= 2) {
    at = [at[0], Math.log(share * usualResistance)];
    misses = missesAt(data, at);
  }
  if (misses === undefined) return undefined;
  let damping = 1e-3;
  for (let step = 0; step < STEPS && damping < 1e9; step++) {
    const slopes = [slopesAt(data, at, 0, misses), slopesAt(data, at, 1, misses)] as const;
    const next = dampedStep(at, misses, slopes, damping);
    const trial = missesAt(data, next);
    if (trial !== undefined && sumOfSquares(trial) < sumOfSquares(misses)) {
      const gained = sumOfSquares(misses) - sumOfSquares(trial);
      [at, misses] = [next, trial];
      damping = Math.max(1e-9, damping / 10);
      if (gained < 1e-14) break;
    } else damping *= 10;
  }
  return throughRated(back, rated, Math.exp(2 * at[0]), Math.exp(at[1]));
}

/** The curve of a flux and a resistance that meets the rated point; undefined when that needs L_s² ≤ 0. */
function throughRated(back: number, rated: CurvePoint, flux2: number, resistance: number): Curve | undefined {
  const inductance2 = (flux2 - ((back + resistance * rated.current) / rated.speed) ** 2) / rated.current ** 2;
  if (!(inductance2 > 0 && flux2 > 0)) return undefined;
  return { flux: Math.sqrt(flux2), inductance: Math.sqrt(inductance2), resistance };
}

type Place = readonly [logFlux: number, logResistance: number];

/** What the sum above squares; undefined where there is no machine. */
function missesAt(data: CurveData, [logFlux, logResistance]: Place): number[] | undefined {
  const { back, rated, points, cutIn, usualResistance } = data;
  const curve = throughRated(back, rated, Math.exp(2 * logFlux), Math.exp(logResistance));
  if (curve === undefined) return undefined;
  const misses = points.map(
    ({ speed, current }) => (currentOn(curve, speed, back) / current - 1) / POINT_SPREAD,
  );
  if (cutIn !== undefined) misses.push((back / curve.flux / cutIn - 1) / CUT_IN_SPREAD);
  misses.push((logResistance - Math.log(usualResistance)) / RESISTANCE_SPREAD);
  return misses;
}

function slopesAt(data: CurveData, at: Place, which: 0 | 1, misses: readonly number[]): number[] {
  // Towards a larger flux and a smaller resistance there is a machine if there is one here.
  const step = which === 0 ? 1e-6 : -1e-6;
  const moved: Place = which === 0 ? [at[0] + step, at[1]] : [at[0], at[1] + step];
  const beside = missesAt(data, moved);
  return misses.map((miss, k) => ((beside?.[k] ?? miss) - miss) / step);
}

/** (JᵀJ · (1 + λ on the diagonal)) · step = −Jᵀ · misses, two unknowns. */
function dampedStep(
  at: Place,
  misses: readonly number[],
  [flux, resistance]: readonly [readonly number[], readonly number[]],
  damping: number,
): Place {
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, x, k) => sum + x * b[k]!, 0);
  const a = dot(flux, flux) * (1 + damping);
  const b = dot(flux, resistance);
  const d = dot(resistance, resistance) * (1 + damping);
  const [u, v] = [-dot(flux, misses), -dot(resistance, misses)];
  const determinant = a * d - b * b;
  return [at[0] + (u * d - v * b) / determinant, at[1] + (v * a - u * b) / determinant];
}

const sumOfSquares = (values: readonly number[]): number => values.reduce((sum, x) => sum + x * x, 0);

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
