/** Prints the states that all checks together hardly tell apart. Run: npx tsx bench/diagnosis-apart.ts */
import { alikeStates } from './diagnosis/apart.ts';

const LIMIT = 3; // nat: odds of 20 to 1

const alike = alikeStates(LIMIT);
for (const { evidence, boat, one, other, best } of alike)
  console.log(`${evidence.toFixed(2).padStart(5)}  ${boat}: ${one} ~ ${other}  (${best.join(', ')})`);
console.log(`${alike.length} pairs that are not the same repair have less than ${LIMIT} nat between them`);
