/** Fuses and breakers: where, how large, and able to break what the bank can deliver. data/handbook/overcurrent.json */
import tables from '../../data/handbook/overcurrent.json' with { type: 'json' };
import type { BatteryTableName } from './batteries.ts';
import { citationOf, requireNumber, type Answer, type Citation } from './citation.ts';

export interface ProtectionPlace {
  readonly id: string;
  readonly words: string;
  readonly sheathed: boolean;
  /** Greatest distance from the source along the conductor [m]. */
  readonly distance: number;
  readonly citation: Citation;
}

/** Every published place rule, the voluntary ones first. */
export const protectionPlaces: readonly ProtectionPlace[] = tables.places.map((row) => ({
  id: row.id,
  words: row.words,
  sheathed: row.sheathed,
  distance: row.distance_m,
  citation: citationOf(row),
}));

/** Cases that need no device, in words, with their clauses. */
export const protectionExemptions: readonly { id: string; words: string; citation: Citation }[] =
  tables.exemptions.map((row) => ({ id: row.id, words: row.words, citation: citationOf(row) }));

/** Where the device must stand, by the voluntary small-craft rule.
 *  7 in (0.178 m) along the conductor; 72 in when sheathed and directly on a battery terminal; 40 in when sheathed and
 *  fed from a bus, switch or alternator.   Source: [E11, 11.10.1.1.1] */
export function protectionPlace(conductor: {
  from: 'battery-terminal' | 'other-source';
  sheathed: boolean;
}): ProtectionPlace {
  const id = conductor.sheathed ? conductor.from : 'source';
  const place = protectionPlaces.find((entry) => entry.id === id);
  if (!place)
    throw new RangeError(`protectionPlace: from "${conductor.from}" is not battery-terminal or other-source`);
  return place;
}

export type RatingRule = 'voluntary' | 'law-under-50' | 'law-50-up';
export type FuseFamily = 'blade' | 'bolt-in-small' | 'bolt-in-large' | 'class-t';

/** Standard ampere ratings [A]. [NEC240], from memory */
export const standardRatings: readonly number[] = [
  ...tables.standard_ratings.fuse_only_A,
  ...tables.standard_ratings.breaker_A,
];

export type FuseWindow =
  | {
      readonly kind: 'ok';
      /** Smallest standard rating that carries the load for good [A]. */
      readonly rating: Answer;
      /** Least rating for the load [A]: load / 0.8. */
      readonly least: number;
      /** Largest standard rating that still protects the conductor [A]. */
      readonly most: number;
    }
  /** The conductor is too thin for any fuse that carries the load: take the next size. */
  | {
      readonly kind: 'no-rating-fits';
      readonly least: number;
      readonly most: number;
      readonly citation: Citation;
    };

/** Ratings that carry the load and protect the conductor.
 *    least = load / 0.8          most = the largest standard rating ≤ limit · ampacity,
 *    or, where none equals the ampacity, the next standard rating up if ≤ 1.5 · ampacity
 *  Source: [E11, 11.10.2.3], [CFR455(c)]; 80 % loading [NEC240] from memory (75 % in hot spaces: common practice)
 *  Valid: any load > 0.   Leaves out: fuse derating by its own temperature curve.   Errors: RangeError for values ≤ 0 */
