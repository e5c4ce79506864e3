import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

import {
  advanceBattery,
  gassing,
  gassingCurrentExpression,
  mainCurrentAt,
  prepareBattery,
  restedState,
  settledState,
  terminalVoltage,
  terminalVoltageAt,
  terminalVoltageExpression,
  type BatteryLaw,
  type BatteryState,
} from '../../src/physics/battery.ts';
import { chargeRun, lawOf } from './charge-run.ts';

const SEED = { seed: 20260301, numRuns: 300 };
const out = { voltage: 0, dByCurrent: 0 };
const gas = { current: 0, dByVoltage: 0 };

const laws: fc.Arbitrary<BatteryLaw> = fc.record({
  chemistry: fc.constantFrom('flooded', 'agm', 'gel', 'lifepo4'),
  family: fc.constantFrom('main', 'rival'),
  cells: fc.constantFrom(4, 6, 8, 12),
  capacity: fc.double({ min: 40 * 3600, max: 1200 * 3600, noNaN: true }),
  resistanceFactor: fc.double({ min: 0.5, max: 8, noNaN: true }),
  sulphation: fc.double({ min: 0, max: 1, noNaN: true }),
  shortedCells: fc.constantFrom(0, 1),
  temperature: fc.double({ min: 243, max: 333, noNaN: true }),
});
const charges = fc.double({ min: 0, max: 1, noNaN: true });
const elapsedTimes = fc.constantFrom(0, 20, 300, 3600, Infinity);
/** Current over C20, both small and large. */
const rates = fc
  .tuple(fc.double({ min: -6, max: 0.6, noNaN: true }), fc.boolean())
  .map(([power, charging]) => (charging ? 1 : -1) * 10 ** power);

describe('laws of every battery', () => {
  test('[law] voltage rises strictly with current and the slope is its derivative', () => {
    fc.assert(
      fc.property(laws, charges, rates, elapsedTimes, (law, charge, rate, elapsed) => {
        const prepared = prepareBattery(law, restedState(charge), elapsed);
        const current = (rate * law.capacity) / 3600;
        const half = Math.abs(current) * 1e-4;
        terminalVoltage(prepared, current - half, out);
        const low = out.voltage;
        terminalVoltage(prepared, current + half, out);
        const high = out.voltage;
        terminalVoltage(prepared, current, out);
        expect(out.dByCurrent).toBeGreaterThan(0);
        expect(high).toBeGreaterThan(low);
        // 1e-5 relative for curvature, 1e-13 V of rounding over the width
        const difference = (high - low) / (2 * half);
        expect(Math.abs(difference - out.dByCurrent)).toBeLessThan(1e-5 * out.dByCurrent + 1e-13 / half);
      }),
      SEED,
    );
  });

  test('[law] one slope on both sides of zero current', () => {
    fc.assert(
      fc.property(laws, charges, (law, charge) => {
        const prepared = prepareBattery(law, restedState(charge));
        terminalVoltage(prepared, 0, out);
        const slope = out.dByCurrent;
        for (const sign of [-1, 1]) {
          // near full the charge side steepens within a millionth of C20, so the probe is far below that
          terminalVoltage(prepared, sign * 1e-15 * law.capacity, out);
          expect(Math.abs(out.dByCurrent / slope - 1)).toBeLessThan(1e-3);
        }
      }),
      SEED,
    );
  });

  test('[law] a rested battery without current shows its rest voltage', () => {
    fc.assert(
      fc.property(laws, charges, elapsedTimes, (law, charge, elapsed) => {
        const prepared = prepareBattery(law, restedState(charge), elapsed);
        terminalVoltage(prepared, 0, out);
        expect(out.voltage).toBeCloseTo(prepared.emf, 12);
      }),
      SEED,
    );
  });

  test('[law] rest voltage rises with charge', () => {
    fc.assert(
      fc.property(laws, fc.double({ min: 0, max: 0.98, noNaN: true }), (law, charge) => {
        const low = prepareBattery(law, restedState(charge)).emf;
        expect(prepareBattery(law, restedState(charge + 0.02)).emf).toBeGreaterThan(low);
      }),
      SEED,
    );
  });

  test('[law] gassing rises with voltage, its slope is the derivative, and it never overflows', () => {
    fc.assert(
      fc.property(laws, fc.double({ min: -5, max: 60, noNaN: true }), (law, voltage) => {
        const prepared = prepareBattery(law, restedState(0.5));
        gassing(prepared, voltage - 1e-5, gas);
        const low = gas.current;
        gassing(prepared, voltage + 1e-5, gas);
        const high = gas.current;
        gassing(prepared, voltage, gas);
        expect(Number.isFinite(gas.current)).toBe(true);
        if (law.chemistry === 'lifepo4') expect(gas.current).toBe(0);
        else {
          expect(gas.dByVoltage).toBeGreaterThan(0);
          expect(gas.current * voltage).toBeGreaterThanOrEqual(0);
          const difference = (high - low) / 2e-5;
          expect(Math.abs(difference - gas.dByVoltage)).toBeLessThan(
            1e-4 * gas.dByVoltage + 1e-10 * Math.abs(high),
          );
        }
      }),
      SEED,
    );
  });

  test('[law] settled losses are not negative', () => {
    fc.assert(
      fc.property(laws, charges, rates, (law, charge, rate) => {
        const current = (rate * law.capacity) / 3600;
        const prepared = prepareBattery(law, restedState(charge));
        terminalVoltage(prepared, current, out);
        expect((out.voltage - prepared.emf) * current).toBeGreaterThanOrEqual(0);
      }),
      SEED,
    );
  });

  test('[law] main-branch current inverts the voltage', () => {
    fc.assert(
      fc.property(laws, charges, rates, (law, charge, rate) => {
        const current = (rate * law.capacity) / 3600;
        const prepared = prepareBattery(law, restedState(charge));
        terminalVoltage(prepared, current, out);
        const slope = out.dByCurrent;
        const back = mainCurrentAt(prepared, out.voltage);
        expect(Math.abs(back - current) * slope).toBeLessThan(1e-8);
      }),
      SEED,
    );
  });

  test('[rival] the exported expressions equal the laws', () => {
    // Plain JavaScript reads the text with the functions of a circuit simulator: an independent reader.
    const names = ['i', 'v', 'pow', 'max', 'min', 'sqrt', 'exp'];
    const read = (text: string, i: number, v: number): number =>
      Number(
        // eslint-disable-next-line @typescript-eslint/no-implied-eval, @typescript-eslint/no-unsafe-call -- our own text, read by a second reader
        new Function(...names, `return ${text}`)(i, v, Math.pow, Math.max, Math.min, Math.sqrt, Math.exp),
      );
    fc.assert(
      fc.property(laws, charges, rates, elapsedTimes, (law, charge, rate, elapsed) => {
        const current = (rate * law.capacity) / 3600;
        const prepared = prepareBattery(law, settledState(law, charge, -5), elapsed);
        terminalVoltage(prepared, current, out);
        expect(read(terminalVoltageExpression(prepared, 'i'), current, 0)).toBeCloseTo(out.voltage, 7);
        for (const voltage of [-1, 10.5, 12.6, 14.4, 18, 40]) {
          gassing(prepared, voltage, gas);
          const text = read(gassingCurrentExpression(prepared, 'v'), 0, voltage);
          expect(Math.abs(text - gas.current)).toBeLessThan(1e-9 * Math.abs(gas.current) + 1e-15);
        }
      }),
      { ...SEED, numRuns: 100 },
    );
  });
});

