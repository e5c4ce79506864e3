import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, unknownsOf, type Fact } from '../../src/boat/index.ts';
import { placedChecks } from '../../src/checks/index.ts';
import { createSession, type Verdict } from '../../src/diagnosis/index.ts';
import { pairHypothesis } from '../../src/diagnosis/hypothesis.ts';
import { BoatModel } from '../../src/diagnosis/model.ts';
import { keepOrdinary, placedFaults, type PlacedFault } from '../../src/faults/index.ts';
import { Operator, readProbe } from '../../src/operate/index.ts';
import type { Reading } from '../../src/readings/index.ts';

const nameplate = (value: number): Fact => ({ value, origin: 'nameplate' });
const AMP_HOUR = 3600;
const description = boatFromTemplate('one-battery', {
  alternatorCurrent: nameplate(70),
  bankCapacity: nameplate(220 * AMP_HOUR),
  bankChemistry: 'flooded',
  regulatorPlace: 'inside',
  excitation: 'lamp',
  cableArea: nameplate(16e-6),
  cableLength: nameplate(1.5),
});
const faults = placedFaults(description);
const checks = placedChecks(description);
const draws = 48;
const session = createSession(description, { draws });

const BELT = 'belt-broken@belt';
const CABLE = 'charge-cable-resistive@charge-cable';
const SEVERITY = 0.7;

const faultOf = (id: string): PlacedFault => faults.find((one) => one.id === id)!;

/** What checks read, without any error, on the middle boat that was found with some faults, once some of them are put right. */
function readings(
  ids: readonly string[],
  found: readonly string[],
  putRight: readonly string[] = [],
): Reading[] {
  const boat = boatAt(description, new Float64Array(unknownsOf(description).length));
  const members = found.map(faultOf);
  keepOrdinary(boat, members);
  for (const { id, fault, part } of members) if (!putRight.includes(id)) fault.apply(boat, part, SEVERITY);
  const operator = new Operator(boat);
  return ids.map((id): Reading => {
    const { outcome, condition, part = '' } = checks.find((check) => check.id === id)!;
    const about = { id: `${id} ${putRight.join()}`, check: id };
    const after = putRight.length === 0 ? {} : { afterRepairOf: putRight };
    if (outcome.kind === 'number') {
      const value = readProbe(operator, boat, operator.at(condition), outcome.probe);
      return { ...about, ...after, outcome: { kind: 'number', value } };
    }
    const chances = new Float64Array(outcome.answers.length);
    const at = operator.at.bind(operator);
    outcome.chances({ boat, part, at, read: (...to) => readProbe(operator, boat, ...to) }, chances);
    const likeliest = outcome.answers[chances.indexOf(Math.max(...chances))]!;
    return { ...about, ...after, outcome: { kind: 'answer', answer: likeliest.id } };
  });
}

const firstLook = ['battery-volts-rest@battery', 'battery-volts-fast@battery', 'look-belt@belt'];
const proving = [
  'battery-volts-fast@battery',
  'battery-volts-idle@battery',
  'drop-positive@alternator',
  'drop-return@alternator',
  'drop-cable@charge-cable',
  'output-amps@alternator',
  'ripple-loaded@alternator',
  'belt-slip-loaded@alternator',
  'filled-load-test@battery',
  'look-posts@battery',
];

