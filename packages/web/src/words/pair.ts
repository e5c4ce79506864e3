/** The two checks that begin every job: volts at the bank before the engine is started, and with it running. */
import type { CheckView } from '../work/check-view.ts';

export interface CheckPair {
  readonly before: CheckView;
  readonly after: CheckView;
}

/** The pair of each bank, in the order of the boat; found by what is measured, so that any bank's name will do. After the
 *  start, the check that was read already counts, else the one at the highest speed.
 */
export function beforeAndAfter(
  checks: readonly CheckView[],
  read: ReadonlySet<string> = new Set(),
): readonly CheckPair[] {
  const banks = checks.filter(isBankVolts);
  return banks
    .filter(({ condition }) => condition.engine === 'off' && condition.loads === 'usual')
    .flatMap((before) => {
      const running = banks
        .filter(
          ({ condition, part }) =>
            condition.engine === 'running' &&
            condition.field === 'regulated' &&
            condition.loads === 'usual' &&
            part === before.part,
        )
        .sort((a, b) => b.condition.engineSpeed - a.condition.engineSpeed);
      const after = running.find(({ id }) => read.has(id)) ?? running[0];
      return after ? [{ before, after }] : [];
    });
}

function isBankVolts({ outcome, part }: CheckView): boolean {
  if (outcome.kind !== 'number' || outcome.probe.kind !== 'dc-volts') return false;
  const { plus, minus } = outcome.probe;
  return part !== undefined && plus === `${part}.+` && minus === `${part}.-`;
}
