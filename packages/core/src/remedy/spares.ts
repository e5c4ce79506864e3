/** What to carry, from failure odds, distance and cost; not from a fixed list.
 *    worth of a spare = P(it is needed before help) · cost of waiting − carrying cost · years
 *    P = 1 − exp(−rate · share · years)        share = Σ prior of the faults that it cures / Σ prior of all faults
 *    cost of waiting = days to help · cost of a day without charging
 *    carrying cost per year = a tenth of the price (money tied up, room, ageing): an estimate
 *  Spares are taken one at a time, the one of greatest worth first; what a fault's spare already aboard cures does not
 *  count again, so an alternator ready to bolt on makes brushes worth little.
 *  rate [1/year] charging failures of a boat in use: 0.3, an estimate; give your own.
 *  Source: expected value; priors of data/faults (common practice, estimates).   Leaves out: two failures on one passage.
 */
import type { BoatDescription } from '../boat/index.ts';
import { placedFaults, priceTable, type PlacedFault, type PriceTable } from '../faults/index.ts';

export interface SparesRequest {
  /** Days without charging until a part and hands can be had. */
  readonly daysToHelp: number;
  /** Time between calls at a place with parts [years]. */
  readonly years: number;
  /** What a day without charging costs, in the currency of the price table. */
  readonly costPerDay: number;
  /** Charging failures of this boat in a year. */
  readonly failuresPerYear?: number;
  readonly prices?: PriceTable;
}

export interface Spare {
  /** Key of the price table. */
  readonly key: string;
  readonly words: string;
  /** Chance that it is needed before help. */
  readonly needed: number;
  /** Expected worth of carrying it; negative: leave it ashore. */
  readonly worth: number;
  readonly carry: boolean;
  /** Faults that it cures, most likely first. */
  readonly cures: readonly string[];
}

const CARRYING_SHARE = 0.1;
/** What nobody carries as a spare. */
const ashore = new Set(['battery-bank', 'gauge']);
/** A whole alternator cures what its parts would. */
const partsOfAlternator = new Set(['brushes', 'rectifier', 'internal-regulator']);

/** Spares of a boat, those to carry first.   Errors: RangeError for negative days, years, cost or rate */
export function sparesFor(description: BoatDescription, request: SparesRequest): readonly Spare[] {
  const { daysToHelp, years, costPerDay, failuresPerYear = 0.3, prices = priceTable } = request;
  for (const [name, value] of Object.entries({ daysToHelp, years, costPerDay, failuresPerYear }))
    if (!(value >= 0 && Number.isFinite(value)))
      throw new RangeError(`sparesFor: ${name} ${value} must be a finite number, not negative`);
  const faults = placedFaults(description).filter(({ fault }) => fault.nature === 'fault');
  const all = faults.reduce((sum, { prior }) => sum + prior, 0);
  const left = new Set(faults);
  const open = new Set(Object.keys(prices.parts).filter((key) => !ashore.has(key)));
  const found: Spare[] = [];
  while (open.size > 0) {
    let best: Spare | undefined;
    for (const key of open) {
      const cured = [...left].filter((placed) => cures(key, placed));
      const share = all > 0 ? cured.reduce((sum, { prior }) => sum + prior, 0) / all : 0;
      const needed = 1 - Math.exp(-failuresPerYear * share * years);
      const price = prices.parts[key];
      const middle = price === undefined ? 0 : (price.low + price.high) / 2;
      const worth = needed * daysToHelp * costPerDay - CARRYING_SHARE * middle * years;
      if (best !== undefined && worth <= best.worth) continue;
      const names = [...cured].sort((a, b) => b.prior - a.prior).map(({ fault }) => fault.words);
      best = { key, words: price?.words ?? key, needed, worth, carry: worth > 0, cures: [...new Set(names)] };
    }
    if (best === undefined) break;
    open.delete(best.key);
    if (best.cures.length === 0) continue;
    found.push(best);
    if (best.carry) for (const placed of [...left]) if (cures(best.key, placed)) left.delete(placed);
  }
  return found;
}

function cures(key: string, { fault }: PlacedFault): boolean {
  if (fault.buys.includes(key)) return true;
  return key === 'alternator' && fault.buys.some((part) => partsOfAlternator.has(part));
}
