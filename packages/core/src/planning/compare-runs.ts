/** The same plan for a boat and for its what-ifs, side by side: runs, figures, what each gains and costs in words. */
import { boatAt, type BoatDescription } from '../boat/index.ts';
import { chargeRun, type ChargeRun, type Phase, type RunOptions } from '../operate/index.ts';
import { systemRules, type RuleResult } from '../remedy/index.ts';
import { servesOf } from './run-bands.ts';
import { comparedRows, type ComparedRow } from './compared-rows.ts';
import { runFigures, type RunFigures } from './run-figures.ts';
import { saidOf } from './said-of.ts';
import type { Variant } from './variant.ts';

export interface RunOutcome {
  readonly run: ChargeRun;
  readonly figures: RunFigures;
  /** Rules that the boat breaks, or nearly; in words with their advice. */
  readonly cautions: readonly RuleResult[];
}

export interface ComparedVariant extends RunOutcome {
  readonly variant: Variant;
  /** Plain sentences against the boat as it is. */
  readonly gains: readonly string[];
  readonly costs: readonly string[];
  /** Rules that it breaks and the boat as it is does not. */
  readonly newCautions: readonly RuleResult[];
}

export interface Comparison {
  readonly ended: 'done' | 'cancelled';
  /** The boat as it is. */
  readonly base: RunOutcome;
  /** In the order asked for; shorter when cancelled. */
  readonly variants: readonly ComparedVariant[];
  /** The table of differences. */
  readonly rows: readonly ComparedRow[];
}

export interface CompareOptions extends Pick<RunOptions, 'stateOfCharge' | 'tolerance'> {
  /** Called after each run with the share done; false cancels. */
  readonly onProgress?: (done: number) => boolean | undefined;
}

/** Errors: RangeError for what `chargeRun` refuses. */
export function compareRuns(
  description: BoatDescription,
  plan: readonly Phase[],
  variants: readonly Variant[],
  options: CompareOptions = {},
): Comparison {
  const { onProgress, ...rest } = options;
  const base = outcomeOf(description, plan, rest);
  const broken = new Set(base.cautions.map(({ id }) => id));
  const compared: ComparedVariant[] = [];
  let ended: Comparison['ended'] = 'done';
  const whole = variants.length + 1;
  if (onProgress?.(1 / whole) === false) ended = 'cancelled';
  for (const variant of variants) {
    if (ended === 'cancelled') break;
    const outcome = outcomeOf(variant.description, plan, rest);
    compared.push({
      ...outcome,
      variant,
      ...saidOf(base.figures, outcome.figures, variant),
      newCautions: outcome.cautions.filter(({ id }) => !broken.has(id)),
    });
    if (onProgress?.((compared.length + 1) / whole) === false && compared.length < variants.length)
      ended = 'cancelled';
  }
  return {
    ended,
    base,
    variants: compared,
    rows: comparedRows(
      base.figures,
      compared.map(({ figures }) => figures),
    ),
  };
}

function outcomeOf(
  description: BoatDescription,
  plan: readonly Phase[],
  options: Pick<RunOptions, 'stateOfCharge' | 'tolerance'>,
): RunOutcome {
  const boat = boatAt(description);
  const run = chargeRun(boat, plan, options);
  return {
    run,
    figures: runFigures(boat, run, servesOf(description)),
    cautions: systemRules(description).filter(({ standing }) => standing === 'broken'),
  };
}
