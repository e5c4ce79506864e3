/** Prints the states that all checks together hardly tell apart, and whether that is physics or a missing check.
 *  Run: npx tsx bench/diagnosis-apart.ts      --boats also lists each boat on which a pair is alike */
import { parseArgs } from 'node:util';
import { alikeStates, NOTICEABLE, type Alike } from './diagnosis/apart.ts';

const LIMIT = 3; // nat: odds of 20 to 1
const { values } = parseArgs({ options: { boats: { type: 'boolean', default: false } } });
const alike = alikeStates(LIMIT);
const stateOf = (id: string): string => id.split('@')[0] ?? id;

const groups = new Map<string, Alike[]>();
for (const one of alike) {
  const key = [stateOf(one.one), stateOf(one.other)].sort().join(' ~ ');
  groups.set(key, [...(groups.get(key) ?? []), one]);
}
const mean = (list: readonly Alike[]): number =>
  list.reduce((sum, { evidence }) => sum + evidence, 0) / list.length;

console.log('States that all checks together hardly tell apart, the boat otherwise known\n');
console.log(`${'states'.padEnd(58)}${'places'.padStart(7)}${'nat'.padStart(6)}   why`);
for (const [states, list] of [...groups].sort((a, b) => mean(a[1]) - mean(b[1]))) {
  const seen = list.filter(({ unread }) => unread.volts > NOTICEABLE);
  const [widest] = [...seen].sort((a, b) => b.unread.volts - a.unread.volts);
  const why =
    widest === undefined
      ? 'physics: no terminal differs'
      : `a check may be missing at ${seen.length} of ${list.length}: ${widest.unread.where}, ${widest.unread.volts.toFixed(1)} V`;
  console.log(
    `${states.padEnd(58)}${String(list.length).padStart(7)}${mean(list).toFixed(1).padStart(6)}   ${why}`,
  );
  if (values.boats)
    for (const { boat, one, other, evidence, best } of list)
      console.log(`    ${evidence.toFixed(2)}  ${boat}: ${one} ~ ${other}  (${best.join(', ')})`);
}
console.log(
  `\n${groups.size} pairs of states at ${alike.length} places have less than ${LIMIT} nat between them (same repairs left out).`,
);
