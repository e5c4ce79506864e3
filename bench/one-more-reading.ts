/** What one more reading costs, and how time and error trade against each other.
 *  A job with 12 readings, all states; a third of the readings are the last one in turn. The code is warm, the session knows the others.
 *  Run: npx tsx bench/one-more-reading.ts
 *
 *  error said   the largest standard error that the verdict states of a probability, mean over the jobs
 *  found / said distance of a chance from the same job with 1024 draws, over the standard error stated of the two: root mean square
 *               over suspects of a hundredth and more; 1 where errors mean what they say
 *  distance     half the sum of the differences of all chances from that job's, mean
 */
import { performance } from 'node:perf_hooks';
import criteria from '../packages/core/src/diagnosis/criteria.json' with { type: 'json' };
import { createSession, type Verdict } from '../packages/core/src/diagnosis/index.ts';
import type { Reading } from '../packages/core/src/readings/index.ts';
import { truthOf, type Truth } from './diagnosis/truth.ts';

const READINGS = 12;
const REFERENCE = 1024;
/** Every third reading is once the last: each in a session of its own, in which it was never computed before. */
const EACH = 3;
const boats = [3, 8, 12, 17].map((index) => truthOf('one more reading', index, 'prior'));
const jobs = boats.map((truth) => ({ truth, readings: readingsOf(truth) }));
const references = jobs.map(({ truth, readings }) =>
  createSession(truth.told, { draws: REFERENCE }).diagnose(readings),
);

console.log(`One more reading on a job of ${READINGS}; ${jobs.length} boats; aim: under 100 ms`);
console.log(
  ['draws', 'median', '95th', 'points', 'error said', 'found / said', 'distance']
    .map((word) => word.padStart(14))
    .join(''),
);
for (const draws of [32, criteria.draws, 128, 256]) {
  const seconds: number[] = [];
  let points = 0;
  let said = 0;
  let far = 0;
  const ratios: number[] = [];
  jobs.forEach(({ truth, readings }, job) => {
    let verdict: Verdict | undefined;
    for (let out = 0; out < readings.length; out += EACH) {
      const session = createSession(truth.told, { draws });
      const without = readings.filter((_, index) => index !== out);
      const before = session.diagnose(without).reliability.operatingPoints;
      const start = performance.now();
      verdict = session.diagnose([...without, readings[out]!]);
      seconds.push((performance.now() - start) / 1000);
      points += verdict.reliability.operatingPoints - before;
    }
    said += (verdict?.reliability.error ?? NaN) / jobs.length;
    if (verdict === undefined) return;
    far += distance(verdict, references[job]!) / jobs.length;
    ratios.push(...inStatedErrors(verdict, references[job]!));
  });
  seconds.sort((a, b) => a - b);
  const ms = (share: number): string =>
    `${(1000 * (seconds[Math.floor(share * seconds.length)] ?? NaN)).toFixed(0)} ms`;
  console.log(
    [
      String(draws),
      ms(0.5),
      ms(0.95),
      (points / seconds.length).toFixed(0),
      said.toFixed(3),
      Math.sqrt(ratios.reduce((sum, z) => sum + z * z, 0) / ratios.length).toFixed(2),
      far.toFixed(3),
    ]
      .map((word) => word.padStart(14))
      .join(''),
  );
}

/** The first readings that the tool itself would ask for. */
function readingsOf(truth: Truth): Reading[] {
  const session = createSession(truth.told);
  const readings: Reading[] = [];
  while (readings.length < READINGS) {
    const next = session.diagnose(readings).next[0];
    const check = session.checks.find(({ id }) => id === next?.check);
    if (check === undefined) break;
    const outcome = truth.outcome(check);
    readings.push({ id: check.id, check: check.id, outcome });
  }
  return readings;
}

function distance(a: Verdict, b: Verdict): number {
  const chances = new Map(a.suspects.map(({ id, probability }) => [id, probability]));
  for (const { id, probability } of b.suspects) chances.set(id, (chances.get(id) ?? 0) - probability);
  return [...chances.values()].reduce((sum, one) => sum + Math.abs(one), 0) / 2;
}

/** How far the chances of two verdicts lie apart, in the errors that both state. */
function inStatedErrors(a: Verdict, b: Verdict): number[] {
  return a.suspects.flatMap(({ id, probability, error }) => {
    const other = b.suspects.find((suspect) => suspect.id === id);
    if (other === undefined || Math.max(probability, other.probability) < 0.01) return [];
    return [(probability - other.probability) / Math.hypot(error, other.error)];
  });
}
