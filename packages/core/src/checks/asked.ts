/** What an owner can be asked. */
import type { Placement } from './check.ts';
import { off } from './conditions.ts';
import { noticed, noticedChances } from './noticed.ts';
import { row, step } from './outcomes.ts';
import { questionOn, questionOnBoat } from './placing.ts';

const unsure = { id: 'unsure', words: 'Cannot tell' };

export const asked: Readonly<Record<string, Placement>> = {
  'ask-noticed': questionOnBoat(off, 'What did you notice?', noticed, noticedChances),
  'ask-pattern': questionOnBoat(
    off,
    'Does it charge on some days and not on others?',
    [
      { id: 'same-every-day', words: 'The same every day since it began' },
      { id: 'some-days', words: 'On some days or starts it charges, on others not' },
      unsure,
    ],
    ({ boat }, out) => {
      const steady = boat.traits.presence >= 1;
      row(out, steady ? 0.78 : 0.12, steady ? 0.05 : 0.73, steady ? 0.17 : 0.15);
    },
  ),
  'ask-onset': questionOnBoat(
    off,
    'Did the trouble come suddenly or slowly?',
    [
      { id: 'sudden', words: 'From one day to the next' },
      { id: 'slow', words: 'Slowly, over weeks or months' },
      { id: 'always', words: 'It was always so, or since something was changed' },
      unsure,
    ],
    ({ boat }, out) => {
      const { onset } = boat.traits;
      if (onset === 'sudden') row(out, 0.62, 0.13, 0.05, 0.2);
      else if (onset === 'slow') row(out, 0.13, 0.59, 0.08, 0.2);
      else if (onset === 'always') row(out, 0.08, 0.17, 0.55, 0.2);
      else row(out, 0.2, 0.25, 0.25, 0.3);
    },
  ),
  'ask-engine-hours': questionOnBoat(
    off,
    'How long does the engine run on a usual day?',
    [
      { id: 'under-one', words: 'Less than one hour' },
      { id: 'one-to-three', words: 'One to three hours' },
      { id: 'over-three', words: 'More than three hours' },
      unsure,
    ],
    ({ boat }, out) => {
      // Short running is what empties a healthy boat's bank.
      const charge = boat.batteries.reduce((sum, one) => sum + one.stateOfCharge, 0) / boat.batteries.length;
      const empty = 1 - step(charge, 0.4, 0.1);
      row(out, 0.25 + 0.15 * empty, 0.35, 0.25 - 0.15 * empty, 0.15);
    },
  ),
  'ask-battery-age': questionOn(
    'battery',
    off,
    'How old is this bank?',
    [
      { id: 'under-three', words: 'Less than three years' },
      { id: 'three-to-six', words: 'Three to six years' },
      { id: 'over-six', words: 'More than six years' },
      unsure,
    ],
    ({ boat, part }, out) => {
      const battery = boat.batteries.find((one) => one.id === part);
      const old = battery === undefined ? 0 : 1 - step(battery.health, 0.6, 0.06);
      const worn = Math.max(old, battery?.sulphation ?? 0, (battery?.shortedCells ?? 0) > 0 ? 0.7 : 0);
      row(out, 0.38 - 0.28 * worn, 0.3, 0.17 + 0.28 * worn, 0.15);
    },
  ),
  'ask-lasts-overnight': questionOnBoat(
    off,
    'After a full charge, does the bank carry the loads through a night as it did when new?',
    [
      { id: 'yes', words: 'Yes, when it has once been filled' },
      { id: 'no', words: 'No, it is down within hours even after a shore charger filled it' },
      unsure,
    ],
    ({ boat }, out) => {
      let worn = 0;
      for (const one of boat.batteries) {
        if (one.duty === 'start') continue;
        const old = 1 - step(one.health, 0.55, 0.05);
        worn = Math.max(worn, old, one.sulphation, one.shortedCells > 0 ? 1 : 0);
      }
      row(out, 0.55 - 0.43 * worn, 0.12 + 0.55 * worn, 0.33 - 0.12 * worn);
    },
  ),
};
