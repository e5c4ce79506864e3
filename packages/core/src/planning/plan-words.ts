/** Plans in plain words: "running 2h 900rpm", "off 10h", "off 8h sources", "running 1h loads 1.5"; and repeats of
 *  whole days: "daily for 30 days".
 */
import type { Phase } from '../operate/index.ts';
import { parseQuantity } from '../units/index.ts';

export type ParsedPhase =
  { readonly kind: 'phase'; readonly phase: Phase } | { readonly kind: 'not-a-phase'; readonly why: string };

const DAY = 86_400;

/** One phase. Speeds are those of the engine. */
export function parsePhase(words: string): ParsedPhase {
  const refuse = (why: string): ParsedPhase => ({ kind: 'not-a-phase', why });
  const [engine, ...rest] = words.trim().toLowerCase().split(/\s+/);
  if (engine !== 'running' && engine !== 'off') return refuse('it begins with "running" or "off"');
  let phase: Phase = { duration: 0, engine };
  for (let at = 0; at < rest.length; at++) {
    const word = rest[at] ?? '';
    const time = parseQuantity(word, 'time');
    const speed = parseQuantity(word, 'speed');
    if (word === 'sources') phase = { ...phase, otherSources: 'as-found' };
    else if (word === 'loads') phase = { ...phase, loads: Number(rest[++at] ?? NaN) };
    else if (time.kind === 'ok' && /[a-z]/i.test(word)) phase = { ...phase, duration: time.value };
    else if (speed.kind === 'ok' && engine === 'running') phase = { ...phase, engineSpeed: speed.value };
    else return refuse(`"${word}" is neither a time nor a speed`);
  }
  if (!(phase.duration > 0 && phase.duration <= 100 * DAY))
    return refuse('its time is from above 0 to 100 d');
  if (phase.engineSpeed !== undefined && !(phase.engineSpeed > 0 && phase.engineSpeed < 800))
    return refuse('its speed is from above 0 to 7600 rpm');
  if (phase.loads !== undefined && !(phase.loads >= 0 && phase.loads <= 100))
    return refuse('"loads" is followed by a number from 0 to 100');
  return { kind: 'phase', phase };
}

export type RepeatedPlan =
  | { readonly kind: 'plan'; readonly plan: readonly Phase[] }
  | { readonly kind: 'not-a-day'; readonly why: string };

/** The phases of one day, again for each of `days`. What is missing from 24 h is spent with the engine off.
 *  Errors: RangeError for days that are not a whole number from 1 to 1000 */
export function dailyPlan(day: readonly Phase[], days: number): RepeatedPlan {
  if (!(Number.isInteger(days) && days >= 1 && days <= 1000))
    throw new RangeError(`dailyPlan: days ${days} must be a whole number from 1 to 1000`);
  const spent = day.reduce((sum, { duration }) => sum + duration, 0);
  if (spent > DAY * (1 + 1e-9)) return { kind: 'not-a-day', why: 'its phases last longer than 24 h' };
  const rest = DAY - spent;
  const whole: readonly Phase[] = rest > 60 ? [...day, { duration: rest, engine: 'off' }] : day;
  return { kind: 'plan', plan: Array.from({ length: days }, () => whole).flat() };
}
