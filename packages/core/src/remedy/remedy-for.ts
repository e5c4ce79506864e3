/** From a verdict and the rules to an ordered work list.
 *
 *  Order: be safe; prove what a dear part is condemned for; the acts of the first suspect in the order of the work; then
 *  what the broken rules ask for. Nothing is advised to be bought below `buyFrom` of probability: the next check is
 *  cheaper than a wrong part.
 */
import table from '../../data/remedies.json' with { type: 'json' };
import { boatAt, chargingPaths, type BoatDescription } from '../boat/index.ts';
import { placedChecks, type PlacedCheck } from '../checks/index.ts';
import { sureness, type Band, type Suspect, type Verdict } from '../diagnosis/index.ts';
import { faultById, priceTable, remedyPrice, type Fault, type PriceTable } from '../faults/index.ts';
import { stateOfChargeFromRestVoltage } from '../handbook/index.ts';
import type { Reading } from '../readings/index.ts';
import { chargingHours } from './charging-hours.ts';
import { partsToGet } from './parts-to-get.ts';
import type { Act, CauseBehind, Cost, Otherwise, PartToGet, Proof, Remedy, WorkItem } from './remedy.ts';
import type { RuleId, RuleResult } from './rule.ts';
import { systemRules } from './system-rules.ts';

export interface RemedyOptions {
  /** Healthy bands by placed check: what the repaired boat must read. Take them from `session.predict` of the boat of
   *  `repairedDescription`, which has the new sizes; a repair that changes no size leaves the boat as it is. */
  readonly bands?: ReadonlyMap<string, Band>;
  readonly readings?: readonly Reading[];
  readonly prices?: PriceTable;
  /** Checks of the boat, where they are at hand already. */
  readonly checks?: readonly PlacedCheck[];
}

/** Least probability at which a part is advised to be bought, and at which another suspect is still named. */
const buyFrom = 0.5;
const nameFrom = 0.08;
const PRICES_ARE = 'estimates in no currency in particular; put your own prices in';

interface Row {
  readonly safe: string;
  readonly steps: readonly { readonly act: Act; readonly words: string }[];
  readonly prove: readonly string[];
  readonly rules: readonly string[];
  readonly baseline: readonly string[];
  /** Parts beside those that the fault's own list buys. */
  readonly parts: readonly string[];
}

const rows = new Map<string, Row>(table.remedies.map((row) => [row.id, row as Row]));
const safeWords: Readonly<Record<string, string | null>> = table.safe;
const proveAlways: Readonly<Record<string, readonly string[]>> = table.proveAlways;

/** The remedy of a verdict. */
export function remedyFor(
  description: BoatDescription,
  verdict: Verdict,
  options: RemedyOptions = {},
): Remedy {
  const { prices = priceTable, checks = placedChecks(description) } = options;
  const first = verdict.suspects[0];
  const rules = systemRules(description).filter(
    ({ standing }) => standing === 'broken' || standing === 'near',
  );
  const hours = chargingHours(description, chargeRead(description, options.readings ?? []));
  if (first === undefined || verdict.nothingFits >= 0.5) return readAgain(verdict, rules);
  const fault = faultById(first.fault);
  const row = rowOf(fault);
  const others = verdict.suspects
    .slice(1)
    .filter(({ probability }) => probability >= nameFrom)
    .map((suspect) => otherwise(suspect, prices));
  const proof = proofOf(description, first, row, checks, options.bands);
  if (first.probability < buyFrom) return checkOn(first, verdict, others, rules, proof, prices);
  const normal = fault.nature === 'normal';
  const asked = askedRules(row, rules);
  const parts = partsToGet(description, fault, first.part, asked, prices, row.parts);
  return {
    kind: normal ? 'nothing-broken' : 'repair',
    suspect: first.id,
    probability: first.probability,
    sure: sureness(first.probability),
    words: fault.remedy,
    work: [
      ...safety(first, row),
      ...clearing(first, fault, others),
      ...acted(first, row),
      ...fromRules(asked),
    ],
    whyItFailed: fault.causes,
    behind: behindOf(fault, checks),
    parts,
    cost: withParts(costOf(fault, prices), parts, fault),
    otherwise: others,
    rules,
    hours: needsHours(fault) ? hours : [],
    proof,
    baseline: [...table.baselineAlways, ...row.baseline],
    cautions: cautionsOf(row),
  };
}

