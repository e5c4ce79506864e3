/** Weeks of use: the charge balance of each day, and where the state of charge settles. */
import type { ChargeRun } from '../operate/index.ts';

export interface DayOfUse {
  /** 1 for the first. */
  readonly day: number;
  readonly lowest: number;
  readonly highest: number;
  readonly end: number;
  /** Charge into and out of the bank at its posts [C]. */
  readonly into: number;
  readonly outOf: number;
  readonly engineTime: number; // s
}

export interface UseOverDays {
  readonly battery: string;
  readonly days: readonly DayOfUse[];
  /** Lowest and highest state of charge of a day once one is like the next; undefined while it still drifts. */
  readonly settles: { readonly lowest: number; readonly highest: number } | undefined;
  /** Change of charge from day to day at the end, as a share. */
  readonly drift: number;
}

const DAY = 86_400;
/** Two days are alike when they end within this share of charge; a choice. */
const ALIKE = 0.005;

/** Days of a run for one bank; a last day that is not whole is left out.   Errors: RangeError for an unknown bank */
export function useOverDays(run: ChargeRun, battery: string): UseOverDays {
  const series = run.batteries.find(({ id }) => id === battery);
  if (series === undefined) {
    const known = run.batteries.map(({ id }) => id).join(', ');
    throw new RangeError(`useOverDays: no battery "${battery}"; the run has ${known}`);
  }
  const { times, running } = run;
  const count = Math.floor((times.at(-1) ?? 0) / DAY + 1e-6);
  const days = Array.from({ length: count }, (_, index) => emptyDay(index + 1));
  for (let k = 1; k < times.length; k++) {
    const [start = 0, end = 0] = [times[k - 1], times[k]];
    // A step belongs to the day in which its middle lies.
    const day = days[Math.floor((start + end) / 2 / DAY)];
    if (day === undefined) break;
    const charge = series.stateOfCharge[k] ?? NaN;
    const moved = (((series.current[k] ?? 0) + (series.current[k - 1] ?? 0)) / 2) * (end - start);
    day.lowest = Math.min(day.lowest, charge);
    day.highest = Math.max(day.highest, charge);
    day.end = charge;
    if (moved > 0) day.into += moved;
    else day.outOf -= moved;
    if (running[k] === true) day.engineTime += end - start;
  }
  const [last, before] = [days.at(-1), days.at(-2)];
  const drift = last === undefined || before === undefined ? NaN : last.end - before.end;
  return {
    battery,
    days,
    drift,
    settles:
      last !== undefined && Math.abs(drift) < ALIKE
        ? { lowest: last.lowest, highest: last.highest }
        : undefined,
  };
}

type Filling = { -readonly [P in keyof DayOfUse]: DayOfUse[P] };

const emptyDay = (day: number): Filling => ({
  day,
  lowest: Infinity,
  highest: 0,
  end: NaN,
  into: 0,
  outOf: 0,
  engineTime: 0,
});
