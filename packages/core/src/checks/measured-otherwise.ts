/** What other instruments than voltmeter and clamp tell: ohms, temperature, belt and pulleys, the panel's own gauge. */
import { cablesAt, partsOfKind, type BoatDescription, type Fact } from '../boat/index.ts';
import type { Probe } from '../operate/index.ts';
import type { Placement } from './check.ts';
import { fast, fastSpeed, idleSpeed, off, running } from './conditions.ts';
import { answers, row, slip, step } from './outcomes.ts';
import { fieldReachable, forEachPath, number, questionOn } from './placing.ts';

export const measuredOtherwise: Readonly<Record<string, Placement>> = {
  'field-ohms': forEachPath((description, path) =>
    fieldReachable(description, path)
      ? {
          condition: off,
          outcome: number({
            kind: 'number',
            dimension: 'resistance',
            unit: 'ohm',
            probe: { kind: 'field-ohms', alternator: path.alternator },
            meterSigma: (value) => 0.1 + 0.01 * Math.abs(value),
            modelSigma: (value) => 0.2 + 0.3 * Math.abs(value),
            range: [0, 1e6],
          }),
        }
      : undefined,
  ),
  'bank-tester': questionOn(
    'battery',
    off,
    'Leads off: what does a battery tester say of this bank alone?',
    [
      { id: 'good', words: 'Good' },
      { id: 'charge-first', words: 'Charge it and test again' },
      { id: 'replace', words: 'Replace: weak, or a bad cell' },
    ],
    ({ boat, part }, out) => {
      const bank = boat.batteries.find(({ id }) => id === part);
      if (bank === undefined) {
        row(out, 1, 1, 1);
        return;
      }
      const weak = 1 - step(bank.health, 0.5, 0.06);
      const bad = Math.max(weak, step(bank.sulphation, 0.25, 0.06), bank.shortedCells > 0 ? 1 : 0);
      // An empty bank is seldom judged: the tester asks for a charge first.
      const empty = 0.6 * (1 - step(bank.stateOfCharge, 0.35, 0.06));
      row(out, 0.04 + 0.88 * (1 - bad) * (1 - empty), 0.05 + 0.88 * empty, 0.03 + 0.88 * bad * (1 - empty));
    },
    leadBanks,
  ),
  'drop-lugs': forEachPath((_, { alternator, outward }) => ({
    condition: fast,
    outcome: answers(
      'Of what is lost along the cable from the stud, where is it lost: at a lug, or evenly along the copper?',
      [
        { id: 'at-a-lug', words: 'Mostly between a stud and its lug, or lug and strands' },
        { id: 'along', words: 'Evenly along the copper' },
        { id: 'too-little', words: 'Too little is lost to tell' },
      ],
      (view, out) => {
        const ends = outward.slice(0, 2);
        const cable = view.boat.conductors.find(({ from, to }) => ends.includes(from) && ends.includes(to));
        const amps = Math.abs(view.at(fast).alternators.find(({ id }) => id === alternator)?.output ?? 0);
        const joints = (cable?.joints ?? 0) * amps;
        const copper = Math.min(cable?.resistance ?? 0, 10) * amps;
        const tells = step(joints + copper, (0.15 * view.boat.nominalVoltage) / 12, 0.04);
        const lug = step((joints - copper) / (joints + copper + 1e-6), 0, 0.25);
        row(out, 0.04 + 0.88 * tells * lug, 0.04 + 0.88 * tells * (1 - lug), 0.04 + 0.88 * (1 - tells));
      },
    ),
  })),
  'lead-ohms': questionOn(
    'cable',
    off,
    'Both ends off: what does the ohmmeter say of this lead?',
    [
      { id: 'good', words: 'Less than 0.3 Ω, and steady when it is moved' },
      { id: 'poor', words: 'More, but not open' },
      { id: 'open', words: 'Open' },
    ],
    ({ boat, part }, out) => {
      const lead = boat.conductors.find(({ id }) => id === part);
      const ohms = (lead?.resistance ?? 0) + (lead?.joints ?? 0);
      const open = Number.isFinite(ohms) ? step(Math.log10(ohms + 1e-6), 4, 0.5) : 1;
      const poor = (1 - open) * step(Math.log10(Math.min(ohms, 1e9) + 1e-6), Math.log10(0.3), 0.1);
      row(out, 0.02 + 0.94 * (1 - open - poor), 0.02 + 0.94 * poor, 0.02 + 0.94 * open);
    },
    controlLeads,
  ),
  'sets-in': forEachPath((description, { alternator }) => ({
    condition: running(idleSpeed(description), 240, { revved: true }),
    outcome: answers(
      'Meter on the stud or the bank: how long after the start does charging set in?',
      [
        { id: 'at-once', words: 'Within ten seconds' },
        { id: 'within-a-minute', words: 'Later, within a minute' },
        { id: 'later', words: 'Later still, within four minutes' },
        { id: 'never', words: 'Not within four minutes' },
      ],
      (view, out) => {
        const charges = (sinceStart: number): number => {
          const point = view.at(running(idleSpeed(description), sinceStart, { revved: true }));
          const own = point.alternators.find(({ id }) => id === alternator);
          return step(own?.output ?? 0, 2, 0.7);
        };
        const [early, minute, late] = [charges(10), charges(65), charges(240)];
        const byMinute = Math.max(early, minute);
        const byEnd = Math.max(byMinute, late);
        row(
          out,
          0.03 + 0.88 * early,
          0.03 + 0.88 * (byMinute - early),
          0.03 + 0.88 * (byEnd - byMinute),
          0.03 + 0.88 * (1 - byEnd),
        );
      },
    ),
  })),
  'case-temperature': forEachPath((_, { alternator }) => ({
    condition: running(fastSpeed, 1800),
    outcome: number({
      kind: 'number',
      dimension: 'temperature',
      unit: 'degC',
      probe: { kind: 'case-temperature', alternator },
      meterSigma: () => 3,
      modelSigma: () => 10,
      range: [250, 500],
    }),
  })),
  'belt-slip': forEachPath((_, { alternator, belt }) =>
    belt === undefined ? undefined : { condition: fast, outcome: slip(alternator) },
  ),
  'pulley-ratio': forEachPath((_, { alternator, belt }) =>
    belt === undefined
      ? undefined
      : {
          condition: off,
          outcome: number({
            kind: 'number',
            dimension: 'ratio',
            unit: '1',
            probe: { kind: 'pulley-ratio', alternator },
            meterSigma: (value) => 0.02 * Math.abs(value) + 0.01,
            modelSigma: () => 0.02,
            range: [0.5, 5],
          }),
        },
  ),
  'gauge-volts': onGauges((id) => ({ kind: 'gauge-volts', gauge: id }), 0.3, [0, 18]),
  'label-amps': onLabels(
    'alternator',
    (description) =>
      partsOfKind(description, 'alternator').filter(({ quantities }) => !isRead(quantities.rated_current)),
    (id) => ({ kind: 'label-amps', alternator: id }),
    { dimension: 'current', unit: 'A', range: [5, 600] },
  ),
  'label-amp-hours': onLabels(
    'battery',
    (description) =>
      partsOfKind(description, 'battery').filter(({ quantities }) => !isRead(quantities.capacity)),
    (id) => ({ kind: 'label-amp-hours', battery: id }),
    { dimension: 'charge', unit: 'Ah', range: [10 * 3600, 3000 * 3600] },
  ),
  'gauge-against-meter': onGauges((id) => ({ kind: 'gauge-error', gauge: id }), 0.05, [-5, 5]),
};