function rowOf(fault: Fault): Row {
  const row = rows.get(fault.id);
  if (row === undefined) throw new RangeError(`remedyFor: no remedy for "${fault.id}"`);
  return row;
}

function safety(suspect: Suspect, row: Row): WorkItem[] {
  const words = safeWords[row.safe] ?? null;
  return words === null ? [] : [{ act: 'make-safe', words, because: suspect.id }];
}

const acted = (suspect: Suspect, row: Row): WorkItem[] =>
  row.steps.map(({ act, words }) => ({ act, words, because: suspect.id }));

/** Before money is spent: what would clear the part against the next likely suspect. */
function clearing(suspect: Suspect, fault: Fault, others: readonly Otherwise[]): WorkItem[] {
  const next = others[0];
  if (suspect.probability >= 0.85 || next === undefined || fault.buys.length === 0) return [];
  return [
    {
      act: 'prove-first',
      words: `Not certain yet: rule out "${next.words}" before a part is bought.`,
      because: next.suspect,
    },
  ];
}

const fromRules = (rules: readonly RuleResult[]): WorkItem[] =>
  rules.flatMap(({ id, rule, advice, words }) =>
    advice === undefined ? [] : [{ act: actOfRule[rule], words: `${words}: ${advice}`, because: id }],
  );

const actOfRule: Readonly<Record<RuleId, Act>> = {
  'charge-cable-drop': 'replace',
  'charge-cable-ampacity': 'replace',
  fuse: 'replace',
  belt: 'replace',
  'bank-share': 'use-otherwise',
  'lithium-load': 'replace',
  'set-point': 'set',
  'idle-cut-in': 'use-otherwise',
  'engine-share': 'set',
  'rotor-speed': 'replace',
  'engine-space': 'ventilate',
};

/** Rules that belong to this remedy: those of its row, and any that is broken outright. */
function askedRules(row: Row, failing: readonly RuleResult[]): readonly RuleResult[] {
  return failing.filter(({ rule, standing }) => standing === 'broken' || row.rules.includes(rule));
}

function behindOf(fault: Fault, checks: readonly PlacedCheck[]): readonly CauseBehind[] {
  return fault.alsoCheck.map((id) => {
    const behind = faultById(id);
    const wanted = rowOf(behind).prove;
    const tell = wanted.flatMap((check) => checks.filter(({ text }) => text.id === check).slice(0, 1));
    return {
      fault: id,
      words: behind.words,
      checks: tell.slice(0, 2).map(({ id: placed, text }) => ({ check: placed, words: text.words })),
    };
  });
}

function proofOf(
  description: BoatDescription,
  suspect: Suspect,
  row: Row,
  checks: readonly PlacedCheck[],
  bands: ReadonlyMap<string, Band> | undefined,
): readonly Proof[] {
  const always = proveAlways[suspect.question] ?? [];
  const near = partsNear(description, suspect.part);
  const wanted = [...new Set([...always, ...row.prove])];
  return wanted.flatMap((id) => {
    const all = checks.filter(({ text }) => text.id === id);
    const own = all.filter(({ part }) => part === undefined || near.has(part));
    return (own.length > 0 ? own : all.slice(0, 1)).map((check) => proof(check, bands));
  });
}

/** Parts on the same charging path as a part. */
function partsNear(description: BoatDescription, part: string): ReadonlySet<string> {
  const paths = chargingPaths(description);
  const touching = paths.filter((path) => {
    const own = [path.alternator, path.engine, path.regulator, path.belt, path.lamp, path.battery];
    return own.includes(part) || [...path.outward, ...path.back].some((t) => t.startsWith(`${part}.`));
  });
  const chosen = touching.length > 0 ? touching : paths.slice(0, 1);
  const ids = chosen.flatMap((path) => [
    path.alternator,
    path.engine,
    path.regulator,
    path.belt,
    path.lamp,
    path.battery,
    ...[...path.outward, ...path.back].map((terminal) => terminal.split('.')[0]),
  ]);
  return new Set([part, ...ids.filter((id) => id !== undefined && id !== '')] as string[]);
}

