/** A check as a technician reads it: cautions before steps. */
import type { CheckShape } from './outputs.ts';
import { figure, wrapped } from './say.ts';

export function checkText(check: CheckShape): string {
  return [
    wrapped(`${check.words} [${check.check}]`),
    wrapped(costWords(check), '  '),
    ...check.cautions.map((caution) => wrapped(caution, '  CAUTION  ')),
    ...check.needs.map((need) => wrapped(need, '  Needs  ')),
    wrapped(conditionWords(check.condition), '  Condition  '),
    ...check.steps.map((step, index) => wrapped(step, `  ${index + 1}. `)),
    wrapped(outcomeText(check.outcome), '  Answer  '),
  ].join('\n');
}

function costWords(check: CheckShape): string {
  const minutes = `${figure(check.minutes)} ${check.minutes === 1 ? 'minute' : 'minutes'}`;
  const tools = check.tools.length === 0 ? 'no tools' : check.tools.join(', ');
  return `${minutes}; ${tools}; for ${check.skill === 'owner' ? 'anyone' : `an ${check.skill}`}`;
}

/** The condition in words: "engine running at 1500 rpm, 5 minutes after the start, loads as usual". */
export function conditionWords(condition: CheckShape['condition']): string {
  const words = [engineWords(condition)];
  if (condition.engine_id !== null) words[0] = `${words[0]} (${condition.engine_id})`;
  if (condition.loads === 'off') words.push('loads off');
  else if (condition.loads === 'usual') words.push('loads as usual');
  else if (condition.test_bank === null)
    words.push(`usual loads and ${figure(condition.test_load_a)} A more`);
  else words.push(`a test load of ${figure(condition.test_load_a)} A at the posts of ${condition.test_bank}`);
  if (condition.field === 'full') words.push('field fed in full by hand');
  if (condition.excitation === 'jumpered') words.push('excitation fed by hand');
  if (condition.revved) words.push('revved to 2500 rpm once');
  if (condition.other_sources === 'off') words.push('other chargers off');
  return words.join(', ');
}

function engineWords({
  engine,
  engine_rpm: rpm,
  seconds_since_start: seconds,
  rested_hours: hours,
}: CheckShape['condition']): string {
  if (engine === 'running') {
    const time = seconds >= 120 ? `${figure(seconds / 60)} minutes` : `${figure(seconds)} seconds`;
    return `engine running at ${figure(rpm)} rpm, ${time} after the start`;
  }
  if (engine === 'key-on') return 'key on, engine not running';
  if (engine === 'cranking') return 'while cranking';
  return `engine off${hours >= 1 ? ` for ${figure(hours)} hours` : ''}`;
}

function outcomeText(outcome: CheckShape['outcome']): string {
  if (outcome.kind === 'answers') {
    return `${outcome.question} ${outcome.answers.map((answer) => `${answer.id} (${answer.words})`).join('; ')}`;
  }
  const { kind, ...points } = outcome.probe;
  const where = 'plus' in points ? `${points.plus} to ${points.minus}` : Object.values(points).join(', ');
  const [low, high] = outcome.range;
  return `${kind.replaceAll('-', ' ')}, ${where}, in ${outcome.unit} (${figure(low)} to ${figure(high)})`;
}
