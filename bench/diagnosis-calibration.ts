/** Prints, for each check, whether its errors mean what they say. Run: npx tsx bench/diagnosis-calibration.ts --boats 200
 *  Boats of a seed set of their own: neither the first nor the second of the games. What is shown: diagnosis/calibration.ts.
 */
import { parseArgs } from 'node:util';
import { calibrationOf } from './diagnosis/calibration.ts';

const { values } = parseArgs({
  options: { boats: { type: 'string', default: '200' }, draw: { type: 'string', default: 'prior' } },
});
const { numbers, answers } = calibrationOf(
  Number(values.boats),
  values.draw === 'uniform' ? 'uniform' : 'prior',
);

const cell = (value: number, digits = 2): string => value.toFixed(digits).padStart(8);
console.log(
  `${'numbers, in errors'.padEnd(36)}${'count'.padStart(6)}    bias  spread  beyond3  unit: 50 %    80 %    95 %   claims`,
);
for (const row of numbers) {
  console.log(
    row.check.padEnd(36) +
      String(row.count).padStart(6) +
      cell(row.bias) +
      cell(row.spread) +
      `${(100 * row.beyondThree).toFixed(1)} %`.padStart(9) +
      cell(row.miss[0], 3) +
      cell(row.miss[1], 3) +
      cell(row.miss[2], 3) +
      cell(row.claimed, 3),
  );
}
console.log(
  `\n${'answers'.padEnd(36)}${'count'.padStart(6)}  nat lost  chance of the answer given, mean: expected, found`,
);
for (const row of answers)
  console.log(
    row.check.padEnd(36) +
      String(row.count).padStart(6) +
      cell(row.lost) +
      cell(row.expected) +
      cell(row.found),
  );