describe('in time', () => {
  test('[law] charge is conserved: what is stored or clipped is what flowed', () => {
    fc.assert(
      fc.property(
        laws,
        charges,
        rates,
        fc.double({ min: 0, max: 7200, noNaN: true }),
        (law, charge, rate, duration) => {
          const state = restedState(charge);
          const current = (rate * law.capacity) / 3600;
          const step = advanceBattery(law, state, current, 0, duration);
          const stored = (state.stateOfCharge - charge) * law.capacity;
          expect(stored + step.clippedCharge).toBeCloseTo(current * duration, 3);
        },
      ),
      SEED,
    );
  });

  test('[law] two steps equal one, at rest', () => {
    const once: BatteryState = {
      stateOfCharge: 0.6,
      polarisation: 0.7,
      slowPolarisation: 0.5,
      surfaceCharge: 0.3,
    };
    const twice = { ...once };
    advanceBattery(lawOf(), once, 0, 0, 1000);
    advanceBattery(lawOf(), twice, 0, 0, 300);
    advanceBattery(lawOf(), twice, 0, 0, 700);
    expect(twice.polarisation).toBeCloseTo(once.polarisation, 12);
    expect(twice.slowPolarisation).toBeCloseTo(once.slowPolarisation, 12);
    expect(twice.surfaceCharge).toBeCloseTo(once.surfaceCharge, 12);
  });

  test('[law] f(I, t) = R·I + g·(f∞ − R·I) + (1 − g)·P_before', () => {
    const law = lawOf();
    const before = settledState(law, 0.5, -8);
    const settled = prepareBattery(law, before);
    terminalVoltage(settled, 12, out);
    const full = out.voltage - settled.emf;
    for (const elapsed of [0, 60, 600, 6000]) {
      const prepared = prepareBattery(law, before, elapsed);
      terminalVoltage(prepared, 12, out);
      const ohmic = prepared.ohmicResistance * 12;
      const g = prepared.share;
      const expected = ohmic + g * (full - ohmic) + (1 - g) * before.polarisation;
      expect(out.voltage - prepared.emf).toBeCloseTo(expected, 12);
    }
    expect(prepareBattery(law, before, 0).share).toBeCloseTo(0.3, 12);
  });

  test('[law] advancing agrees with the closed form at the same current', () => {
    // A battery so large that its state of charge does not move; the surface memory is not stripped here.
    const law = lawOf({ capacity: 1e6 * 3600 });
    const state = settledState(law, 0.5, -20000);
    const closed = prepareBattery(law, state, 900);
    terminalVoltage(closed, 30000, out);
    const expected = out.voltage;
    for (let k = 0; k < 90; k++) advanceBattery(law, state, 30000, 0, 10);
    terminalVoltage(prepareBattery(law, state, 0), 30000, out);
    // 25 Ah of a million per hour moves E and f∞ by under 20 mV
    expect(Math.abs(out.voltage - expected)).toBeLessThan(0.02);
  });

  test('[law] from rest through a load back to rest, energy is lost, not made', () => {
    const state = restedState(0.7);
    let loss = 0;
    for (let k = 0; k < 60; k++) loss += advanceBattery(lawOf(), state, k < 30 ? -10 : 8, 0, 60).mainLoss;
    expect(loss).toBeGreaterThan(0);
  });

  test('[law] energy in is energy stored plus losses, overcharge included', () => {
    const law = lawOf();
    const state = restedState(0.999);
    const step = advanceBattery(law, state, 5, 0.5, 600);
    terminalVoltage(prepareBattery(law, restedState(0.999), 0), 5, out);
    const start = out.voltage;
    terminalVoltage(prepareBattery(law, state, 0), 5, out);
    const energyIn = ((start + out.voltage) / 2) * 5.5 * 600;
    const rest = (prepareBattery(law, restedState(0.999)).emf + prepareBattery(law, state).emf) / 2;
    const stored = rest * (1 - 0.999) * law.capacity;
    expect(step.clippedCharge).toBeGreaterThan(0);
    expect(stored + step.mainLoss + step.gassingLoss).toBeCloseTo(energyIn, 6);
  });

  test('[textbook, from memory] vented gas carries 1.48 V per cell away, recombined gas none', () => {
    const flooded = advanceBattery(lawOf(), restedState(1), 0, 2, 600);
    const agm = advanceBattery(lawOf({ chemistry: 'agm' }), restedState(1), 0, 2, 600);
    expect(flooded.gassingLoss - flooded.heat).toBeCloseTo(6 * 1.48 * 2 * 600, 6);
    expect(agm.heat).toBeCloseTo(agm.gassingLoss, 9);
  });

  test('[TM 9-6115-730-24] surface charge is gone after 8 h of rest, not after 1 h', () => {
    const law = lawOf();
    const state = restedState(0.8);
    chargeRun(law, state, 20, 14.4, (point) => point.totalCurrent < 2);
    const rest = prepareBattery(law, restedState(state.stateOfCharge)).emf;
    const excess = (): number => {
      terminalVoltage(prepareBattery(law, state, 0), 0, out);
      return out.voltage - rest;
    };
    advanceBattery(law, state, 0, 0, 3600);
    expect(excess()).toBeGreaterThan(0.2);
    advanceBattery(law, state, 0, 0, 7 * 3600);
    // a tenth of the step between 75 and 100 % of charge
    expect(excess()).toBeLessThan(0.02);
  });

  test('[common practice] a load for some minutes takes the surface charge off', () => {
    const law = lawOf();
    const loaded = { ...restedState(0.95), surfaceCharge: 1.5 };
    const idle = { ...loaded };
    advanceBattery(law, loaded, -10, 0, 600);
    advanceBattery(law, idle, 0, 0, 600);
    expect(loaded.surfaceCharge).toBeLessThan(0.2);
    expect(idle.surfaceCharge).toBeGreaterThan(1.3);
  });
});

