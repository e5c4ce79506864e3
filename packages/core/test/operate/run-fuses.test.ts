import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, templateIds, type Boat } from '../../src/boat/index.ts';
import { chargeRun, type ChargeRun, type Phase } from '../../src/operate/index.ts';
import { fuseKeepers } from '../../src/operate/run-fuses.ts';
import { fuseMeltingTime } from '../../src/physics/contact.ts';
import { eventCaution, eventWords } from '../../src/planning/index.ts';

const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;

function fused(rating: number, loads = 40): Boat {
  const boat = boatAt(
    boatFromTemplate('one-battery', {
      alternatorCurrent: told(100),
      bankCapacity: told(400 * HOUR),
      bankChemistry: 'agm',
      loadsCurrent: told(loads),
    }),
  );
  boat.fuses.forEach((fuse) => (fuse.rating = rating));
  return boat;
}
/** Nobody told the rating; the cables on both sides are so thick [mm²]. */
function untold(area: number, loads: number): Boat {
  const boat = fused(Infinity, loads);
  for (const cable of boat.conductors)
    if (['switch-cable', 'fuse-cable'].includes(cable.id)) cable.area = area * 1e-6;
  return boat;
}
const off = (hours: number, loads = 1): Phase => ({ duration: hours * HOUR, engine: 'off', loads });
const running = (hours: number): Phase => ({ duration: hours * HOUR, engine: 'running', engineSpeed: 188 });
const start = { stateOfCharge: { battery: 0.6 } };
const melted = (run: ChargeRun) => run.events.filter(({ kind }) => kind === 'fuse-melted');
const sound = (run: ChargeRun): void => {
  expect(run.notConverged).toBe(0);
  expect(Math.abs(run.energy.imbalance)).toBeLessThan(1e-3);
  for (const { into, kept, lost } of run.charge)
    expect(Math.abs(into - kept - lost)).toBeLessThan(1e-3 * Math.max(1, Math.abs(into)));
};
/** An hour of small loads, so that the books hold something, then the usual ones. */
const laden = [off(1, 0.1), off(1)];
/** Current that the bank gives as its usual loads are switched on [A]. */
const carried = (): number => {
  const run = chargeRun(fused(Infinity), laden, start);
  return Math.abs(run.batteries[0]!.current[run.times.lastIndexOf(HOUR)]!);
};

describe('fuses in a run', () => {
  it('[ISO8820 part 3, from memory] at its rating, and a tenth above, it carries on', () => {
    for (const share of [1, 1.1]) {
      const run = chargeRun(fused(carried() / share), [off(1, 0.1), off(3)], start);
      expect(melted(run)).toEqual([]);
    }
  });

  it.each([1.4, 1.6, 2, 3.5, 6])('[law] at %d times its rating it melts when the law says', (times) => {
    const current = carried();
    const rating = current / times;
    const run = chargeRun(fused(rating), laden, start);
    const [event, ...more] = melted(run);
    expect(more).toEqual([]);
    expect(event).toMatchObject({ part: 'main-fuse' });
    // The bank sinks a little while it melts, and the current with it; life to 1 %.
    const sooner = fuseMeltingTime(rating, current).most;
    const later = fuseMeltingTime(rating, event!.current!).most;
    expect(event!.time - HOUR).toBeGreaterThan(0.98 * sooner);
    expect(event!.time - HOUR).toBeLessThan(1.02 * later);
    // Open: nothing flows, and the run goes on.
    expect(run.ended).toBe('plan-done');
    expect(Math.abs(run.batteries[0]!.current.at(-1)!)).toBeLessThan(0.01);
    sound(run);
  });

  it('[law] life that is used up in pieces adds up: half of it, an hour of rest, the other half', () => {
    const rating = carried() / 1.6;
    const whole = melted(chargeRun(fused(rating), [off(1)], start))[0]!.time;
    const pieces = [off(whole / 2 / HOUR), off(1, 0.1), off(1)];
    const run = chargeRun(fused(rating), pieces, start);
    const [event] = melted(run);
    // The bank recovers meanwhile, by about a hundredth of its voltage.
    expect(Math.abs(event!.time - HOUR - whole) / whole).toBeLessThan(0.12);
    sound(run);
  });

  it('[common practice] in the charge path it leaves the machine without its bank: a load dump, and what it can break', () => {
    const run = chargeRun(fused(45, 1), [running(2)], start);
    const [event] = melted(run);
    expect(event!.current!).toBeGreaterThan(1.35 * 45);
    const dump = run.events.find(({ kind }) => kind === 'load-dump')!;
    expect(dump).toMatchObject({ part: 'alternator', time: event!.time });
    expect(eventWords(event!)).toMatch(/melts.*\d+ A/);
    expect(eventCaution('fuse-melted')).toMatch(/never fit a larger one/i);
    sound(run);
  });

  it.each([
    // 2 AWG, 105 °C, engine space: 210 A · 0.85 = 178.5 A, so 200 A; 10 AWG: 60 · 0.85 = 51 A, so 60 A. [CFR425, table 5]
    [33.7, 200],
    [5.27, 60],
  ])(
    '[E11, 11.10.2.3] %d mm² without a told rating: a fuse of %d A, and the run says that it is assumed',
    (area, rating) => {
      const run = chargeRun(untold(area, 2.8 * rating), laden, start);
      const [event] = melted(run);
      expect(event!.assumedLimit).toBe(rating);
      expect(eventWords(event!)).toMatch(new RegExp(`rating of ${rating} A is assumed`));
      expect(event!.time - HOUR).toBeLessThan(1.02 * fuseMeltingTime(rating, event!.current!).most);
      sound(run);
      // A told one is not spoken of so.
      expect(melted(chargeRun(fused(rating, 2.8 * rating), laden, start))[0]!.assumedLimit).toBeUndefined();
    },
  );

  it('[common practice] a thin lead beside a fuse has one of its own, and a sound boat of any kind melts none', () => {
    const leads = untold(33.7, 1.8 * 200);
    leads.conductors.push({
      ...leads.conductors[0]!,
      id: 'sense',
      from: 'main-fuse.a',
      to: 'gauge',
      area: 1e-6,
    });
    expect(fuseKeepers(leads)[0]!.rating).toBe(200);
    for (const template of templateIds) {
      for (const amps of [55, 90, 150]) {
        const boat = boatAt(
          boatFromTemplate(template, { alternatorCurrent: told(amps), bankCapacity: told(400 * HOUR) }),
        );
        const [phase] = [running(4)];
        expect(fuseKeepers(boat).length).toBeGreaterThan(0);
        expect(melted(chargeRun(boat, [phase], { stateOfCharge: { battery: 0.3, house: 0.3 } }))).toEqual([]);
      }
    }
  });

  it('[limit] without a cable of known size no rating can be assumed, and the fuse never melts', () => {
    const bare = untold(33.7, 40);
    bare.conductors = [];
    expect(fuseKeepers(bare)).toEqual([]);
  });
});
