/** Errors of a number, on its error scale, and those that readings share. */
import type { CheckOutcome, PlacedCheck } from '../checks/index.ts';
import type { Condition, Probe } from '../operate/index.ts';
import { errorScaleOf } from './error-scale.ts';
import type { SharedError } from './inference/index.ts';
import criteria from './criteria.json' with { type: 'json' };

type NumberOutcome = Extract<CheckOutcome, { kind: 'number' }>;

/** Gain error of a hand-held voltmeter, the same for all of its readings [1]; common practice, 0.5 % limits. */
const METER_GAIN = 0.0025;

export interface Errors {
  readonly sigma: number;
  readonly discrepancy: number;
  /** What the model is off by on top where laws disagree widely. */
  readonly tail: number;
  readonly shared: readonly SharedError[];
}

/** Errors of a check at a value in its unit.
 *    voltages of one meter                          share its gain error
 *    volts of one bank at rest; of all banks on     share half the variance of what the battery law may be off by
 *    charge; of all under a heavy load
 *    charging amps, and volts that they lose        share half the variance of what the law of acceptance may be off by
 *  A law that is off for one bank is off for the next; where charging amps are more than foretold, so is what they lose, whichever
 *  way the leads are held. The halves are an estimate: a bank that takes more than its law says does so at idle and at speed
 *  alike, but not wholly.
 *  Errors: RangeError for a check that gives no number */
export function errorsAt(check: PlacedCheck, meter: string | undefined, value: number): Errors {
  const { outcome, condition } = check;
  if (outcome.kind !== 'number') throw new RangeError(`errorsAt: ${check.id} gives no number`);
  const slope = errorScaleOf(outcome).slope(value);
  const model = slope * outcome.modelSigma(value);
  const shared: SharedError[] = [];
  if (outcome.probe.kind === 'dc-volts') {
    const gain = METER_GAIN * Math.abs(value) + 1e-4;
    shared.push({ group: `meter ${meter ?? ''}`, sigma: slope * gain });
  }
  const law = lawBehind(outcome, condition);
  if (law !== undefined)
    shared.push({ group: law, sigma: outcome.lost && value < 0 ? -HALF * model : HALF * model });
  return {
    sigma: slope * outcome.meterSigma(value),
    discrepancy: law === undefined ? model : HALF * model,
    tail: isWorked(outcome.probe, condition) ? TAIL * model : 0,
    shared,
  };
}

/** Chance that an answer in words says nothing: eyes and memories err more often than a hand that reads a meter. */
export function answerSlip({ text }: PlacedCheck): number {
  return text.way === 'ask' ? criteria.slipOfMemory : criteria.slipOfEye;
}

const HALF = Math.SQRT1_2;
/** Volts and amps of machines and banks at work are where two published laws disagree widely on some boats; with everything
 *  off they agree. */
const isWorked = ({ kind }: Probe, { engine, loads }: Condition): boolean =>
  (kind.endsWith('volts') || kind.endsWith('amps')) && (engine !== 'off' || loads !== 'off');

/** Brings the error of a model to three times itself. */
const TAIL = Math.sqrt(8);

/** The law whose error a reading shares with others. */
function lawBehind({ probe, lost }: NumberOutcome, { engine, loads }: Condition): string | undefined {
  const charging = engine === 'running' && loads !== 'test';
  if (lost) return charging ? 'law of acceptance' : undefined;
  switch (probe.kind) {
    case 'alternator-amps':
    case 'battery-amps':
      return charging ? 'law of acceptance' : undefined;
    case 'dc-volts': {
      const bank = probe.plus.endsWith('.+') ? probe.plus.slice(0, -2) : undefined;
      if (bank === undefined || probe.minus !== `${bank}.-`) return undefined;
      if (engine === 'running') return 'law of banks on charge';
      return engine === 'cranking' || loads === 'test'
        ? 'law of banks under a heavy load'
        : `law of ${bank} at rest`;
    }
    default:
      return undefined;
  }
}
