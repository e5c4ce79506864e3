/** The books of a run: its series, and where charge and energy went. */
import type { Boat } from '../boat/index.ts';
import { availablePower, type ChargeStage } from '../physics/index.ts';
import {
  advancePrepared,
  emptyPrepared,
  emptyStep,
  prepareBattery,
  type BatteryLaw,
  type BatteryState,
} from '../physics/battery.ts';
import type { HeatState } from './engine-heat.ts';
import type { Moment } from './run-moment.ts';
import type {
  AlternatorSeries,
  BatterySeries,
  ChargeRun,
  EngineSeries,
  RunEnergy,
  SpaceSeries,
} from './run-plan.ts';
import { noPowers, type PowerShares } from './run-power.ts';

/** Currents of a bank at both ends of a step [A]. */
export interface Ends {
  readonly main: readonly [number, number];
  readonly gas: readonly [number, number];
}

export class RunBooks {
  readonly times: number[] = [];
  readonly running: boolean[] = [];
  readonly batteries: BatterySeries[];
  readonly alternators: AlternatorSeries[];
  readonly spaces: SpaceSeries[];
  readonly engines: EngineSeries[];
  readonly charge: { id: string; into: number; kept: number; lost: number }[];
  private readonly total = { ...noPowers(), shaft: 0, stored: 0, batteryLoss: 0, gassing: 0 };

  constructor(private readonly boat: Boat) {
    this.batteries = boat.batteries.map(({ id }) => ({
      id,
      voltage: [],
      current: [],
      stateOfCharge: [],
      temperature: [],
    }));
    this.alternators = boat.alternators.map(({ id }) => ({
      id,
      output: [],
      voltage: [],
      temperature: [],
      bridge: [],
      shaftPower: [],
      engineShare: [],
      stage: [],
    }));
    this.spaces = boat.engines.map(({ id }) => ({ engine: id, temperature: [] }));
    this.engines = boat.engines.map(({ id }) => ({ id, speed: [], speedDrop: [] }));
    this.charge = boat.batteries.map(({ id }) => ({ id, into: 0, kept: 0, lost: 0 }));
  }

  record(
    time: number,
    running: boolean,
    { point, engineDrops }: Pick<Moment, 'point' | 'engineDrops'>,
    states: readonly BatteryState[],
    temperatures: readonly number[],
    { windings, bridges, spaces }: HeatState,
    stageOf: (alternator: string) => ChargeStage,
  ): void {
    this.times.push(time);
    this.running.push(running);
    this.batteries.forEach((series, i) => {
      series.voltage.push(point.batteries[i]?.voltage ?? NaN);
      series.current.push(point.batteries[i]?.current ?? NaN);
      series.stateOfCharge.push(states[i]?.stateOfCharge ?? NaN);
      series.temperature.push(temperatures[i] ?? NaN);
    });
    this.alternators.forEach((series, i) => {
      const machine = point.alternators[i];
      const shaft = machine?.shaftPower ?? 0;
      series.output.push(machine?.output ?? 0);
      series.voltage.push(machine?.voltage ?? NaN);
      series.temperature.push(windings[i] ?? NaN);
      series.bridge.push(bridges[i] ?? NaN);
      series.shaftPower.push(shaft);
      series.engineShare.push(this.shareOf(i, shaft, point.engineSpeed));
      series.stage.push(stageOf(series.id));
    });
    this.spaces.forEach((series, e) => series.temperature.push(spaces[e] ?? NaN));
    this.engines.forEach((series, e) => {
      const set = point.condition.engineSpeed * (this.boat.engines[e]?.speedError ?? 1);
      const drop = set * (engineDrops[e] ?? 0);
      series.speed.push(set - drop);
      series.speedDrop.push(drop);
    });
  }

  /** Fills a bank through a step: its current runs straight from one end to the other, in pieces, so that its memories
   *  follow the current and do not lag half a step behind. Returns the heat that this leaves in it [J]. */
  fill(index: number, law: BatteryLaw, state: BatteryState, { main, gas }: Ends, step: number): number {
    const { total } = this;
    const account = this.charge[index];
    if (account === undefined) return 0;
    let heat = 0;
    const pieces = Math.min(8, Math.ceil(step / 20));
    const part = step / pieces;
    prepareBattery(law, state, 0, PREPARED);
    for (let piece = 0; piece < pieces; piece++) {
      const at = (piece + 0.5) / pieces;
      const current = main[0] * (1 - at) + main[1] * at;
      const gassing = gas[0] * (1 - at) + gas[1] * at;
      const before = state.stateOfCharge;
      advancePrepared(law, state, PREPARED, current, gassing, part, OUT);
      total.stored += OUT.stored;
      total.batteryLoss += OUT.mainLoss;
      total.gassing += OUT.gassingLoss;
      account.into += (current + gassing) * part;
      account.kept += (state.stateOfCharge - before) * law.capacity;
      account.lost += gassing * part + OUT.clippedCharge;
      heat += OUT.heat;
    }
    return heat;
  }

  /** Energies of a step at the circuit's side, by the trapezoidal rule. */
  spend(from: PowerShares, to: PowerShares, shaft: number, step: number): void {
    for (const kind of ['alternators', 'sources', 'loads', 'batteries', 'wires'] as const)
      this.total[kind] += ((from[kind] + to[kind]) / 2) * step;
    this.total.shaft += shaft * step;
  }

  energy(): RunEnergy {
    const { shaft, alternators, sources, loads, wires, stored, batteryLoss, gassing } = this.total;
    const given = alternators + sources;
    const taken = loads + wires + stored + batteryLoss + gassing;
    const turned = given + loads + Math.abs(stored);
    const imbalance = turned > 0 ? (given - taken) / turned : 0;
    return { shaft, alternators, sources, loads, wires, stored, batteryLoss, gassing, imbalance };
  }

  result(): Pick<
    ChargeRun,
    'times' | 'running' | 'batteries' | 'alternators' | 'spaces' | 'engines' | 'charge' | 'energy'
  > {
    const { times, running, batteries, alternators, spaces, engines, charge } = this;
    return { times, running, batteries, alternators, spaces, engines, charge, energy: this.energy() };
  }

  private shareOf(alternator: number, shaft: number, speed: number): number {
    const { engine: id } = this.boat.alternators[alternator] ?? { engine: '' };
    const engine = this.boat.engines.find((one) => one.id === id) ?? this.boat.engines[0];
    const available = engine && speed > 0 ? availablePower(engine, speed) : 0;
    return available > 0 ? shaft / available : 0;
  }
}

const PREPARED = emptyPrepared();
const OUT = emptyStep();
