/** Readings made ready for the inner loops, and their log likelihood over a batch of draws.
 *
 *    numeric      (1 − s) [(1 − t) N(y; f + Σ l e, σ²) + t N(y; f + Σ l e, σ² + τ²)] + s / span
 *    bound        (1 − s) Φ(±(f + Σ l e − y) / σ) + s / 2
 *    categorical  (1 − s) p + s / outcomes
 *  τ further error of the model, t its chance
 *  y value  f prediction  s chance of a slip  σ own error  l sigma of a shared error, e ~ N(0, 1) its size
 *
 *  An error shared by two readings or more becomes a further unknown ("common error"), so that the readings are
 *  independent once the unknowns are known; one that only a single reading has is added to that reading's own variance.
 *  A model discrepancy is shared by all readings of one observable.
 */
import { logRootTwoPi, normalCumulative } from './normal.ts';
import { defaultSlip, observableAt, tailChance, widthOf } from './types.ts';
import type { NumericReading, Observable, Reading } from './types.ts';

/** A reading in the form used by the loops. */
export interface PreparedReading {
  readonly observable: number;
  /** Slots of the observable, and the slot that the answer names (0 for a number). */
  readonly width: number;
  readonly slot: number;
  readonly form: 'number' | 'above' | 'below' | 'answer';
  readonly value: number;
  /** Own error, and log(1 − s). */
  readonly sd: number;
  /** The wider error of the tail; 0 for none. */
  readonly tailSd: number;
  readonly trust: number;
  /** Density or chance under a slip, and the same times the chance of one. */
  readonly broad: number;
  readonly slipDensity: number;
  /** Size of each common error in this reading. */
  readonly loading: Float64Array;
}

/** All readings of a job, in an order that does not depend on the order of entry. */
export interface Evidence {
  /** What it was prepared from. */
  readonly of: readonly Reading[];
  readonly readings: readonly PreparedReading[];
  /** Names of the errors that more than one reading has. */
  readonly common: readonly string[];
  /** Observables read, each once. */
  readonly wanted: readonly number[];
}

/** Readings made ready.
 *  Errors: RangeError for an unknown observable, an outcome that it has not, a sigma that is not positive, a slip outside 0 to 1 */
export function preparedEvidence(observables: readonly Observable[], readings: readonly Reading[]): Evidence {
  const sorted = withoutRepeats(sortedReadings(readings));
  const uses = new Map<string, number>();
  for (const reading of sorted)
    for (const part of errorsOf(reading)) uses.set(part.group, (uses.get(part.group) ?? 0) + 1);
  const common = [...uses].filter(([, count]) => count > 1).map(([group]) => group);
  common.sort();
  const prepared = sorted.map((reading) => prepare(observables, reading, common));
  return {
    of: readings,
    readings: prepared,
    common,
    wanted: [...new Set(prepared.map((reading) => reading.observable))],
  };
}

/** Adds the log likelihood of one reading to `total`.
 *  `columns` holds the observable for each draw, `errors` the common errors (draw by draw). Hot. */
export function addLogLikelihood(
  reading: PreparedReading,
  columns: Float64Array,
  errors: Float64Array,
  total: Float64Array,
): void {
  const { width, slot, value, sd, slipDensity, loading, form } = reading;
  const groups = loading.length;
  const peak = reading.trust - Math.log(sd) - logRootTwoPi;
  const trusted = Math.exp(reading.trust);
  const half = 0.5 / (sd * sd);
  const { tailSd } = reading;
  const tailPeak = peak + Math.log((tailChance * sd) / tailSd);
  const tailHalf = 0.5 / (tailSd * tailSd);
  const core = tailSd > 0 ? peak + Math.log(1 - tailChance) : peak;
  const unpredicted = Math.log(reading.broad);
  for (let i = 0; i < total.length; i++) {
    let f = columns[i * width + slot]!;
    if (f !== f) {
      total[i]! += unpredicted;
      continue;
    }
    if (form === 'answer') {
      total[i]! += Math.log(trusted * f + slipDensity);
      continue;
    }
    for (let g = 0; g < groups; g++) f += loading[g]! * errors[i * groups + g]!;
    const gap = f - value;
    if (form === 'number') {
      const exponent = core - half * gap * gap;
      const rest = slipDensity + (tailSd > 0 ? Math.exp(tailPeak - tailHalf * gap * gap) : 0);
      total[i]! += rest > 0 ? Math.log(Math.exp(exponent) + rest) : exponent;
    } else {
      const z = (form === 'above' ? gap : -gap) / sd;
      total[i]! += Math.log(trusted * normalCumulative(z) + slipDensity + 1e-300);
    }
  }
}