export function fuseWindow(circuit: {
  loadCurrent: number;
  ampacity: number;
  rule?: RatingRule;
  hotSpace?: boolean;
  ratings?: readonly number[];
}): FuseWindow {
  const { loadCurrent, ampacity, rule = 'voluntary', hotSpace = false, ratings = standardRatings } = circuit;
  requireNumber('fuseWindow', 'loadCurrent', loadCurrent, 'A', 'positive');
  requireNumber('fuseWindow', 'ampacity', ampacity, 'A', 'positive');
  const rules = ratingRule(rule);
  const loading = hotSpace ? tables.continuous_loading.hot_ratio : tables.continuous_loading.limit_ratio;
  const least = loadCurrent / loading;
  const most = largestFuse(ampacity, rule, ratings);
  const citation = citationOf(rules);
  const rating = ratings.find((size) => size >= least * (1 - 1e-9));
  if (rating === undefined || rating > most) return { kind: 'no-rating-fits', least, most, citation };
  return {
    kind: 'ok',
    least,
    most,
    rating: {
      name: 'fuse or breaker rating',
      value: rating,
      dimension: 'current',
      formula: `smallest standard rating ≥ load / ${loading}; ${rules.words}`,
      inputs: [
        { name: 'load current', value: loadCurrent, dimension: 'current' },
        { name: 'conductor ampacity', value: ampacity, dimension: 'current' },
        { name: 'loading allowed for good', value: loading, dimension: 'ratio' },
      ],
      citation,
      margin: (most - rating) / most,
    },
  };
}

/** Largest standard rating [A] that still protects a conductor of this ampacity [A], as above; 0 when none does. */
export function largestFuse(
  ampacity: number,
  rule: RatingRule = 'voluntary',
  ratings: readonly number[] = standardRatings,
): number {
  requireNumber('largestFuse', 'ampacity', ampacity, 'A', 'positive');
  const { limit_ratio: limit, next_size_ratio: nextLimit } = ratingRule(rule);
  const cap = ampacity * limit * (1 + 1e-9);
  const within = ratings.findLast((size) => size <= cap) ?? 0;
  if (Math.abs(within - ampacity * limit) <= 1e-9 * ampacity) return within;
  const next = ratings.find((size) => size > cap);
  return next !== undefined && next <= ampacity * nextLimit * (1 + 1e-9) ? next : within;
}

/** Largest rating [A] allowed at an alternator that does not limit itself.   1.2 · rated output at 60 °C
 *  Source: [CFR460(b)], from memory.   Claw-pole machines limit themselves and are excepted. */
export function alternatorDeviceLimit(ratedOutputAt60: number): Answer {
  requireNumber('alternatorDeviceLimit', 'ratedOutputAt60', ratedOutputAt60, 'A', 'positive');
  return {
    name: 'largest overcurrent device at the alternator',
    value: tables.alternator_device.limit_ratio * ratedOutputAt60,
    dimension: 'current',
    formula: tables.alternator_device.words,
    inputs: [{ name: 'largest rated output at 60 °C', value: ratedOutputAt60, dimension: 'current' }],
    citation: citationOf(tables.alternator_device),
  };
}

/** Short-circuit current that a bank can drive through a loop.   I = U0 / (R_bank + R_loop)
 *  I [A]  U0 rest voltage [V]  R [Ω]   Source: Ohm [TEXTBOOK]   Leaves out: inductance (only slows the rise) */
export function prospectiveShortCircuitCurrent(bank: {
  restVoltage: number;
  bankResistance: number;
  loopResistance?: number;
}): Answer {
  const { restVoltage, bankResistance, loopResistance = 0 } = bank;
  requireNumber('prospectiveShortCircuitCurrent', 'restVoltage', restVoltage, 'V', 'positive');
  requireNumber('prospectiveShortCircuitCurrent', 'bankResistance', bankResistance, 'Ω', 'positive');
  requireNumber('prospectiveShortCircuitCurrent', 'loopResistance', loopResistance, 'Ω', 'not negative');
  return {
    name: 'prospective short-circuit current',
    value: restVoltage / (bankResistance + loopResistance),
    dimension: 'current',
    formula: 'I = U0 / (R_bank + R_loop)',
    inputs: [
      { name: 'rest voltage', value: restVoltage, dimension: 'voltage' },
      { name: 'bank resistance', value: bankResistance, dimension: 'resistance' },
      { name: 'loop resistance', value: loopResistance, dimension: 'resistance' },
    ],
    citation: { source: 'TEXTBOOK', clause: "Ohm's law", edition: '', seen: 'M', confidence: 'high' },
  };
}

