/** What can be looked at. */
import { chargingPaths, chargingShare, leastShare, partsOfKind } from '../boat/index.ts';
import type { AlternatorPoint } from '../operate/index.ts';
import type { Answer, Placement, Site, View } from './check.ts';
import { fast, keyOn, off } from './conditions.ts';
import { answers, row, step } from './outcomes.ts';
import { questionOn } from './placing.ts';

const yes: Answer = { id: 'yes', words: 'Yes' };
const no: Answer = { id: 'no', words: 'No' };
const unsure: Answer = { id: 'unsure', words: 'Cannot tell' };

const dark: Answer = { id: 'dark', words: 'Dark' };
const dim: Answer = { id: 'dim', words: 'Glows dimly' };
const bright: Answer = { id: 'bright', words: 'Bright' };

/** Chances of dark, dim, bright for a share of nominal voltage at the lamp. */
function lampRow(glow: number, out: Float64Array): void {
  const lit = step(glow, 0.12, 0.03);
  const full = step(glow, 0.55, 0.07);
  row(out, 0.02 + 0.95 * (1 - lit), 0.015 + 0.95 * (lit - full * lit), 0.015 + 0.95 * lit * full);
}

/** Ohms between rings and brushes for a 12 V machine from which the winding itself is broken, not the contact. */
const ROTOR_BROKEN = 50_000;

const brushesOf = (boat: View['boat'], part: string): number =>
  (boat.alternators.find((one) => one.id === part)?.brushResistance ?? 0) / (boat.nominalVoltage / 12);

/** The machine that gives an engine's tachometer its signal. */
function machineOf(view: View, engine: string): AlternatorPoint | undefined {
  const own = view.boat.alternators.find((one) => one.engine === engine) ?? view.boat.alternators[0];
  return view.at(fast).alternators.find(({ id }) => id === own?.id);
}

/** Chances of steady, dead, jumping, unsure: no field, no signal; a slipping belt makes it jump. */
function tachometerRow(machine: AlternatorPoint | undefined, out: Float64Array): void {
  const silent = machine === undefined || !machine.excited || machine.fieldCurrent < 0.1 ? 1 : 0;
  const slips = step(machine?.slip ?? 0, 0.2, 0.05) * (1 - silent);
  row(
    out,
    0.82 - 0.7 * silent - 0.44 * slips,
    0.05 + 0.62 * silent,
    0.04 + 0.08 * silent + 0.44 * slips,
    0.09,
  );
}

const glowOf = (view: View, condition: Site['condition']): number =>
  view.at(condition).lamps.find((lamp) => lamp.id === view.part)?.glow ?? 0;

