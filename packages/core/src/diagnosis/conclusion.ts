/** Whether to stop, and with what. Only readings of the boat as it stands count: they alone can be taken again, and prove a repair. */
import { isNormal, type Hypothesis } from './hypothesis.ts';
import { hangsOn } from './look-again.ts';
import { isWorthIt } from './worth.ts';
import { presentOf, type State } from './state.ts';
import type { Says } from './why.ts';
import type { Conclusion, NextCheck, ReadingInLight, Suspect } from './verdict.ts';
import criteria from './criteria.json' with { type: 'json' };

export function conclusionOf(
  state: State,
  says: readonly Says[],
  suspects: readonly Suspect[],
  nothingFits: number,
  wrong: number,
  next: readonly NextCheck[],
  light: readonly ReadingInLight[],
): Conclusion {
  const present = new Set(presentOf(state).map(({ taken }) => taken.id));
  const readings = light.filter(({ reading }) => present.has(reading));
  // A reading that was taken twice and came out alike stands, and so does one that could not be taken twice.
  const once = readings.filter(
    ({ check, reading }) =>
      !state.readings.some(
        ({ id, check: other, outcome }) =>
          other === check && id !== reading && (present.has(id) || outcome.kind === 'could-not'),
      ),
  );
  const worst = [...once].sort((a, b) => b.slip - a.slip)[0];
  if (nothingFits >= criteria.nothingFitsAt) return { kind: 'nothing-fits', repeat: worst?.reading };
  if (worst !== undefined && worst.slip >= criteria.slipAt && readings.length > 1) {
    return { kind: 'readings-contradict', repeat: worst.reading };
  }
  const first = suspects[0];
  if (first === undefined || readings.length === 0) return { kind: 'go-on' };
  const lookAgain = (within: (left: Hypothesis) => boolean): Conclusion | undefined => {
    const numbers = state.joined.flatMap(({ taken, check }, index) =>
      check.text.way !== 'ask' && once.some(({ reading }) => reading === taken.id) ? [index] : [],
    );
    const left = Array.from(state.remaining, (h) => within(state.model.hypotheses[h]!));
    const found = hangsOn(says, numbers, state.posterior.probability, (h) => left[h] === true);
    return found === undefined ? undefined : { kind: 'look-again', repeat: state.joined[found]!.taken.id };
  };
  if (1 - wrong >= criteria.nothingWrongAt) {
    return lookAgain(isNormal) ?? { kind: 'nothing-wrong' };
  }
  const names = ({ members }: Hypothesis): boolean => members.some(({ id }) => id === first.id);
  const dear = state.tariff.isDear(state.model.hypotheses.findIndex(({ id }) => id === first.id));
  if (first.probability >= (dear ? criteria.dearDecidedAt : criteria.decidedAt)) {
    return lookAgain(names) ?? { kind: 'decided', suspect: first.id };
  }
  if (next[0] !== undefined && isWorthIt(next[0])) return { kind: 'go-on' };
  const open = suspects.filter(({ probability }) => probability >= 0.05).map(({ id }) => id);
  return { kind: 'no-check-worth-it', suspects: open };
}
