import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, type Boat, type TenFacts } from '../../src/boat/index.ts';
import { chargeRun, type ChargeRun, type Phase, type RunOptions } from '../../src/operate/index.ts';
import { batteryNode } from '../../src/physics/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const AMP_HOURS = 300;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;

function boatOf(
  chemistry: NonNullable<TenFacts['bankChemistry']>,
  facts: TenFacts = {},
  change: (boat: Boat) => void = () => undefined,
): Boat {
  const boat = boatAt(
    boatFromTemplate('one-battery', {
      alternatorCurrent: told(120),
      bankCapacity: told(AMP_HOURS * HOUR),
      bankChemistry: chemistry,
      loadsCurrent: told(10),
      ...facts,
    }),
  );
  change(boat);
  return boat;
}
const motoring = (hours: number, loads = 1): Phase => ({
  duration: hours * HOUR,
  engine: 'running',
  engineSpeed: 1800 * RPM,
  loads,
});
const from = (share: number): RunOptions => ({ stateOfCharge: { battery: share } });
const temperatures = (run: ChargeRun): readonly number[] => run.batteries[0]!.temperature;
const hottest = (run: ChargeRun): number => Math.max(...temperatures(run));

describe('battery temperature in a run', () => {
  it('[law] what the bank loses inside warms it or its place, within 0.1 %, whatever the plan', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('flooded', 'agm', 'gel', 'lifepo4'),
        fc.double({ min: 0.15, max: 0.9, noNaN: true }),
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        fc.double({ min: 278, max: 308, noNaN: true }),
        (chemistry, share, loads, place) => {
          const boat = boatOf(chemistry, {}, ({ batteries: [bank] }) => (bank!.temperature = place));
          const plan: Phase[] = [
            { duration: 2 * HOUR, engine: 'off', loads },
            motoring(4, loads),
            { duration: 6 * HOUR, engine: 'off', loads: 0.3 * loads },
          ];
          const run = chargeRun(boat, plan, { ...from(share), longestStep: 600 });
          const [bank] = boat.batteries;
          const { made, kept, given } = run.bankHeat;
          expect(Math.abs(run.energy.imbalance)).toBeLessThan(1e-3);
          // Lost inside by the circuit's books, less what leaves a flooded bank as gas: 1.48 V a cell (textbook, from memory).
          const vented = chemistry === 'flooded' ? 1.48 * bank!.cells * run.charge[0]!.lost : 0;
          expect(Math.abs(made / (run.energy.batteryLoss + run.energy.gassing - vented) - 1)).toBeLessThan(
            1e-3,
          );
          const node = batteryNode(chemistry, bank!.cells, bank!.capacity);
          const warmed = node.capacity * (temperatures(run).at(-1)! - place);
          expect(Math.abs(kept - warmed)).toBeLessThan(1e-3 * made);
          // Newton's law of cooling over the recorded temperatures.
          const cooled = run.times.reduce((sum, time, k) => {
            const [now, before] = [temperatures(run)[k]!, temperatures(run)[k - 1] ?? place];
            return sum + (time - (run.times[k - 1] ?? 0)) * ((now + before) / 2 - place);
          }, 0);
          expect(Math.abs(given - node.conductance * cooled)).toBeLessThan(1e-3 * made);
        },
      ),
      { seed: 41, numRuns: 12 },
    );
  });

  it('[limit] no current, no warmth; held, as it was', () => {
    // Lithium: lead-acid discharges itself, which is heat too.
    const still = chargeRun(boatOf('lifepo4'), [{ duration: 20 * HOUR, engine: 'off', loads: 0 }], from(0.6));
    expect(hottest(still) - temperatures(still)[0]!).toBeLessThan(1e-4);
    const held = chargeRun(boatOf('agm'), [motoring(3)], { ...from(0.3), heat: 'held' });
    expect(new Set(temperatures(held)).size).toBe(1);
    expect(held.bankHeat.made).toBe(0);
  });

  it('[common practice] a bank on bulk charge warms by some kelvin in hours, and cools over the night', () => {
    const plan = [motoring(4), { duration: 12 * HOUR, engine: 'off', loads: 0.1 } as const];
    const run = chargeRun(boatOf('flooded'), plan, from(0.4));
    const start = temperatures(run)[0]!;
    const [rise, left] = [hottest(run) - start, temperatures(run).at(-1)! - start];
    expect(rise).toBeGreaterThan(2);
    expect(rise).toBeLessThan(15);
    expect(left).toBeLessThan(0.4 * rise);
    // LiFePO4 loses a third of the volts at the same amps.
    const lithium = chargeRun(boatOf('lifepo4'), plan, from(0.4));
    expect(hottest(lithium) - temperatures(lithium)[0]!).toBeLessThan(rise);
  });

  it('[law] the regulator lowers its voltage by its compensation for each kelvin that the bank has warmed', () => {
    const boat = boatOf('flooded', { regulatorPlace: 'outside', excitation: 'ignition' });
    const [regulator] = boat.regulators;
    regulator!.compensation = -0.03;
    // Steep, so that what the field asks for hardly moves its voltage.
    regulator!.gain = 200;
    const at = (heat: RunOptions['heat'], time: number) => {
      const run = chargeRun(boat, [motoring(6)], { ...from(0.4), ...(heat ? { heat } : {}) });
      const k = run.times.findIndex((one) => one >= time);
      expect(run.alternators[0]!.stage[k]).toBe('absorption');
      return { volts: run.batteries[0]!.voltage[k]!, kelvin: temperatures(run)[k]! };
    };
    const [moving, held] = [at('moving', 3 * HOUR), at('held', 3 * HOUR)];
    const rise = moving.kelvin - held.kelvin;
    expect(rise).toBeGreaterThan(1);
    // A share of a volt over its gain, and the drop of cables that carry a few amperes more or less.
    expect(Math.abs(moving.volts - held.volts + 0.03 * rise)).toBeLessThan(0.015);
  });

  it('[common practice] a lithium bank that charging warms past 45 °C, the usual limit of its cells, stops charging there', () => {
    const hot = boatOf('lifepo4', {}, ({ batteries: [bank] }) => {
      bank!.temperature = 318.15 - 0.5;
      bank!.resistanceFactor = 2;
    });
    const run = chargeRun(hot, [motoring(2)], from(0.2));
    const opened = run.events.find(({ kind }) => kind === 'charging-opened');
    expect(opened).toMatchObject({ reason: 'hot', part: 'battery' });
    const k = run.times.findIndex((time) => time >= opened!.time);
    expect(opened!.time).toBeGreaterThan(60);
    expect(Math.abs(temperatures(run)[k]! - 318.15)).toBeLessThan(0.05);
  });

  it('[law] a finer run gives the same temperatures', () => {
    const at = (tolerance: number, longestStep: number) =>
      hottest(chargeRun(boatOf('agm'), [motoring(6)], { ...from(0.3), tolerance, longestStep }));
    expect(Math.abs(at(3e-4, 3600) - at(3e-5, 60))).toBeLessThan(0.1);
  });

  it('[limit] a bank that a stuck regulator boils goes on warming, past the range of the battery laws', () => {
    const stuck = boatOf('flooded', {}, ({ regulators: [regulator], batteries: [bank] }) => {
      regulator!.state = 'stuck-full';
      bank!.temperature = 313.15;
    });
    const run = chargeRun(stuck, [motoring(24, 0)], from(0.8));
    expect(run.ended).toBe('plan-done');
    expect(hottest(run)).toBeGreaterThan(343);
    expect(Math.abs(run.energy.imbalance)).toBeLessThan(1e-3);
  });
});
