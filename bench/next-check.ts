/** How good the choice of the next check is: the check that a dozen draws of each state pick, against the best that many draws know.
 *  Hidden boats are asked as the tool asks; after 4, 8, … readings all open checks are judged on few draws and on many.
 *  Run: npx tsx bench/next-check.ts --boats 20
 *
 *  best    bits a minute of the best check, on 128 draws of each state
 *  picked  bits a minute, on those draws, of the check that the tool picks
 *  said    bits a minute that the tool says of it
 *  wrong   root mean square error of the bits of the checks that it judges twice
 *
 *  And the same of what a check is worth over its cost [units of the price table]; how often it is said to be worth it, and is.
 */
import { parseArgs } from 'node:util';
import { createSession, type NextCheck } from '../packages/core/src/diagnosis/index.ts';
import criteria from '../packages/core/src/diagnosis/criteria.json' with { type: 'json' };
import { posteriorSample } from '../packages/core/src/diagnosis/inference/index.ts';
import { judged, nextChecks, openChecks } from '../packages/core/src/diagnosis/next-check.ts';
import type { Reading } from '../packages/core/src/readings/index.ts';
import { truthOf } from './diagnosis/truth.ts';

const { values } = parseArgs({
  options: { boats: { type: 'string', default: '20' }, 'seed-set': { type: 'string', default: 'picks' } },
});
const MANY = 128;
const EVERY = 4;
const MOST = 20;
/** Below this there is nothing left to ask [bit/min]. */
const NOTHING = 0.005;

interface Pick {
  readonly readings: number;
  readonly best: number;
  readonly picked: number;
  readonly said: number;
  readonly wrong: number;
  /** Worth over the cost: of the best check, of the picked one, as the tool says. */
  readonly over: { readonly best: number; readonly picked: number; readonly said: number };
}

const picks = Array.from({ length: Number(values.boats) }, (_, boat) => picksOf(boat)).flat();
console.log(`${values.boats} hidden boats, ${picks.length} states with something left to ask [bit/min]`);
console.log(
  ['readings', 'states', 'best', 'picked', 'said', 'wrong'].map((word) => word.padStart(9)).join(''),
);
for (let readings = EVERY; readings <= MOST; readings += EVERY) {
  const these = picks.filter((pick) => pick.readings === readings);
  print(String(readings), these);
}
print('all', picks);

const mean = (values: readonly number[]): string =>
  (values.reduce((sum, value) => sum + value, 0) / values.length).toFixed(1);
const asked = picks.filter(({ over }) => over.said > 0);
console.log(
  `\nWorth over the cost: best ${mean(picks.map(({ over }) => over.best))}, picked ${mean(picks.map(({ over }) => over.picked))}, ` +
    `said ${mean(picks.map(({ over }) => over.said))}; asked in ${asked.length}, rightly in ` +
    `${asked.filter(({ over }) => over.picked > 0).length}; worth asking in ${picks.filter(({ over }) => over.best > 0).length}`,
);

function picksOf(boat: number): Pick[] {
  const truth = truthOf(values['seed-set'], boat, 'prior');
  const session = createSession(truth.told);
  const readings: Reading[] = [];
  const found: Pick[] = [];
  for (let count = 0; count <= MOST; count++) {
    const state = session.state(readings);
    const draws = (perHypothesis: number): ReturnType<typeof posteriorSample> =>
      posteriorSample(state.posterior, {
        perHypothesis,
        leastChance: criteria.leastChance,
        unlikely: criteria.unlikely,
      });
    const open = openChecks(state, session.checks);
    const next = nextChecks(state, draws(criteria.perHypothesis), open);
    const [picked] = next;
    if (picked === undefined) break;
    if (count > 0 && count % EVERY === 0) {
      const known = new Map(judged(state, draws(MANY), open).map((one) => [one.check, one]));
      const best = Math.max(...[...known.values()].map(({ bitsPerMinute }) => bitsPerMinute));
      const truly = (one: NextCheck): NextCheck => known.get(one.check)!;
      const top = next.slice(0, criteria.judgedTwice);
      const square = top.reduce((sum, one) => sum + (one.bits - truly(one).bits) ** 2, 0) / top.length;
      if (best > NOTHING)
        found.push({
          readings: count,
          best,
          picked: truly(picked).bitsPerMinute,
          said: picked.bitsPerMinute,
          wrong: Math.sqrt(square),
          over: {
            best: Math.max(...[...known.values()].map(net)),
            picked: net(truly(picked)),
            said: net(picked),
          },
        });
    }
    const check = session.checks.find(({ id }) => id === picked.check)!;
    readings.push({ id: `${check.id}#${count}`, check: check.id, outcome: truth.outcome(check, 0) });
  }
  return found;
}

function net({ worth, costs }: NextCheck): number {
  return worth - costs;
}

function print(name: string, these: readonly Pick[]): void {
  const mean = (of: (pick: Pick) => number): string =>
    (these.reduce((sum, pick) => sum + of(pick), 0) / these.length).toFixed(3);
  const row = [
    name,
    String(these.length),
    ...[
      ({ best }: Pick) => best,
      ({ picked }: Pick) => picked,
      ({ said }: Pick) => said,
      ({ wrong }: Pick) => wrong,
    ].map(mean),
  ];
  console.log(row.map((cell) => cell.padStart(9)).join(''));
}