describe('a repair and the readings after it', () => {
  it('[law] a repaired fault, then readings where a sound boat has them: all is well', () => {
    const before = readings(firstLook, [BELT]);
    expect(session.diagnose(before).suspects[0]?.id).toBe(BELT);
    const verdict = session.diagnose([...before, ...readings(proving, [BELT], [BELT])]);
    for (const { reading, stands } of verdict.readings)
      if (reading.endsWith(BELT)) expect(['in', 'usual']).toContain(stands);
    expect(verdict.suspects[0]?.id).toBe('all-well');
    expect(verdict.wrong).toBeLessThan(0.1);
    expect(verdict.suspects.map(({ id }) => id)).not.toContain(BELT);
  });

  it('[law] no repair is proved before a reading is taken after it', () => {
    const before = readings([...firstLook, ...proving], [BELT]);
    const { conclusion, next } = createSession(description, { draws, repaired: [BELT] }).diagnose(before);
    expect(conclusion.kind).toBe('go-on');
    expect(next.map(({ check }) => check)).toContain('battery-volts-fast@battery');
  });

  it('[law] with the first fault put right and readings still bad, the second comes first', () => {
    const before = readings(firstLook, [BELT, CABLE]);
    const hidden = session.diagnose(before);
    expect(hidden.suspects[0]?.id).toBe(BELT);
    const seen = session.diagnose([
      ...before,
      ...readings(['battery-volts-fast@battery', 'drop-cable@charge-cable'], [BELT, CABLE], [BELT]),
    ]);
    expect(seen.suspects[0]?.id).toBe(CABLE);
    expect(seen.wrong).toBeGreaterThan(0.9);
  });

  it('[law] a repair that no reading could see leaves the odds of the rest as they were', () => {
    // Everything read with the engine off: a regulator that holds the field full on shows in none of it.
    const still = readings(
      ['battery-volts-rest@battery', 'look-lamp-key-on@lamp', 'look-belt@belt'],
      ['charge-lamp-blown@lamp'],
    );
    const unseen = 'internal-regulator-stuck-full@regulator';
    const without = session.diagnose(still);
    const repaired = createSession(description, { draws, repaired: [unseen] }).diagnose(still);
    const rest = (verdict: Verdict): Map<string, number> => {
      const kept = verdict.suspects.filter(({ id }) => id !== unseen && id !== 'all-well');
      const whole = kept.reduce((sum, { probability }) => sum + probability, 0);
      return new Map(kept.map(({ id, probability }) => [id, probability / whole]));
    };
    const [was, is] = [rest(without), rest(repaired)];
    const moved = [...is].reduce((sum, [id, chance]) => sum + Math.abs(chance - (was.get(id) ?? 0)), 0) / 2;
    // Pairs with the regulator's own family are not weighed, which takes its prior of 1 % from those; the rest is sampling.
    expect(moved).toBeLessThan(0.01 + without.reliability.error + repaired.reliability.error);
  });

  it('[law] of a pair, what is left keeps its own severity, whichever member was put right', () => {
    const model = new BoatModel(description, faults, checks);
    const pair = model.weigh(pairHypothesis(faultOf(CABLE), faultOf('brushes-worn@alternator'))!);
    const wanted = ['drop-cable@charge-cable', 'slip-ring-ohms@alternator'].map((id) =>
      model.observableOf(id),
    );
    const u = new Float64Array(model.dimensions);
    const [first, , second] = [model.dimensions - 3, model.dimensions - 2, model.dimensions - 1];
    const predicted = (hypothesis: number, severities: readonly [number, number], repaired: string[]) => {
      [u[first], u[second]] = severities;
      const repairs = model.repairsOf(repaired);
      const after = wanted.map((number) => model.observableOf(model.checks[number]!.id, repairs));
      const out = new Float64Array(after.length);
      model.predict(hypothesis, u, after, out);
      return [...out];
    };
    const members = model.hypotheses[pair]!.members.map(({ id }) => id);
    const single = (id: string | undefined): number => model.hypotheses.findIndex((one) => one.id === id);
    expect(predicted(pair, [0.8, -0.6], [members[1]!])).toEqual(predicted(single(members[0]), [0.8, 0], []));
    expect(predicted(pair, [0.8, -0.6], [members[0]!])).toEqual(predicted(single(members[1]), [-0.6, 0], []));
  });

  it('[law] the order in which repairs are told does not matter', () => {
    const before = readings(firstLook, [BELT, CABLE]);
    const after = readings(['battery-volts-fast@battery'], [BELT, CABLE], [BELT, CABLE]);
    const turned = after.map((one) => ({ ...one, afterRepairOf: [CABLE, BELT] }));
    const verdict = session.diagnose([...before, ...after]);
    const other = session.diagnose([...before, ...turned]);
    expect(other.suspects).toEqual(verdict.suspects);
    expect(other.next).toEqual(verdict.next);
  });
});
