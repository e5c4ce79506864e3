import { describe, expect, it } from 'vitest';
import { boatFromTemplate, type BoatDescription, type Fact } from '../../src/boat/index.ts';
import { skills } from '../../src/checks/index.ts';
import { chanceWithout } from '../../src/diagnosis/look-again.ts';
import { suspectsAndCleared } from '../../src/diagnosis/why.ts';
import { createSession, type Session, type Verdict } from '../../src/diagnosis/index.ts';
import type { Reading } from '../../src/readings/index.ts';

const nameplate = (value: number): Fact => ({ value, origin: 'nameplate' });
const AMP_HOUR = 3600;
const draws = 48;
const facts = {
  alternatorCurrent: nameplate(70),
  bankCapacity: nameplate(220 * AMP_HOUR),
  bankChemistry: 'flooded',
  regulatorPlace: 'inside',
  excitation: 'lamp',
  cableArea: nameplate(16e-6),
  cableLength: nameplate(1.5),
} as const;
const oneBattery = boatFromTemplate('one-battery', facts);
const session = createSession(oneBattery, { draws });

const number = (check: string, value: number, id = check): Reading => ({
  id,
  check,
  outcome: { kind: 'number', value },
});
const answer = (check: string, said: string): Reading => ({
  id: check,
  check,
  outcome: { kind: 'answer', answer: said },
});

const readings: readonly Reading[] = [
  number('battery-volts-rest@battery', 12.25),
  number('battery-volts-fast@battery', 12.3),
  answer('look-lamp-key-on@lamp', 'dark'),
  number('stud-volts-fast@alternator', 12.32),
];

/** Half the sum of differences: the greatest change of the chance of any set of states. */
function distance(a: Verdict, b: Verdict, rename: (id: string) => string = (id) => id): number {
  const chances = new Map(a.suspects.map(({ id, probability }) => [rename(id), probability]));
  for (const { id, probability } of b.suspects) chances.set(id, (chances.get(id) ?? 0) - probability);
  return [...chances.values()].reduce((sum, one) => sum + Math.abs(one), 0) / 2;
}

describe('laws of a diagnosis', () => {
  const verdict = session.diagnose(readings);

  it('[law] the same job gives the same verdict, also in another session', () => {
    expect(createSession(oneBattery, { draws }).diagnose(readings)).toEqual(verdict);
  });

  it('[law] another order of readings changes the numerical error alone', () => {
    const turned = session.diagnose([...readings].reverse());
    // Each reading builds on the draws of those before it, so another order has draws of its own.
    expect(distance(verdict, turned)).toBeLessThan(verdict.reliability.error + turned.reliability.error);
    expect(turned.next[0]?.check).toBe(verdict.next[0]?.check);
  });

  it('[law] a repeated identical reading by the same meter hardly moves the answer', () => {
    const once = readings.slice(0, 3);
    const first = session.diagnose(once);
    const again = session.diagnose([...once, number('battery-volts-fast@battery', 12.3, 'again')]);
    // It makes a slip of the hand less likely, and the meter's noise a little smaller: no more.
    // Both verdicts also carry the numerical error that they state (0.03 to 0.05 with so few draws).
    const stated = first.reliability.error + again.reliability.error;
    expect(distance(first, again)).toBeLessThan(0.06 + stated);
    expect(again.suspects[0]?.id).toBe(first.suspects[0]?.id);
  });

  it('[law] the same answer given twice is one answer', () => {
    const lamp = answer('look-lamp-key-on@lamp', 'dark');
    const again = session.diagnose([...readings, { ...lamp, id: 'again' }]);
    // The further step may draw a little more: numerical error alone.
    expect(distance(verdict, again)).toBeLessThan(1e-3);
  });

  const pointing = [
    number('battery-volts-rest@battery', 12.44),
    number('alternator-amps-fast@alternator', 38),
    number('drop-cable@charge-cable', 0.75),
    answer('drop-lugs@alternator', 'at-a-lug'),
  ];

  it('[law] the chance of the first suspect without a reading is that of a diagnosis without it', () => {
    const state = session.state(pointing);
    const first = session.diagnose(pointing).suspects[0]!.id;
    const isFirst = (h: number) => state.model.hypotheses[h]!.members.some(({ id }) => id === first);
    suspectsAndCleared(state).says.forEach(({ own }, index) => {
      const without = session.diagnose(pointing.filter((_, k) => k !== index));
      const there = without.suspects.find(({ id }) => id === first);
      const here = chanceWithout(state.posterior.probability, own, isFirst);
      // States that this reading alone threw out are missing here: a tenth of the chance at most, in this case.
      expect(Math.abs(here - (there?.probability ?? 0))).toBeLessThan(0.1);
    });
  });

  it('[law] a verdict that hangs on one number asks for it again, and stands once it was read twice', () => {
    const { conclusion } = session.diagnose(pointing);
    expect(conclusion).toEqual({ kind: 'look-again', repeat: 'drop-cable@charge-cable' });
    const twice = session.diagnose([...pointing, number('drop-cable@charge-cable', 0.74, 'second')]);
    expect(twice.conclusion.kind).toBe('decided');
  });

  it('[law] a reading where every suspect expects it moves little', () => {
    const first = session.diagnose(readings);
    // The rest voltage is known and the chargers are off: open-circuit volts must lie just above.
    const more = session.diagnose([...readings, number('stud-volts-off@alternator', 12.25)]);
    expect(distance(first, more)).toBeLessThan(0.15);
  });

  it('[law] names of parts are only names', () => {
    const renamed = JSON.parse(
      JSON.stringify(oneBattery).replaceAll('"battery"', '"bank-7"').replaceAll('battery.', 'bank-7.'),
    ) as BoatDescription;
    const kind = renamed.parts.map((part) =>
      (part.kind as string) === 'bank-7' ? { ...part, kind: 'battery' as const } : part,
    );
    const other = createSession({ ...renamed, parts: kind }, { draws });
    const same = readings.map((one) => ({ ...one, check: one.check.replace('@battery', '@bank-7') }));
    const there = other.diagnose(same);
    expect(distance(verdict, there, (id) => id.replace('@battery', '@bank-7'))).toBeLessThan(1e-9);
  });

  it('[law] a check that could not be done says nothing and is not asked again', () => {
    const hindered = verdict.next[0]?.check ?? '';
    const after = session.diagnose([
      ...readings,
      { id: 'no', check: hindered, outcome: { kind: 'could-not' } },
    ]);
    expect(distance(verdict, after)).toBeLessThan(1e-9);
    expect(after.next.map(({ check }) => check)).not.toContain(hindered);
  });

  it('[law] next checks never repeat one that was done, and never exceed the stated skill', () => {
    for (const skill of skills) {
      const limited: Session = createSession(oneBattery, { draws, skill });
      const { next } = limited.diagnose(readings.slice(0, 1));
      const texts = new Map(limited.checks.map(({ id, text }) => [id, text]));
      expect(next.length).toBeGreaterThan(0);
      for (const { check } of next) {
        expect(check).not.toBe('battery-volts-rest@battery');
        expect(skills.indexOf(texts.get(check)?.skill ?? 'electrician')).toBeLessThanOrEqual(
          skills.indexOf(skill),
        );
      }
    }
  });
});