export const seen: Readonly<Record<string, Placement>> = {
  'look-belt': questionOn(
    'belt',
    off,
    'What does the belt look like?',
    [
      { id: 'good', words: 'Tight, clean, edges whole' },
      { id: 'loose', words: 'Loose or glazed: gives more than a finger’s width' },
      { id: 'dusty', words: 'Black dust on everything near it' },
      { id: 'missing', words: 'Broken or gone' },
    ],
    ({ boat, part }, out) => {
      const belt = boat.belts.find((one) => one.id === part);
      if (belt === undefined || belt.grip <= 0) {
        row(out, 0.01, 0.02, 0.02, 0.95);
        return;
      }
      const slack = 1 - step(belt.grip, 0.65, 0.08);
      const dust = belt.dust;
      const dusty = 0.03 + 0.82 * dust * (1 - 0.35 * slack);
      const loose = (0.05 + 0.7 * slack) * (1 - dusty);
      row(out, 1 - dusty - loose - 0.005, loose, dusty, 0.005);
    },
  ),
  'look-belt-line': questionOn(
    'belt',
    off,
    'Do the pulleys stand in one line?',
    [yes, no, unsure],
    ({ boat, part }, out) => {
      const out_of_line = boat.belts.find((one) => one.id === part)?.misaligned ?? false;
      row(out, out_of_line ? 0.1 : 0.85, out_of_line ? 0.82 : 0.07, 0.08);
    },
  ),
  'look-lamp-key-on': questionOn(
    'lamp',
    keyOn,
    'Key on, engine off: what does the charge lamp do?',
    [dark, dim, bright],
    (view, out) => lampRow(glowOf(view, keyOn), out),
  ),
  'look-lamp-running': questionOn(
    'lamp',
    fast,
    'Engine at 1500 rpm: what does the charge lamp do?',
    [dark, dim, bright],
    (view, out) => lampRow(glowOf(view, fast), out),
  ),
  'look-switch': questionOn(
    'selector',
    off,
    'Where does the switch stand as it is used under way?',
    [
      { id: 'off', words: 'Off' },
      { id: 'one', words: 'First bank' },
      { id: 'two', words: 'Second bank' },
      { id: 'both', words: 'Both' },
    ],
    ({ boat, part }, out) => {
      const position = boat.selectors.find((one) => one.id === part)?.position;
      const order = ['off', 'one', 'two', 'both'] as const;
      for (let index = 0; index < 4; index++) out[index] = order[index] === position ? 0.96 : 0.04 / 3;
    },
  ),
  'look-fuse': questionOn(
    'fuse',
    off,
    'Is the fuse whole?',
    [
      { id: 'whole', words: 'Whole, ends bright' },
      { id: 'blown', words: 'Blown' },
      { id: 'browned', words: 'Whole, but browned or loose at an end' },
    ],
    ({ boat, part }, out) => {
      const resistance = boat.fuses.find((one) => one.id === part)?.resistance ?? 0;
      const blown = resistance > 1 ? 1 : 0;
      const hot = blown ? 0 : step(resistance, 0.004, 0.001);
      row(out, 0.95 - 0.92 * blown - 0.6 * hot, 0.02 + 0.92 * blown, 0.03 + 0.6 * hot);
    },
  ),
  'look-posts': questionOn(
    'battery',
    off,
    'Are the posts and lugs of this bank clean and tight?',
    [{ id: 'good', words: 'Clean and tight' }, { id: 'bad', words: 'Loose, grown over or burnt' }, unsure],
    ({ boat, part }, out) => {
      let worst = 0;
      for (const cable of boat.conductors) {
        if (cable.from.startsWith(`${part}.`) || cable.to.startsWith(`${part}.`)) {
          if (cable.area > 5e-6) worst = Math.max(worst, cable.joints);
        }
      }
      const bad = step(worst, 0.005, 0.0015);
      row(out, 0.84 - 0.62 * bad, 0.1 + 0.6 * bad, 0.06 + 0.02 * bad);
    },
  ),
  'look-charge-cable': {
    on: 'alternator',
    sites: (description) =>
      chargingPaths(description).map(({ alternator }) => ({
        part: alternator,
        condition: off,
        outcome: answers(
          'Is the cable from the stud as thick as this alternator needs?',
          [
            { id: 'thick-enough', words: 'Yes: size and length are right for its amps' },
            { id: 'thin', words: 'No: thinner than it should be, or browned' },
            unsure,
          ],
          ({ boat, part }, out) => {
            const cable = boat.conductors.find((one) => one.from === `${part}.B+` && one.area > 2e-6);
            const rated = boat.alternators.find((one) => one.id === part)?.ratedCurrent ?? 0;
            // 3 % of the nominal voltage lost at rated current is the usual limit (ABYC E-11).
            const lost = ((cable?.resistance ?? 0) * rated) / boat.nominalVoltage;
            const thin = step(lost, 0.035, 0.008);
            row(out, 0.82 - 0.66 * thin, 0.08 + 0.66 * thin, 0.1);
          },
        ),
      })),
  },
  'look-labels': questionOn(
    'battery',
    off,
    'By the labels, is the alternator large enough for this bank?',
    [
      {
        id: 'large-enough',
        words: 'Yes: its amps are at least the share of the ampere-hours that the bank asks for',
      },
      { id: 'too-small', words: 'No: its amps are a smaller share of the ampere-hours' },
      { id: 'unreadable', words: 'A label is missing or cannot be read' },
    ],
    ({ boat, part }, out) => {
      const bank = boat.batteries.find(({ id }) => id === part);
      if (bank === undefined) {
        row(out, 1, 1, 1);
        return;
      }
      const enough = step(Math.log(chargingShare(boat, bank) / leastShare(bank)), 0, 0.06);
      row(out, 0.03 + 0.8 * enough, 0.03 + 0.8 * (1 - enough), 0.14);
    },
    (description) =>
      partsOfKind(description, 'battery')
        .filter(({ choices }) => choices.duty !== 'start')
        .map(({ id }) => id),
  ),
  'look-heat-signs': questionOn(
    'alternator',
    off,
    'Does the alternator smell burnt or look browned?',
    [
      { id: 'none', words: 'No sign of heat' },
      { id: 'signs', words: 'Burnt smell, browned windings or lugs, or clogged with dust' },
    ],
    ({ boat, part }, out) => {
      const alternator = boat.alternators.find((one) => one.id === part);
      const hot = boat.traits.heatSmell || (alternator?.heatFactor ?? 1) > 1.6;
      row(out, hot ? 0.4 : 0.91, hot ? 0.6 : 0.09);
    },
  ),
  'look-brushes': questionOn(
    'alternator',
    off,
    'What do the brushes look like?',
    [
      { id: 'good', words: 'Long enough, free, rings bright' },
      { id: 'worn', words: 'Worn short, stuck, burnt, or rings dirty' },
      unsure,
    ],
    ({ boat, part }, out) => {
      const extra = brushesOf(boat, part);
      const worn = extra < ROTOR_BROKEN ? step(extra, 3, 0.8) : 0;
      row(out, 0.84 - 0.76 * worn, 0.11 + 0.76 * worn, 0.05);
    },
  ),
  'diode-test': questionOn(
    'alternator',
    off,
    'Leads off, diode test of the bridge: what does each diode do?',
    [
      { id: 'good', words: 'Every one passes one way and blocks the other' },
      { id: 'passes-both', words: 'One passes both ways' },
      { id: 'passes-none', words: 'One passes neither way, or a phase is open' },
    ],
    ({ boat, part }, out) => {
      const fault = boat.alternators.find((one) => one.id === part)?.windingFault;
      const shorted = fault === 'diode-shorted' ? 1 : 0;
      const open = fault === 'diode-open' || fault === 'phase-open' ? 1 : 0;
      row(out, 0.02 + 0.94 * (1 - shorted - open), 0.02 + 0.94 * shorted, 0.02 + 0.94 * open);
    },
  ),
  'slip-ring-ohms': questionOn(
    'alternator',
    off,
    'Ohms from slip ring to slip ring, brushes out?',
    [
      { id: 'right', words: 'A few ohms, as the maker says, none to the shaft' },
      { id: 'low', words: 'Clearly too few, or some to the shaft' },
      { id: 'open', words: 'Open' },
    ],
    ({ boat, part }, out) => {
      const open = brushesOf(boat, part) >= ROTOR_BROKEN ? 1 : 0;
      const shorted = boat.alternators.find((one) => one.id === part)?.rotorShortedShare ?? 0;
      const low = step(shorted, 0.2, 0.05) * (1 - open);
      row(out, 0.95 - 0.93 * open - 0.85 * low, 0.03 + 0.85 * low, 0.02 + 0.93 * open);
    },
  ),
  // One engine has one tachometer; on several each has its own.
  'look-tachometer': {
    on: 'engine',
    sites: (description) => {
      const engines = partsOfKind(description, 'engine');
      return engines.map(({ id }) => ({
        part: engines.length > 1 ? id : '',
        condition: fast,
        outcome: answers(
          'What does the tachometer do at 1500 rpm?',
          [
            { id: 'steady', words: 'Steady and right' },
            { id: 'dead', words: 'Dead or reads far too low' },
            { id: 'jumps', words: 'Jumps about' },
            unsure,
          ],
          (view, out) => {
            if (view.boat.traits.deadTachometer === id) row(out, 0.06, 0.66, 0.18, 0.1);
            else tachometerRow(machineOf(view, id), out);
          },
        ),
      }));
    },
  },
  'look-relay': questionOn(
    'relay',
    fast,
    'Has the relay closed after five minutes at 1500 rpm?',
    [yes, no, unsure],
    (view, out) => {
      const index = view.boat.relays.findIndex((one) => one.id === view.part);
      const closed = view.at(fast).relaysClosed[index] ?? false;
      row(out, closed ? 0.83 : 0.07, closed ? 0.07 : 0.83, 0.1);
    },
  ),
};
