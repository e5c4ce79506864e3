import { describe, expect, it } from 'vitest';
import { copperRunResistance, copperRatio, soundJointResistance } from '../../src/physics/conductor.ts';
import { fuseMeltingTime, fuseResistance } from '../../src/physics/contact.ts';
import { loadedEngineSpeed, shareOfRatedPower } from '../../src/physics/engine.ts';
import {
  coolingResistance,
  engineSpaceRise,
  steadyTemperature,
  temperatureAfter,
  windingNode,
} from '../../src/physics/heat.ts';
import {
  acResponse,
  CLAMP_DC_400A,
  displayed,
  errorLimit,
  METER_DC_20V,
  PANEL_GAUGE_16V,
  readingSigma,
} from '../../src/physics/instruments.ts';
import { nextRelayState, typicalRelay } from '../../src/physics/relay.ts';
import { perMinute } from './machines.ts';

const celsius = (t: number): number => t + 273.15;

describe('conductors', () => {
  it('[AC43, 234.5 form] copper against temperature', () => {
    // 1e-3: α = 0.00393 is the 234.5 form to three digits; the figures carry four.
    for (const [t, ratio] of [
      [50, 1.1179],
      [75, 1.2161],
      [110, 1.354],
    ] as const) {
      expect(Math.abs(copperRatio(celsius(t)) - ratio)).toBeLessThan(1e-3);
    }
  });

  it('[ASTMB258 areas, IEC60028] 4/0 is 0.1608 mΩ/m, 10 AWG 3.277 mΩ/m at 20 °C', () => {
    const solid = (area: number): number =>
      copperRunResistance({ length: 1, area: area * 1e-6, strandingFactor: 1 }, 293.15) * 1000;
    expect(solid(107.22)).toBeCloseTo(0.1608, 4);
    expect(solid(5.2612)).toBeCloseTo(3.277, 3);
  });

  it('[IEC60228 class 5 plain] computed resistance lies under the tabled greatest', () => {
    for (const [area, most] of [
      [6, 3.3],
      [16, 1.21],
      [35, 0.554],
      [70, 0.272],
      [120, 0.161],
    ] as const) {
      const computed = copperRunResistance({ length: 1000, area: area * 1e-6 }, 293.15);
      expect(computed).toBeLessThan(most);
      // The table allows 3–9 % over nominal copper, and 11 % at 6 mm²; 12 % would mean a wrong area or resistivity.
      expect(computed).toBeGreaterThan(0.88 * most);
    }
  });

  it('[NAVED 14273] a sound joint drops far less than 0.1 V', () => {
    expect(100 * soundJointResistance(50e-6)).toBeLessThan(0.1);
  });
});

describe('heat', () => {
  it('[law] heat in equals heat out, and steps compose', () => {
    // 1500 W at 15 K of rise need 0.083 m³/s of air (300 m³/h), by 1.2 kg/m³ and 1005 J/(kg·K).
    expect(engineSpaceRise(1500, 0.0829, 0)).toBeCloseTo(15, 1);
    expect(engineSpaceRise(1500, 0.0829, 50)).toBeLessThan(11);
    const once = temperatureAfter(300, 380, 250, 100);
    const twice = temperatureAfter(temperatureAfter(300, 380, 250, 40), 380, 250, 60);
    expect(twice).toBeCloseTo(once, 9);
  });

  it('[limit] rated heat rises 90 K; dust and a slow fan make it worse', () => {
    const node = windingNode(1300);
    expect(steadyTemperature(300, 1300, coolingResistance(node, perMinute(6000), 0))).toBeCloseTo(390, 6);
    expect(coolingResistance(node, perMinute(6000), 0.5)).toBeCloseTo(1.5 * node.resistance, 9);
    expect(coolingResistance(node, perMinute(2000), 0)).toBeGreaterThan(1.5 * node.resistance);
  });
});

describe('engine', () => {
  const engine = { ratedPower: 20000, ratedSpeed: perMinute(3000), idleSpeed: perMinute(800), droop: 0.08 };

  it('[definition] 100 A at 14 V and 55 % take 2545 W: 13 % of a 20 kW engine', () => {
    expect(shareOfRatedPower(engine, (14 * 100) / 0.55)).toBeCloseTo(0.1273, 4);
  });

  it('[limit] the drop at idle is heard, is smaller at speed, and too much stalls', () => {
    const idle = loadedEngineSpeed(engine, engine.idleSpeed, 1500);
    const fast = loadedEngineSpeed(engine, perMinute(2000), 1500);
    if (idle.kind !== 'runs' || fast.kind !== 'runs') throw new Error('stalled');
    expect(idle.drop / engine.idleSpeed).toBeGreaterThan(fast.drop / perMinute(2000));
    expect(idle.shareOfPower).toBeCloseTo(1500 / (20000 * (800 / 3000)), 9);
    expect(loadedEngineSpeed(engine, engine.idleSpeed, 6000).kind).toBe('stalls');
  });
});

describe('instruments, relay, fuses', () => {
  it('[JCGM100 4.3.7, from memory] limits taken as uniform', () => {
    expect(errorLimit(METER_DC_20V, 14)).toBeCloseTo(0.09, 9);
    expect(readingSigma(METER_DC_20V, 14)).toBeCloseTo(0.09 / Math.sqrt(3), 9);
    expect(displayed(METER_DC_20V, 13.8749)).toBeCloseTo(13.87, 9);
    expect(readingSigma(PANEL_GAUGE_16V, 14)).toBeGreaterThan(5 * readingSigma(METER_DC_20V, 14));
    expect(errorLimit(CLAMP_DC_400A, 50)).toBeCloseTo(1.8, 9);
    expect(acResponse(1000, 1000)).toBeCloseTo(Math.SQRT1_2, 9);
  });

  it('[common practice] the relay closes after its delay, and opens after its delay', () => {
    const rules = typicalRelay(12);
    let state = nextRelayState(rules, { closed: false, waited: 0 }, 13.6, 12.5, 15);
    expect(state).toEqual({ closed: false, waited: 15 });
    state = nextRelayState(rules, state, 13.6, 12.5, 5);
    expect(state).toEqual({ closed: true, waited: 0 });
    state = nextRelayState(rules, state, 13, 13, 500);
    expect(state.closed).toBe(true);
    state = nextRelayState(rules, nextRelayState(rules, state, 12.7, 12.7, 19), 12.9, 12.7, 19);
    expect(state).toEqual({ closed: true, waited: 0 });
    expect(nextRelayState(rules, state, 12.6, 12.7, 21).closed).toBe(false);
  });

  it('[ISO8820 part 3, from memory] melting times', () => {
    expect(fuseMeltingTime(30, 30).least).toBe(Infinity);
    expect(fuseMeltingTime(30, 60)).toEqual({ least: 0.15, most: 5 });
    const between = fuseMeltingTime(30, 75);
    expect(between.most).toBeLessThan(5);
    expect(between.most).toBeGreaterThan(0.5);
    expect(fuseResistance(100) * 100).toBeCloseTo(0.06, 9);
  });
});