/** Usual resistance [Ω], low and high, of a flooded 12 V bank of so much capacity [C]: 3 to 6 mΩ at 100 Ah, inverse in
 *  capacity.   From memory, textbook class. Other chemistries: the maker's figure. */
export function floodedBankResistance(capacity: number): { low: number; high: number; citation: Citation } {
  requireNumber('floodedBankResistance', 'capacity', capacity, 'C', 'positive');
  const { low_ohm, high_ohm, capacity_Ah } = tables.flooded_resistance;
  const scale = (capacity_Ah * 3600) / capacity;
  return { low: low_ohm * scale, high: high_ohm * scale, citation: citationOf(tables.flooded_resistance) };
}

export interface InterruptingNeed {
  /** A; the device's interrupting rating must be at least this. */
  readonly least: number;
  readonly citation: Citation;
  /** Fuse families whose breaking capacity is enough. */
  readonly families: readonly FuseFamily[];
}

/** What the device on the bank must be able to break.
 *  Lead-acid with known cranking amps: the breaker table, and the prospective current where it is known and larger.
 *  LiFePO4: the prospective current, and never under the 20 kA class.
 *  Source: [E11, table IV-B] from memory; [E13] from memory; families [ISO8820], [UL248] from memory
 *  Errors: RangeError when neither cranking amps nor prospective current is given for lead-acid */
export function interruptingNeed(bank: {
  chemistry: BatteryTableName;
  position: 'main' | 'branch';
  crankingCurrent?: number;
  prospectiveCurrent?: number;
}): InterruptingNeed {
  const { chemistry, position, crankingCurrent, prospectiveCurrent = 0 } = bank;
  if (chemistry === 'lifepo4') {
    const table = tables.lithium_interrupting;
    return need(Math.max(table.least_A, prospectiveCurrent), citationOf(table));
  }
  if (crankingCurrent === undefined) {
    requireNumber('interruptingNeed', 'prospectiveCurrent', prospectiveCurrent, 'A', 'positive');
    return need(prospectiveCurrent, {
      source: 'TEXTBOOK',
      clause: 'prospective short circuit',
      edition: '',
      seen: 'D',
    });
  }
  requireNumber('interruptingNeed', 'crankingCurrent', crankingCurrent, 'A', 'positive');
  const table = tables.breaker_interrupting;
  const row = table.rows.find(
    (entry) => entry.cranking_current_up_to_A === null || crankingCurrent <= entry.cranking_current_up_to_A,
  )!;
  return need(
    Math.max(position === 'main' ? row.main_A : row.branch_A, prospectiveCurrent),
    citationOf(table),
  );
}

/** Ratings and breaking capacity of a fuse family. [ISO8820], [UL248], from memory */
export function fuseFamily(id: FuseFamily): {
  words: string;
  ratings: readonly number[];
  breakingCurrent: number;
  voltage: number;
  citation: Citation;
} {
  const row = tables.fuse_families.find((entry) => entry.id === id);
  if (!row)
    throw new RangeError(
      `fuseFamily: "${id}" is not one of ${tables.fuse_families.map((f) => f.id).join(', ')}`,
    );
  return {
    words: row.words,
    ratings: row.ratings_A,
    breakingCurrent: row.breaking_A,
    voltage: row.voltage_V,
    citation: citationOf(row),
  };
}

function need(least: number, citation: Citation): InterruptingNeed {
  const families = tables.fuse_families
    .filter((row) => row.breaking_A >= least)
    .map((row) => row.id as FuseFamily);
  return { least, citation, families };
}

function ratingRule(rule: RatingRule): (typeof tables.rating_rules)[number] {
  const rules = tables.rating_rules.find((entry) => entry.id === rule);
  if (!rules) throw new RangeError(`fuseWindow: rule "${rule}" is not voluntary, law-under-50 or law-50-up`);
  return rules;
}
