/** What a family's file gives for each fault, and how it joins the words of the data file to it. */
import { changes, type Change } from '../boat/index.ts';
import { questions, type Family, type Fault, type FaultText, type Question } from './fault.ts';

/** The part of a fault that is code. */
export type Behaviour = Pick<Fault, 'places' | 'apply' | 'weight'>;

/** A row of a data file as it is read; the family stands once, at the head of the file. */
export interface FaultRow {
  readonly id: string;
  readonly words: string;
  readonly nature: string;
  readonly question: string;
  readonly prior: number;
  readonly source: string;
  readonly raisedBy: Readonly<Record<string, number | undefined>>;
  readonly ownerWords: string;
  readonly remedy: string;
  readonly causes: readonly string[];
  readonly alsoCheck: readonly string[];
  readonly buys: readonly string[];
  readonly labourHours: number;
}

/** The faults of a family: each row of its data file with the behaviour of the same id.
 *  Errors: RangeError for a row without behaviour, a behaviour without row, or a value outside its list.
 */
export function joinedFaults(
  family: Family,
  rows: readonly FaultRow[],
  behaviours: Readonly<Record<string, Behaviour>>,
): readonly Fault[] {
  const left = new Set(Object.keys(behaviours));
  const faults = rows.map((row) => {
    const behaviour = behaviours[row.id];
    if (behaviour === undefined || !left.delete(row.id)) {
      throw new RangeError(`joinedFaults: ${family}: row "${row.id}" has no behaviour of its own`);
    }
    return { ...faultText(family, row), ...behaviour };
  });
  if (left.size > 0) throw new RangeError(`joinedFaults: ${family}: no row for ${[...left].join(', ')}`);
  return faults;
}

function faultText(family: Family, row: FaultRow): FaultText {
  const { nature, question, raisedBy, prior } = row;
  const wrong = (name: string, value: unknown, range: string): never => {
    throw new RangeError(`joinedFaults: ${row.id}: ${name} is ${String(value)}; it must be ${range}`);
  };
  if (nature !== 'fault' && nature !== 'normal') return wrong('nature', nature, 'fault or normal');
  if (!isQuestion(question)) return wrong('question', question, [...questions, 'none'].join(', '));
  if (!(prior > 0 && prior < 1)) return wrong('prior', prior, 'above 0 and below 1');
  const raised: { [C in Change]?: number } = {};
  for (const [change, factor] of Object.entries(raisedBy)) {
    if (!isChange(change)) return wrong('raisedBy', change, changes.join(', '));
    if (factor === undefined || !(factor > 0)) return wrong(`raisedBy ${change}`, factor, 'above 0');
    raised[change] = factor;
  }
  return { ...row, family, nature, question, raisedBy: raised };
}

const isQuestion = (text: string): text is Question | 'none' =>
  text === 'none' || (questions as readonly string[]).includes(text);
const isChange = (text: string): text is Change => (changes as readonly string[]).includes(text);