describe('a caller’s mistakes', () => {
  test('[limit] ranges are named', () => {
    expect(() => prepareBattery(lawOf({ capacity: 0 }), restedState(0.5))).toThrow(/capacity = 0 C/);
    expect(() => prepareBattery(lawOf({ shortedCells: 6 }), restedState(0.5))).toThrow(RangeError);
    expect(() => prepareBattery(lawOf({ temperature: 25 }), restedState(0.5))).toThrow(/25 K/);
    expect(() => prepareBattery(lawOf(), restedState(1.2))).toThrow(/0\.\.1/);
    expect(() => prepareBattery(lawOf(), restedState(0.5), -1)).toThrow(/elapsed/);
    expect(() => advanceBattery(lawOf(), restedState(0.5), 1, 0, -1)).toThrow(/duration/);
  });
});

describe('acceptance', () => {
  test('[law] twice the acceptance halves what charging adds to the volts beyond the resistance, and leaves discharging alone', () => {
    // Settled f∞ of the main law is linear in kc far from zero current (battery docstring); 1 % covers the join at zero.
    const law: BatteryLaw = {
      chemistry: 'flooded',
      cells: 6,
      capacity: 200 * 3600,
      resistanceFactor: 1,
      sulphation: 0,
      shortedCells: 0,
      temperature: 298.15,
    };
    const beyondRest = (acceptance: number, current: number): number => {
      const prepared = prepareBattery({ ...law, acceptance }, restedState(0.5));
      terminalVoltageAt(prepared, Object.assign(at, { current }));
      return at.voltage - prepared.emf;
    };
    const at = { current: 0, voltage: 0, dByCurrent: 0 };
    expect(beyondRest(2, 60) / beyondRest(1, 60)).toBeCloseTo(0.5, 2);
    expect(beyondRest(2, -60)).toBe(beyondRest(1, -60));
  });
});
