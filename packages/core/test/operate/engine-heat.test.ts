import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boatAt, boatFromTemplate, type Boat } from '../../src/boat/index.ts';
import { asFound, chargeRun, Operator, type ChargeRun, type Phase } from '../../src/operate/index.ts';
import { EngineHeat, type Heats } from '../../src/operate/engine-heat.ts';
import { coolingResistance } from '../../src/physics/index.ts';

const RPM = (2 * Math.PI) / 60;
const HOUR = 3600;
const told = (value: number) => ({ value, origin: 'nameplate' }) as const;
const description = boatFromTemplate('one-battery', {
  alternatorCurrent: told(120),
  bankCapacity: told(600 * HOUR),
  bankChemistry: 'lifepo4',
  excitation: 'ignition',
});
const plan: Phase[] = [
  { duration: 2 * HOUR, engine: 'running', engineSpeed: 1800 * RPM },
  { duration: HOUR, engine: 'off' },
];
const runOf = (change: (boat: Boat) => void, longestStep = 3600): ChargeRun => {
  const boat = boatAt(description);
  change(boat);
  return chargeRun(boat, plan, { stateOfCharge: { battery: 0.1 }, longestStep });
};
const heatOf = (boat: Boat): EngineHeat => new EngineHeat(boat, new Operator(boat).ratedHeats);
const hottest = (values: readonly number[]): number => Math.max(...values);

