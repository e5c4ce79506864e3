/** What can be heard. */
import { partsOfKind } from '../boat/index.ts';
import type { Placement } from './check.ts';
import { cranking, fast, idleSpeed, running } from './conditions.ts';
import { answers, row, step } from './outcomes.ts';

const unsure = { id: 'unsure', words: 'Cannot tell' };

export const heard: Readonly<Record<string, Placement>> = {
  'listen-cranking': {
    on: 'boat',
    sites: (description) =>
      partsOfKind(description, 'starter')
        .slice(0, 1)
        .map(({ id }) => ({
          part: '',
          condition: cranking,
          outcome: answers(
            'How does the engine crank?',
            [
              { id: 'normal', words: 'Briskly, as always' },
              { id: 'slow', words: 'Slowly, lamps go very dim' },
              { id: 'clicks', words: 'Clicks or nothing at all' },
            ],
            (view, out) => {
              const node = `${id}.post`;
              const block = `${view.boat.engines[0]?.id ?? 'engine'}.block`;
              const at = view.at(cranking);
              const volts = view.read(at, { kind: 'dc-volts', plus: node as 'a.b', minus: block as 'a.b' });
              const share = volts / view.boat.nominalVoltage;
              // Below about 9 V at the starter a 12 V engine turns slowly, below 6 V hardly (common practice).
              const turns = step(share, 0.45, 0.04);
              const brisk = step(share, 0.7, 0.035);
              row(
                out,
                0.02 + 0.94 * turns * brisk,
                0.03 + 0.9 * turns * (1 - brisk),
                0.01 + 0.94 * (1 - turns),
              );
            },
          ),
        })),
  },
  'listen-engine-note': {
    on: 'boat',
    sites: (description) => {
      const idle = idleSpeed(description);
      const early = running(idle, 8);
      const late = running(idle, 240);
      return [
        {
          part: '',
          condition: late,
          outcome: answers(
            'After the start at idle, when does the engine note drop because the alternator takes its load?',
            [
              { id: 'at-once', words: 'Within about five seconds' },
              { id: 'later', words: 'Later, up to four minutes' },
              { id: 'never', words: 'It never drops' },
              unsure,
            ],
            (view, out) => {
              const power = (condition: typeof early): number =>
                view.at(condition).alternators.reduce((sum, one) => sum + one.shaftPower, 0);
              // Some 300 W of shaft power are heard on a small diesel at idle (estimate).
              const heardEarly = step(power(early), 280, 60);
              const heardLate = step(power(late), 280, 60);
              const waits = heardLate * (1 - heardEarly);
              const never = (1 - heardLate) * (1 - heardEarly);
              row(out, 0.03 + 0.67 * heardEarly, 0.03 + 0.67 * waits, 0.03 + 0.67 * never, 0.24);
            },
          ),
        },
      ];
    },
  },
  'listen-belt': {
    on: 'belt',
    sites: (description) =>
      partsOfKind(description, 'belt').map(({ id, serves }) => ({
        part: id,
        condition: fast,
        outcome: answers(
          'Does the belt squeal when loads are switched on?',
          [{ id: 'squeals', words: 'Squeals or chirps' }, { id: 'quiet', words: 'Quiet' }, unsure],
          (view, out) => {
            const slip = view.at(fast).alternators.find((one) => one.id === serves)?.slip ?? 0;
            const belt = view.boat.belts.find((one) => one.id === view.part);
            const loud =
              (belt?.grip ?? 1) <= 0 ? 0 : Math.max(step(slip, 0.06, 0.015), belt?.misaligned ? 0.35 : 0);
            row(out, 0.06 + 0.7 * loud, 0.84 - 0.7 * loud, 0.1);
          },
        ),
      })),
  },
};