function proof(check: PlacedCheck, bands: ReadonlyMap<string, Band> | undefined): Proof {
  const { outcome } = check;
  const number = outcome.kind === 'number';
  return {
    check: check.id,
    words: check.text.words,
    healthy: number ? bands?.get(check.id) : undefined,
    dimension: number ? outcome.dimension : undefined,
    answer: number ? undefined : outcome.answers[0]?.words,
  };
}

function costOf(fault: Fault, prices: PriceTable = priceTable): Cost {
  return { ...remedyPrice(fault, prices), currency: prices.currency, status: PRICES_ARE };
}

/** The fault's own price, and the parts beyond its own list. */
function withParts(cost: Cost, parts: readonly PartToGet[], fault: Fault): Cost {
  const more = parts.filter(({ key }) => !fault.buys.includes(key));
  return {
    ...cost,
    low: more.reduce((sum, { price }) => sum + price.low, cost.low),
    high: more.reduce((sum, { price }) => sum + price.high, cost.high),
  };
}

function otherwise(suspect: Suspect, prices: PriceTable): Otherwise {
  const fault = faultById(suspect.fault);
  return {
    suspect: suspect.id,
    words: suspect.words,
    probability: suspect.probability,
    remedy: fault.remedy,
    cost: costOf(fault, prices),
  };
}

const needsHours = (fault: Fault): boolean =>
  fault.question === 'enough' || fault.id === 'all-well' || fault.nature === 'normal';

function cautionsOf(row: Row): readonly string[] {
  const safe = safeWords[row.safe] ?? null;
  return [
    ...(safe === null ? [] : [safe]),
    "Local codes and standards, and the makers' instructions, come first; leave work beyond your licence to those who hold one.",
  ];
}

function checkOn(
  first: Suspect,
  verdict: Verdict,
  others: readonly Otherwise[],
  rules: readonly RuleResult[],
  proof: readonly Proof[],
  prices: PriceTable,
): Remedy {
  const next = verdict.next[0];
  return {
    ...nothingYet(rules),
    kind: 'check-on',
    suspect: first.id,
    probability: first.probability,
    sure: sureness(first.probability),
    words: 'No suspect is likely enough yet to spend money on.',
    work:
      next === undefined
        ? []
        : [
            {
              act: 'prove-first',
              words: `Do the next check: ${next.words}${/[?.]$/.test(next.words) ? '' : '.'}`,
              because: first.id,
            },
          ],
    otherwise: [otherwise(first, prices), ...others],
    proof,
  };
}

function readAgain(verdict: Verdict, rules: readonly RuleResult[]): Remedy {
  return {
    ...nothingYet(rules),
    kind: 'read-again',
    suspect: undefined,
    probability: verdict.nothingFits,
    sure: sureness(verdict.nothingFits),
    words: 'Nothing that is known fits these readings: take them again before anything is bought.',
    work: [{ act: 'prove-first', words: 'Take the readings that stand out once more.', because: '' }],
    otherwise: [],
    proof: [],
  };
}

function nothingYet(
  rules: readonly RuleResult[],
): Omit<Remedy, 'kind' | 'suspect' | 'probability' | 'sure' | 'words' | 'work' | 'otherwise' | 'proof'> {
  return {
    whyItFailed: [],
    behind: [],
    parts: [],
    cost: undefined,
    rules,
    hours: [],
    baseline: table.baselineAlways,
    cautions: [],
  };
}

/** State of charge by battery from a rest voltage, where one was read: lead-acid to about ±10 %. */
function chargeRead(description: BoatDescription, readings: readonly Reading[]): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const { batteries } = boatAt(description);
  for (const { check, outcome } of readings) {
    const [id, part] = check.split('@');
    if (outcome.kind !== 'number' || (id !== 'battery-volts-open' && id !== 'battery-volts-rest')) continue;
    const battery = batteries.find((one) => one.id === part);
    if (battery === undefined || (found.has(battery.id) && id === 'battery-volts-rest')) continue;
    const cell = outcome.value / battery.cells;
    found.set(battery.id, stateOfChargeFromRestVoltage(battery.chemistry, cell));
  }
  return found;
}