function leadBanks(description: BoatDescription): readonly string[] {
  return partsOfKind(description, 'battery')
    .filter(({ choices }) => choices.chemistry !== 'lifepo4')
    .map(({ id }) => id);
}

/** Thin leads of field, regulator, lamp and key: those that carry no charging current. */
function controlLeads(description: BoatDescription): readonly string[] {
  const found = new Set([
    ...cablesAt(description, 'regulator', ['F', 'supply', 'sense', 'enable']),
    ...cablesAt(description, 'alternator', ['F', 'D+']),
  ]);
  return partsOfKind(description, 'cable').flatMap(({ id }) => (found.has(id) ? [id] : []));
}

/** What a panel's needle tells at speed; `model` and `range` in volts at 12 V. A needle is read within 0.15 V. */
function onGauges(
  probe: (id: string) => Probe,
  model: number,
  [low, high]: readonly [number, number],
): Placement {
  return {
    on: 'gauge',
    sites: (description) => {
      const scale = description.nominalVoltage / 12;
      return partsOfKind(description, 'gauge').map(({ id }) => ({
        part: id,
        condition: fast,
        outcome: number({
          kind: 'number',
          dimension: 'voltage',
          unit: 'V',
          probe: probe(id),
          meterSigma: () => 0.15 * scale,
          modelSigma: () => model * scale,
          range: [low * scale, high * scale],
        }),
      }));
    },
  };
}

/** Whether a fact was read off the part itself. */
function isRead(fact: Fact | undefined): boolean {
  return fact?.origin === 'nameplate' || fact?.origin === 'measured';
}

/** What is printed on a part, where nobody has read it yet. A label is taken to be right within 3 %. */
function onLabels(
  on: 'alternator' | 'battery',
  parts: (description: BoatDescription) => readonly { readonly id: string }[],
  probe: (id: string) => Probe,
  what: {
    readonly dimension: 'current' | 'charge';
    readonly unit: string;
    readonly range: readonly [number, number];
  },
): Placement {
  return {
    on,
    sites: (description) =>
      parts(description).map(({ id }) => ({
        part: id,
        condition: off,
        outcome: number({
          kind: 'number',
          ...what,
          probe: probe(id),
          meterSigma: (value) => 0.03 * Math.abs(value) + 0.1 * what.range[0],
          modelSigma: () => 0,
        }),
      })),
  };
}