describe('heat of a run', () => {
  it('[law] a long step ends where many short ones do, and no heat is lost', () => {
    const celsius = (low: number, high: number) =>
      fc.double({ min: 273 + low, max: 273 + high, noNaN: true });
    const watts = fc.double({ min: 0, max: 1200, noNaN: true });
    fc.assert(
      fc.property(
        celsius(0, 150),
        celsius(0, 80),
        watts,
        watts,
        fc.double({ min: 1, max: 300, noNaN: true }),
        fc.double({ min: 500, max: 8000, noNaN: true }),
        (winding, space, heat0, heat1, step, rpm) => {
          const heat = (power: number): Heats => ({
            windings: [power],
            bridges: [power / 8],
            air: [power / 20],
          });
          const begun = (): EngineHeat => {
            const fresh = heatOf(boatAt(description));
            fresh.state = { windings: [winding], bridges: [winding], spaces: [space] };
            return fresh;
          };
          const long = begun();
          long.accept(long.after([rpm * RPM], heat(heat0), heat(heat1), [true], step));
          const short = begun();
          const pieces = 100;
          // Given off to the outside, from the temperatures alone: G (T_s − T_outside), trapezoids.
          let given = 0;
          const outward = (): number =>
            short.spaces[0]!.conductance * (short.state.spaces[0]! - boatAt(description).ambient);
          for (let k = 0; k < pieces; k++) {
            const at = (j: number): Heats => heat(heat0 + ((heat1 - heat0) * j) / pieces);
            const before = outward();
            short.accept(short.after([rpm * RPM], at(k), at(k + 1), [true], step / pieces));
            given += ((before + outward()) / 2) * (step / pieces);
          }
          // Even giving-off within a step of up to one winding time constant, into a space ten times heavier: 1 K.
          expect(Math.abs(long.state.spaces[0]! - short.state.spaces[0]!)).toBeLessThan(1);
          expect(Math.abs(long.state.windings[0]! - short.state.windings[0]!)).toBeLessThan(1);
          const [node] = short.nodes;
          const kept =
            node!.winding.capacity * (short.state.windings[0]! - winding) +
            node!.bridge.capacity * (short.state.bridges[0]! - winding) +
            short.spaces[0]!.capacity * (short.state.spaces[0]! - space);
          const made = (short.spaces[0]!.engineHeat + 1.175 * ((heat0 + heat1) / 2)) * step;
          // 0.1 % of what moved.
          expect(Math.abs(made - kept - given) / (made + Math.abs(kept) + Math.abs(given))).toBeLessThan(
            1e-3,
          );
        },
      ),
      { seed: 6, numRuns: 40 },
    );
  });

  it('[law] over a run, heat made is heat kept and given off, told from its temperatures alone', () => {
    // Without a belt: its slip warms the air too, and the shaft does not count it.
    const run = runOf((boat) => (boat.belts = []), 60);
    const boat = boatAt(description);
    const heat = heatOf(boat);
    const [space] = heat.spaces;
    const { temperature } = run.spaces[0]!;
    let given = 0;
    run.times.forEach((time, k) => {
      if (k === 0) return;
      const mean = (temperature[k]! + temperature[k - 1]!) / 2 - boat.ambient;
      given += space!.conductance * mean * (time - run.times[k - 1]!);
    });
    const kept =
      heat.nodes[0]!.winding.capacity * (run.alternators[0]!.temperature.at(-1)! - boat.ambient) +
      heat.nodes[0]!.bridge.capacity * (run.alternators[0]!.bridge.at(-1)! - boat.ambient) +
      space!.capacity * (temperature.at(-1)! - boat.ambient);
    // From the other side: shaft and fields in, output out, and what the engine gives off.
    const machines = run.energy.shaft - run.energy.alternators;
    const made = machines + space!.engineHeat * run.engineSeconds;
    expect(Math.abs(run.heat.made / made - 1)).toBeLessThan(1e-3);
    expect(Math.abs(run.heat.made - kept - given) / run.heat.made).toBeLessThan(1e-3);
  });

  it('[limit] a hotter space heats the winding with it and costs charge; more air leaves less for the alternator to add', () => {
    const aired = runOf((boat) => (boat.engines[0]!.ventilation = 0.1));
    expect(heatOf(boatAt(description)).spaces[0]!.engineHeat).toBeGreaterThan(500);
    // As blocked air would leave it: 30 K above what is usual.
    const blocked = runOf((boat) => (boat.engines[0]!.spaceTemperature += 30));
    const usual = runOf(() => undefined);
    expect(hottest(blocked.spaces[0]!.temperature)).toBeGreaterThan(
      hottest(usual.spaces[0]!.temperature) + 20,
    );
    const peak = (run: ChargeRun): number => hottest(run.alternators[0]!.temperature);
    expect(peak(blocked)).toBeGreaterThan(peak(usual) + 10);
    expect(blocked.charge[0]!.kept).toBeLessThan(usual.charge[0]!.kept);
    // More air at the same usual temperature means more engine heat behind it: the alternator's own part matters less.
    expect(hottest(aired.spaces[0]!.temperature)).toBeLessThan(hottest(usual.spaces[0]!.temperature));
  });

  it('[textbook, from memory] a sound bridge stays below 175 °C at full output in its own space', () => {
    const run = runOf(() => undefined);
    const bridge = hottest(run.alternators[0]!.bridge);
    expect(bridge).toBeLessThan(273.15 + 175);
    // Warmer than the air around it by tens of kelvin.
    expect(bridge).toBeGreaterThan(hottest(run.spaces[0]!.temperature) + 20);
    // And cools first, within minutes.
    const { bridge: series, temperature } = run.alternators[0]!;
    expect(series.at(-1)!).toBeLessThan(temperature.at(-1)! + 1);
  });

  it('[law] a single point is as warm as a run that gave as much all along, at full output and at part of it', () => {
    for (const [minutes, rpm, load] of [
      [3, 1500, 0],
      [30, 1500, 0],
      [30, 1000, 0],
      [30, 1500, 0.5],
    ] as const) {
      const boat = boatAt(description);
      boat.regulators[0]!.fieldCap = 1 - load;
      boat.batteries[0]!.stateOfCharge = 0.4;
      const condition = {
        ...asFound,
        engine: 'running',
        engineSpeed: rpm * RPM,
        sinceStart: minutes * 60,
      } as const;
      const point = new Operator(boat).at(condition).alternators[0]!;
      const run = chargeRun(boat, [{ duration: minutes * 60, engine: 'running', engineSpeed: rpm * RPM }]);
      const { temperature, output } = run.alternators[0]!;
      expect(point.output / output.at(-1)!).toBeCloseTo(1, 1);
      // The run started with cold copper and gave more at first; the engine drops under its load.
      expect(Math.abs(point.temperature - temperature.at(-1)!)).toBeLessThan(3);
    }
  });

  it('[limit] half of rated heat settles the space at its stated temperature', () => {
    const boat = boatAt(description);
    const heat = heatOf(boat);
    const [space] = heat.spaces;
    const [node] = heat.nodes;
    const resistance = coolingResistance(node!.winding, 6000 * RPM, 0);
    expect(resistance).toBeCloseTo(node!.winding.resistance, 9);
    const rated = 90 / node!.winding.resistance + 70 / node!.bridge.resistance;
    const rise = (space!.engineHeat + rated / 2) / space!.conductance;
    expect(boat.ambient + rise).toBeCloseTo(boat.engines[0]!.spaceTemperature, 6);
  });
});
