/** What is found by changing something for a moment: fed by hand, revved, wiggled, waited for. */
import { chargingPaths, partsOfKind } from '../boat/index.ts';
import type { Condition } from '../operate/index.ts';
import type { Placement } from './check.ts';
import { chargersOff, fastSpeed, idleSpeed, idling, running, steadySpeed } from './conditions.ts';
import { fieldReachable } from './placing.ts';
import { amps, answers, row, step, volts } from './outcomes.ts';

const fullField: Condition = running(steadySpeed, 120, { field: 'full' });

export const intervened: Readonly<Record<string, Placement>> = {
  'charging-comes-in': {
    on: 'alternator',
    sites: (description) =>
      chargingPaths(description)
        .filter(({ battery }) => battery !== undefined)
        .map(({ alternator }) => ({
          part: alternator,
          condition: running(steadySpeed, 240),
          outcome: answers(
            'How long after the start, at 1200 rpm, does the battery voltage jump up?',
            [
              { id: 'at-once', words: 'Within ten seconds' },
              { id: 'later', words: 'After more than ten seconds, within four minutes' },
              { id: 'never', words: 'Not within four minutes' },
            ],
            (view, out) => {
              const gives = (seconds: number): number => {
                const point = view.at(running(steadySpeed, seconds));
                const rated = view.boat.alternators.find((one) => one.id === view.part)?.ratedCurrent ?? 50;
                return step(
                  (point.alternators.find((one) => one.id === view.part)?.output ?? 0) / rated,
                  0.1,
                  0.02,
                );
              };
              const early = gives(10);
              const late = gives(240);
              row(
                out,
                0.02 + 0.94 * early,
                0.02 + 0.94 * (1 - early) * late,
                0.02 + 0.94 * (1 - early) * (1 - late),
              );
            },
          ),
        })),
  },
  'rev-once-volts': {
    on: 'alternator',
    sites: (description) =>
      chargingPaths(description).map(({ alternator }) => ({
        part: alternator,
        condition: running(idleSpeed(description), 180, { revved: true }),
        outcome: volts(description, `${alternator}.B+`, `${alternator}.case`, 0.25),
      })),
  },
  'full-field-volts': {
    on: 'alternator',
    sites: (description) =>
      chargingPaths(description)
        .filter((path) => fieldReachable(description, path))
        .map(({ alternator }) => ({
          part: alternator,
          condition: fullField,
          outcome: volts(description, `${alternator}.B+`, `${alternator}.case`, 0.8, 22),
        })),
  },
  'full-field-amps': {
    on: 'alternator',
    sites: (description) =>
      chargingPaths(description)
        .filter((path) => fieldReachable(description, path))
        .map(({ alternator }) => ({
          part: alternator,
          condition: fullField,
          outcome: amps({ kind: 'alternator-amps', alternator }, 500),
        })),
  },
  'jumper-excitation-volts': {
    on: 'alternator',
    sites: (description) =>
      chargingPaths(description)
        .filter(
          ({ lamp, regulator }) =>
            lamp !== undefined || description.parts.some((part) => part.to === `${regulator}.enable`),
        )
        .map(({ alternator }) => ({
          part: alternator,
          condition: running(steadySpeed, 240, { excitation: 'jumpered' }),
          outcome: volts(description, `${alternator}.B+`, `${alternator}.case`, 0.25),
        })),
  },
  'wiggle-leads': {
    on: 'alternator',
    sites: (description) =>
      chargingPaths(description).map(({ alternator }) => ({
        part: alternator,
        condition: idling(description),
        outcome: answers(
          'Does charging come and go when the small leads and plugs are moved?',
          [
            { id: 'comes-and-goes', words: 'Yes, it comes and goes' },
            { id: 'no-change', words: 'No change' },
          ],
          ({ boat }, out) => {
            const loose = boat.traits.presence < 1;
            row(out, loose ? 0.6 : 0.03, loose ? 0.4 : 0.97);
          },
        ),
      })),
  },
  'other-chargers-off-volts': withoutChargers(chargersOff, 0.13),
  'other-chargers-off-running-volts': withoutChargers(running(fastSpeed, 360, { otherSources: 'off' }), 0.35),
};

/** Volts across the banks with every other charger switched off, on a boat that has one. */
function withoutChargers(condition: Condition, model: number): Placement {
  return {
    on: 'battery',
    sites: (description) =>
      partsOfKind(description, 'source').length === 0
        ? []
        : partsOfKind(description, 'battery').map(({ id }) => ({
            part: id,
            condition,
            outcome: volts(description, `${id}.+`, `${id}.-`, model),
          })),
  };
}