/** What a linear model sees of a reading: the number itself, or the chance of what was answered. */
export function linearTarget(reading: PreparedReading, prediction: number): number {
  if (reading.form === 'number') return prediction;
  const trusted = Math.exp(reading.trust);
  if (reading.form === 'answer') return trusted * prediction + reading.slipDensity;
  const gap = prediction - reading.value;
  return (
    trusted * normalCumulative((reading.form === 'above' ? gap : -gap) / reading.sd) + reading.slipDensity
  );
}

/** Errors of a number that other readings may share. */
export function errorsOf(reading: Reading): { group: string; sigma: number }[] {
  if (reading.kind !== 'numeric') return [];
  const parts = (reading.shared ?? [])
    .filter((part) => part.sigma !== 0)
    .map(({ group, sigma }) => ({ group, sigma }));
  if ((reading.discrepancy ?? 0) > 0)
    parts.push({ group: discrepancyGroup(reading.observable), sigma: reading.discrepancy! });
  return parts;
}

/** Name of the error that all readings of an observable share. */
function discrepancyGroup(observable: number): string {
  return `discrepancy ${observable}`;
}

function prepare(
  observables: readonly Observable[],
  reading: Reading,
  common: readonly string[],
): PreparedReading {
  const observable = observableAt(observables, reading.observable);
  const slip = reading.slip ?? defaultSlip;
  if (!(slip >= 0 && slip <= 1)) throw new RangeError(`preparedEvidence: slip = ${slip} is outside 0 to 1`);
  if (reading.kind !== observable.kind)
    throw new RangeError(
      `preparedEvidence: observable ${reading.observable} is ${observable.kind}, the reading ${reading.kind}`,
    );
  const loading = new Float64Array(common.length);
  const base = {
    observable: reading.observable,
    width: widthOf(observable),
    trust: Math.log(1 - slip),
    loading,
  };
  if (reading.kind === 'categorical') {
    const outcomes = widthOf(observable);
    if (!(Number.isInteger(reading.outcome) && reading.outcome >= 0 && reading.outcome < outcomes))
      throw new RangeError(`preparedEvidence: outcome ${reading.outcome} is outside 0 to ${outcomes - 1}`);
    const broad = 1 / outcomes;
    return {
      ...base,
      slot: reading.outcome,
      form: 'answer',
      value: 1,
      sd: 1,
      tailSd: 0,
      broad,
      slipDensity: slip * broad,
    };
  }
  if (!(reading.sigma > 0))
    throw new RangeError(`preparedEvidence: sigma = ${reading.sigma}, must be above 0`);
  if (!Number.isFinite(reading.value))
    throw new RangeError(`preparedEvidence: value = ${reading.value}, must be finite`);
  let variance = reading.sigma * reading.sigma;
  for (const part of errorsOf(reading)) {
    const at = common.indexOf(part.group);
    if (at >= 0) loading[at]! += part.sigma;
    else variance += part.sigma * part.sigma;
  }
  const broad = reading.bound === undefined ? 1 / spanOf(observable) : 0.5;
  const form = reading.bound ?? 'number';
  return {
    ...base,
    slot: 0,
    form,
    value: reading.value,
    sd: Math.sqrt(variance),
    tailSd:
      (reading.tail ?? 0) > 0 && reading.bound === undefined
        ? Math.hypot(Math.sqrt(variance), reading.tail!)
        : 0,
    broad,
    slipDensity: slip * broad,
  };
}

/** Width of the plausible span of a numeric observable.
 *  Errors: RangeError for an empty span or a categorical observable */
export function spanOf(observable: Observable): number {
  const span = observable.kind === 'numeric' ? observable.high - observable.low : Number.NaN;
  if (!(span > 0)) throw new RangeError(`spanOf: span = ${span}, must be above 0`);
  return span;
}

/** Readings in an order that does not depend on the order of entry. */
export function sortedReadings(readings: readonly Reading[]): Reading[] {
  return readings.slice().sort(compareReadings);
}

/** The same answer given twice is one answer. `sorted`: repeats side by side. */
const withoutRepeats = (sorted: readonly Reading[]): readonly Reading[] =>
  sorted.filter(
    (reading, index) =>
      reading.kind === 'numeric' || index === 0 || compareReadings(sorted[index - 1]!, reading) !== 0,
  );

function compareReadings(a: Reading, b: Reading): number {
  if (a.observable !== b.observable) return a.observable - b.observable;
  const [x, y] = [sortKey(a), sortKey(b)];
  return x < y ? -1 : x > y ? 1 : 0;
}

function sortKey(reading: Reading): string {
  if (reading.kind === 'categorical') return `c ${reading.outcome} ${reading.slip ?? ''}`;
  const numeric: NumericReading = reading;
  return `n ${numeric.value} ${numeric.sigma} ${JSON.stringify(numeric.shared ?? [])} ${numeric.bound ?? ''} ${numeric.slip ?? ''}`;
}
