/** Makers of outcomes: numbers with their errors, answers with their chances. Errors scale with the boat's voltage. */
import type { BoatDescription } from '../boat/index.ts';
import type { Probe } from '../operate/index.ts';
import type { Answer, CheckOutcome, View } from './check.ts';

/** A digital meter on DC volts: 0.5 % and two counts of 10 mV. Source: common practice for hand-held meters. */
const meterVolts = (value: number): number => 0.0025 * Math.abs(value) + 0.01;

/** Volts between two terminals; `model` is what the physics may be off by at 12 V, beside a share of small drops. */
export function volts(
  description: BoatDescription,
  plus: string,
  minus: string,
  model: number,
  highest = 18,
): CheckOutcome {
  const scale = description.nominalVoltage / 12;
  return {
    kind: 'number',
    dimension: 'voltage',
    unit: 'V',
    probe: { kind: 'dc-volts', plus: plus as `${string}.${string}`, minus: minus as `${string}.${string}` },
    meterSigma: meterVolts,
    modelSigma: () => model * scale,
    range: [-1 * scale, highest * scale],
  };
}

/** Volts lost along conductors: small, and in proportion to a current that is itself uncertain. */
export function drop(description: BoatDescription, plus: string, minus: string): CheckOutcome {
  const scale = description.nominalVoltage / 12;
  return {
    kind: 'number',
    dimension: 'voltage',
    unit: 'V',
    probe: { kind: 'dc-volts', plus: plus as `${string}.${string}`, minus: minus as `${string}.${string}` },
    meterSigma: () => 0.01,
    modelSigma: (value) => 0.03 * scale + 0.15 * Math.abs(value),
    lost: true,
    range: [-16 * scale, 16 * scale],
  };
}

/** Volts across a switch that leads to another bank: what flows between banks, or across an open switch what they differ by. */
export function acrossBanks(description: BoatDescription, plus: string, minus: string): CheckOutcome {
  const scale = description.nominalVoltage / 12;
  const like = drop(description, plus, minus);
  return {
    ...like,
    modelSigma: (value: number) => 0.1 * scale + 0.25 * Math.abs(value),
  } as CheckOutcome;
}

export function amps(probe: Probe, highest: number): CheckOutcome {
  return {
    kind: 'number',
    dimension: 'current',
    unit: 'A',
    probe,
    meterSigma: (value) => 0.02 * Math.abs(value) + 0.3,
    modelSigma: (value) => 0.08 * Math.abs(value) + 0.7,
    range: [-highest, highest],
  };
}

/** Amps while charging: near the set-point they are what the bank accepts, and battery laws differ most in that. */
export function chargingAmps(probe: Probe): CheckOutcome {
  return { ...amps(probe, 500), modelSigma: (value: number) => 0.12 * Math.abs(value) + 2 } as CheckOutcome;
}

/** Amps of a bank that is joined to another: a few hundredths of a volt between them drive amps. */
export function ampsBetweenBanks(probe: Probe): CheckOutcome {
  return { ...amps(probe, 500), modelSigma: (value: number) => 0.12 * Math.abs(value) + 3 } as CheckOutcome;
}

/** Amps at idle: near cut-in the output climbs steeply, and two descriptions of a machine differ most. */
export function ampsNearCutIn(probe: Probe): CheckOutcome {
  return { ...amps(probe, 500), modelSigma: (value: number) => 0.2 * Math.abs(value) + 4 } as CheckOutcome;
}

/** AC volts at the stud. */
export function ripple(description: BoatDescription, alternator: string): CheckOutcome {
  return {
    kind: 'number',
    dimension: 'voltage',
    unit: 'V',
    probe: { kind: 'ac-volts', plus: `${alternator}.B+`, minus: `${alternator}.case`, alternator },
    meterSigma: (value) => 0.005 + 0.05 * Math.abs(value),
    modelSigma: (value) => 0.035 + 0.4 * Math.abs(value),
    range: [0, (5 * description.nominalVoltage) / 12],
  };
}

/** Share of the speed that a belt loses. */
export function slip(alternator: string): CheckOutcome {
  return {
    kind: 'number',
    dimension: 'ratio',
    unit: '%',
    probe: { kind: 'belt-slip', alternator },
    meterSigma: () => 0.01,
    modelSigma: (value) => 0.01 + 0.2 * Math.abs(value),
    range: [-0.1, 1],
  };
}

/** A question with its answers and their chances in a possible world. */
export function answers(
  question: string,
  list: readonly Answer[],
  chances: (view: View, out: Float64Array) => void,
): CheckOutcome {
  return { kind: 'answers', question, answers: list, chances };
}

/** Writes a row of chances, scaled to a sum of one. */
export function row(out: Float64Array, ...chances: readonly number[]): void {
  const sum = chances.reduce((total, chance) => total + chance, 0);
  for (let index = 0; index < chances.length; index++) out[index] = (chances[index] ?? 0) / sum;
}

/** Logistic step from 0 to 1 as `value` passes `middle`. */
export function step(value: number, middle: number, width: number): number {
  return 1 / (1 + Math.exp(-(value - middle) / width));
}
