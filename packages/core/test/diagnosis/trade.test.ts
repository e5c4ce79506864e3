import { describe, expect, it } from 'vitest';
import { boatFromTemplate, type Fact } from '../../src/boat/index.ts';
import { createSession, type Verdict } from '../../src/diagnosis/index.ts';
import type { Reading } from '../../src/readings/index.ts';

// Facts of the trade, common practice throughout. Draws are few so that the file stays fast; margins are wide for that.
const draws = 48;
const nameplate = (value: number): Fact => ({ value, origin: 'nameplate' });
const AMP_HOUR = 3600;

const number = (check: string, value: number): Reading => ({
  id: check,
  check,
  outcome: { kind: 'number', value },
});
const answer = (check: string, said: string): Reading => ({
  id: check,
  check,
  outcome: { kind: 'answer', answer: said },
});

const chanceOf = (verdict: Verdict, is: (one: Verdict['suspects'][number]) => boolean): number =>
  verdict.suspects.reduce((sum, one) => sum + (is(one) ? one.probability : 0), 0);

const large = createSession(
  boatFromTemplate('one-battery', {
    alternatorCurrent: nameplate(50),
    bankCapacity: nameplate(400 * AMP_HOUR),
    bankChemistry: 'flooded',
    regulatorPlace: 'inside',
    excitation: 'lamp',
  }),
  { draws },
);

const outside = createSession(
  boatFromTemplate('one-battery', {
    alternatorCurrent: nameplate(100),
    bankCapacity: nameplate(300 * AMP_HOUR),
    bankChemistry: 'flooded',
    regulatorPlace: 'outside',
    excitation: 'ignition',
  }),
  { draws },
);

describe('facts of the trade', () => {
  it('[common practice] a large flat bank that rises from 11.5 V to 12 V, engine running, is being charged', () => {
    const verdict = large.diagnose([
      number('battery-volts-rest@battery', 11.5),
      number('battery-volts-idle@battery', 12),
      number('alternator-amps-fast@alternator', 40),
    ]);
    const making = verdict.answers.find(({ question }) => question === 'making');
    // Two volts readings and a clamp leave single diodes and the like open: some 0.2 in all.
    expect(making?.yes).toBeGreaterThan(0.75);
    expect(verdict.suspects[0]?.nature).toBe('normal');
    expect(verdict.readings.map(({ stands }) => stands)).toEqual(['in', 'in', 'in']);
  });

  it('[common practice] an engine that cranks briskly clears the path from battery to starter post', () => {
    const path = ['feed-cable-resistive@start-cable', 'post-clamp-loose@battery', 'main-fuse-open@main-fuse'];
    const before = large.diagnose([]);
    const after = large.diagnose([answer('listen-cranking', 'normal')]);
    const of = (verdict: Verdict, id: string): number => chanceOf(verdict, (one) => one.id === id);
    // A joint of 4 mΩ costs a volt at 250 A and still cranks: bad joints are made much less likely, not impossible.
    for (const id of path) expect(of(after, id), id).toBeLessThan(0.6 * of(before, id));
    expect(of(after, 'main-fuse-open@main-fuse')).toBeLessThan(0.005);
    // The alternator's own cable carries no starting current: nothing is said of it.
    const cable = 'charge-cable-resistive@charge-cable';
    expect(of(after, cable)).toBeGreaterThan(of(before, cable));
  });

  it('[common practice] an outside regulator that waits 45 s to 120 s is not broken', () => {
    const noField = [
      'regulator-dead',
      'enable-lead-open',
      'field-lead-open',
      'supply-lead-open',
      'brushes-worn',
      'rotor-open',
    ];
    const dead = (verdict: Verdict): number => chanceOf(verdict, ({ fault }) => noField.includes(fault));
    expect(dead(outside.diagnose([]))).toBeGreaterThan(0.15);
    const waited = outside.diagnose([
      answer('charging-comes-in@alternator', 'later'),
      number('battery-volts-rest@battery', 12.3),
      number('battery-volts-fast@battery', 14),
    ]);
    expect(dead(waited)).toBeLessThan(0.01);
    expect(waited.suspects[0]?.nature).toBe('normal');
  });

  it('[common practice] full output by full field clears the alternator and leaves the regulator', () => {
    const verdict = outside.diagnose([
      number('battery-volts-rest@battery', 12.2),
      number('battery-volts-fast@battery', 12.15),
      number('field-volts@alternator', 0.1),
      number('enable-volts@alternator', 12),
      number('full-field-amps@alternator', 55),
      number('full-field-volts@alternator', 13.3),
    ]);
    const machine = chanceOf(verdict, ({ family, nature }) => family === 'alternator' && nature === 'fault');
    expect(machine).toBeLessThan(0.03);
    expect(verdict.suspects[0]?.id).toBe('regulator-dead@regulator');
  });

  it('[common practice] six amps out of a bank with everything off leave a chafed cable or a shorted diode', () => {
    const verdict = large.diagnose([
      number('battery-volts-rest@battery', 12.1),
      number('battery-volts-fast@battery', 13),
      number('battery-amps-drain@battery', -6),
    ]);
    const drains = ['charge-cable-chafed', 'diode-shorted'];
    expect(chanceOf(verdict, ({ fault }) => drains.includes(fault))).toBeGreaterThan(0.6);
  });
});
