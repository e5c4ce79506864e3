/** Minutes that a check takes as things stand: its own, and the wait until its condition holds.
 *    engine at a speed for t   nothing while it runs so long already; the rest of t, and half a minute for another speed
 *                              started anew: one minute and t
 *    rested bank               once the engine ran, a quarter of an hour under load until the surface charge is gone
 *    loads off and rested      ten minutes
 *    a test load               three minutes to put it on
 *    a bank filled first       half an hour to put the charger on and to come back
 *  Several readings under one condition therefore share its wait. Source: common practice; the minutes are estimates.
 */
import type { Condition } from '../operate/index.ts';
import type { PlacedCheck } from './check.ts';
import { fastSpeed } from './conditions.ts';

const TO_START = 1;
const TO_CHANGE_SPEED = 0.5;
const TO_SETTLE = 15;
const TO_LOAD = 3;
const TO_FILL = 30;

/** `before`: the conditions of the checks of this visit so far, in their order. */
export function waitFor(check: PlacedCheck, before: readonly Condition[]): number {
  const { condition, outcome } = check;
  const last = before[before.length - 1];
  const toFill = condition.filled && !before.some(({ filled }) => filled) ? TO_FILL : 0;
  if (condition.filled && condition.engine === 'off') return toFill;
  if (condition.engine === 'running') {
    const goesOn =
      toFill === 0 && last?.engine === 'running' && sameEngine(last, condition) && sameFeed(last, condition);
    const toLoad = condition.loads === 'test' && last?.loads !== 'test' ? TO_LOAD : 0;
    if (!goesOn) return toFill + TO_START + condition.sinceStart / 60 + toLoad;
    const longer = Math.max(0, condition.sinceStart - last.sinceStart) / 60;
    return longer + toLoad + (last.engineSpeed === condition.engineSpeed ? 0 : TO_CHANGE_SPEED);
  }
  if (condition.engine !== 'off' || outcome.kind !== 'number') return 0;
  if (condition.loads === 'off') return condition.rested / 60;
  const ofBank = outcome.probe.kind === 'dc-volts';
  const ran = before.some(({ engine }) => engine === 'running');
  return ofBank && ran ? TO_SETTLE : 0;
}

/** The conditions that checks leave the boat under, in their order. A question is answered while things go on as they were. */
export function conditionsLeft(checks: readonly PlacedCheck[]): Condition[] {
  return checks.flatMap(({ outcome, condition }) =>
    outcome.kind === 'number' || condition.engine !== 'off' ? [condition] : [],
  );
}

/** Minutes of checks done one after the other. */
export function minutesOf(checks: readonly PlacedCheck[]): number {
  return checks.reduce(
    (minutes, check, at) =>
      minutes + check.text.minutes + waitFor(check, conditionsLeft(checks.slice(0, at))),
    0,
  );
}

const sameEngine = (a: Condition, b: Condition): boolean => a.engineId === b.engineId;

/** Field fed by hand or jumpered: each is its own start. To rev a running engine once costs nothing; a machine that was woken so
 *  sleeps again only after a stop. */
const sameFeed = (a: Condition, b: Condition): boolean =>
  a.field === b.field &&
  a.excitation === b.excitation &&
  (!a.revved || b.revved || b.engineSpeed >= fastSpeed);
