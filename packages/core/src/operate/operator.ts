/** `operate`: a boat under a condition. Sets the plant to one possible world, decides what is discrete (is the machine
 *  excited, is the regulator enabled, has the relay closed, does the belt slip), and solves.
 *
 *  Before the engine ran, the loads had run for hours: that state is solved first and kept, since the battery
 *  remembers it for minutes (battery-polarisation.ts).
 */
import type { Boat } from '../boat/index.ts';
import { resetSolution, solveOperatingPoint } from '../circuit/index.ts';
import {
  alternatorFaultHeat,
  alternatorLosses,
  alternatorOutputShare,
  copperRatio,
  emptyLosses,
  fitAlternator,
  heatLimitFactor,
  lampOf,
  openExcitationVoltage,
  startRamp,
  strayLosses,
  type AlternatorFault,
  type StrayLosses,
} from '../physics/index.ts';
import {
  prepareBattery,
  restedState,
  settledState,
  type BatteryLaw,
  type BatteryState,
} from '../physics/battery.ts';
import { asFound, revvedSpeed, type Condition } from './condition.ts';
import { slipAt } from './drive.ts';
import { dutyAt, fieldCurrentAt } from './machine.ts';
import { buildPlant, OPEN, type AlternatorUnit, type Plant } from './plant.ts';
import type { OperatingPoint } from './point.ts';

const RPM = (2 * Math.PI) / 60;
const SMALL = 20e-6;
/** Winding rise over the engine space at full output, and its time constant; estimates. */
const WINDING_RISE = 60; // K
const WINDING_TIME = 600; // s
const SPACE_TIME = 1800; // s

/** Which descriptions of battery and alternator to compute with; `rival` ones are independent, for checks. */
export interface Models {
  readonly battery?: 'main' | 'rival';
}

/** What a run in time knows of a moment, in place of what a single operating point assumes. */
export interface HeldState {
  /** In the order of the boat's batteries; the circuit is solved `elapsed` seconds after they stood so. */
  readonly batteries: readonly BatteryState[];
  readonly elapsed: number;
  /** Winding temperatures [K], in the order of the alternators. */
  readonly windings: readonly number[];
  /** What the stage adds to each regulator's set-point [V], in the order of the regulators. */
  readonly setpointShifts: readonly number[];
}

export class Operator {
  readonly plant: Plant;
  /** Circuit solutions since construction. */
  solves = 0;
  private boat: Boat;
  private readonly stray: StrayLosses[] = [];
  private readonly before: BatteryState[] = [];
  private beforeKnown = false;
  private held: HeldState | undefined;
  private readonly models: Models;

  constructor(boat: Boat, models: Models = {}) {
    this.boat = boat;
    this.models = models;
    this.plant = buildPlant(boat);
    this.set(boat);
  }

  /** Sets the plant to a world of the same wiring. */
  set(boat: Boat): void {
    this.boat = boat;
    this.beforeKnown = false;
    const { wiring } = this.plant;
    const hot = copperRatio((boat.ambient + (boat.engines[0]?.spaceTemperature ?? boat.ambient)) / 2);
    boat.conductors.forEach(
      (cable, i) => (wiring.conductors[i]!.resistance = cable.resistance * hot + cable.joints),
    );
    boat.fuses.forEach((fuse, i) => (wiring.fuses[i]!.resistance = fuse.resistance));
    boat.selectors.forEach((selector, i) => {
      const { position, contact } = selector;
      wiring.selectorOne[i]!.resistance = position === 'one' || position === 'both' ? contact : OPEN;
      const second = wiring.selectorTwo[i];
      if (second) second.resistance = position === 'two' || position === 'both' ? contact : OPEN;
    });
    boat.isolators.forEach((isolator, i) => {
      wiring.isolatorOne[i]!.resistance = isolator.legOne === 'good' ? 2 * SMALL : OPEN;
      wiring.isolatorTwo[i]!.resistance = isolator.legTwo === 'good' ? 2 * SMALL : OPEN;
    });
    boat.lamps.forEach((lamp, i) => {
      const setting = wiring.lamps[i]!;
      setting.lamp = lampOf(lamp.power, boat.nominalVoltage);
      setting.whole = lamp.state === 'good';
    });
    boat.batteries.forEach((battery, i) => {
      const { protection } = this.plant.batteries[i]!;
      if (protection) protection.resistance = battery.protection === 'closed' ? 0.0005 : OPEN;
    });
    boat.alternators.forEach((_, i) => this.setMachine(i));
  }

  /** The operating point under a condition; of a run in time when its state is given. */
  at(condition: Condition, held?: HeldState): OperatingPoint {
    this.held = held;
    if (held === undefined) this.settleBefore();
    const spent = this.solves;
    const { boat, plant } = this;
    this.applyLoads(condition);
    this.applyKeys(condition);
    boat.batteries.forEach((battery, i) => {
      const { prepared } = plant.batteries[i]!;
      if (held !== undefined) {
        prepareBattery(this.lawOf(i), held.batteries[i]!, held.elapsed, prepared);
        return;
      }
      const elapsed =
        condition.engine === 'running'
          ? condition.sinceStart
          : condition.engine === 'cranking'
            ? 2
            : condition.loads === 'usual'
              ? Infinity
              : condition.loads === 'test'
                ? 15
                : condition.rested;
      const state =
        elapsed === Infinity && condition.loads === 'usual'
          ? restedState(battery.stateOfCharge)
          : this.before[i]!;
      prepareBattery(this.lawOf(i), state, elapsed, prepared);
      prepared.emf += battery.surfaceVoltage;
    });
    boat.relays.forEach((relay, i) => {
      plant.wiring.relays[i]!.resistance = relay.state === 'always-closed' ? relay.contact : OPEN;
    });
    const slips = plant.alternators.map((unit) => this.applyMachine(unit, condition));
    for (const unit of plant.alternators) if (!unit.fieldDiodes) this.startHigh(unit);
    let converged = this.solve();
    converged = this.settleSwitches(condition, converged);
    converged = this.settleSlip(slips, converged);
    return this.point(condition, slips, converged, this.solves - spent);
  }

  /** The banks as hours of usual loads leave them, before the engine is started. */
  statesBefore(): BatteryState[] {
    this.held = undefined;
    this.settleBefore();
    return this.before.map((state) => ({ ...state }));
  }

  /** The law of a bank of this world. */
  lawOf(index: number): BatteryLaw {
    const battery = this.boat.batteries[index]!;
    return {
      chemistry: battery.chemistry,
      ...(this.models.battery === 'rival' ? { family: 'rival' as const } : {}),
      cells: battery.cells,
      capacity: battery.capacity * battery.health,
      resistanceFactor: battery.resistanceFactor,
      sulphation: battery.sulphation,
      shortedCells: battery.shortedCells,
      temperature: battery.temperature,
    };
  }

  /** The state that hours of usual loads leave the banks in, the engine and all chargers off. */
  private settleBefore(): void {
    if (this.beforeKnown) return;
    const { boat, plant } = this;
    const still = asFound;
    this.applyLoads(still);
    this.applyKeys(still);
    boat.batteries.forEach((battery, i) => {
      const { prepared } = plant.batteries[i]!;
      prepareBattery(this.lawOf(i), restedState(battery.stateOfCharge), Infinity, prepared);
      prepared.emf += battery.surfaceVoltage;
    });
    boat.relays.forEach((relay, i) => {
      plant.wiring.relays[i]!.resistance = relay.state === 'always-closed' ? relay.contact : OPEN;
    });
    for (const unit of plant.alternators) this.applyMachine(unit, still);
    this.solve();
    boat.batteries.forEach((battery, i) => {
      const current = plant.batteries[i]!.main.current;
      this.before[i] = settledState(this.lawOf(i), battery.stateOfCharge, current);
    });
    this.beforeKnown = true;
  }

  private setMachine(index: number): void {
    const alternator = this.boat.alternators[index]!;
    const volts = this.boat.nominalVoltage;
    const current = alternator.ratedCurrent * alternator.health;
    const nameplate = {
      nominalVoltage: volts,
      ratedCurrent: current,
      cutInSpeed: alternator.cutInSpeed,
      fieldResistance: alternator.fieldResistance,
    };
    const point = { speed: 1800 * RPM, current: current * alternator.lowSpeedShare };
    let fit = fitAlternator(
      alternator.lowSpeedShare > 0 ? { ...nameplate, lowSpeedPoint: point } : nameplate,
    );
    if (fit.kind !== 'fitted') fit = fitAlternator(nameplate);
    if (fit.kind !== 'fitted') fit = fitAlternator({ ...nameplate, cutInSpeed: 1150 * RPM });
    if (fit.kind !== 'fitted') throw new RangeError(`Operator.set: ${alternator.id}: ${fit.reason}`);
    const turns = 1 - alternator.rotorShortedShare;
    this.stray[index] = strayLosses(fit.machine, volts, current);
    const { machine } = this.plant.alternators[index]!;
    machine.machine = {
      ...fit.machine,
      fluxPerAmp: fit.machine.fluxPerAmp * turns,
      saturationCurrent: fit.machine.saturationCurrent / Math.max(turns, 0.05),
      residualFlux: fit.machine.residualFlux * alternator.residual,
    };
    machine.fieldResistance = fit.machine.fieldResistance20 * turns;
    machine.brushResistance = alternator.brushResistance;
  }

  private applyLoads(condition: Condition): void {
    const { boat, plant } = this;
    boat.loads.forEach((load, i) => {
      const on = condition.loads !== 'off' && load.current > 1e-6;
      plant.wiring.loads[i]!.resistance = on ? boat.nominalVoltage / load.current : OPEN;
    });
    if (plant.testLoad) {
      const on = condition.loads === 'test' && condition.testLoad > 0;
      plant.testLoad.resistance = on ? boat.nominalVoltage / condition.testLoad : OPEN;
    }
    boat.starters.forEach((starter, i) => {
      const turning = condition.engine === 'cranking' && this.concerns(condition, starter.engine);
      plant.wiring.starters[i]!.resistance = turning ? starter.resistance : OPEN;
    });
    boat.sources.forEach((source, i) => {
      const setting = plant.sources[i]!;
      setting.current = source.on && condition.otherSources === 'as-found' ? source.current : 0;
      setting.setpoint = source.setpoint;
    });
  }

  private applyKeys(condition: Condition): void {
    this.boat.keys.forEach((key, i) => {
      const on = condition.engine !== 'off' && this.concerns(condition, key.engine);
      this.plant.wiring.keys[i]!.resistance = on ? key.contact : OPEN;
    });
  }

  private concerns(condition: Condition, engine: string): boolean {
    return condition.engineId === undefined || engine === '' || engine === condition.engineId;
  }

  /** Settings of machine and regulator under a condition, not yet excited; returns the belt's slip so far. */
  private applyMachine(unit: AlternatorUnit, condition: Condition): number {
    const { boat } = this;
    const alternator = boat.alternators[unit.index]!;
    const engine = boat.engines[unit.engineIndex];
    const belt = boat.belts[unit.beltIndex];
    const running = condition.engine === 'running' && this.concerns(condition, alternator.engine);
    const broken = belt !== undefined && belt.grip <= 0;
    const slip = broken ? 1 : 0;
    const { machine } = unit;
    machine.speed =
      running && engine ? condition.engineSpeed * engine.speedError * alternator.pulleyRatio * (1 - slip) : 0;
    machine.temperature = this.windingTemperature(unit, condition);
    machine.share = alternatorOutputShare(machine.machine, windingFaultOf(alternator), machine.speed);
    const regulator = boat.regulators[unit.regulatorIndex];
    const setting = unit.regulator;
    const warmth = (boat.batteries[0]?.temperature ?? boat.ambient) - 298.15;
    setting.gain = regulator?.gain ?? 5;
    setting.setpoint = (regulator?.setpoint ?? 14.2) + (regulator?.compensation ?? 0) * warmth;
    setting.setpoint += this.held?.setpointShifts[unit.regulatorIndex] ?? 0;
    setting.stuckFull = regulator?.state === 'stuck-full' && running;
    const heat = heatLimitFactor(machine.temperature, regulator?.temperatureLimit ?? Infinity, 10, 0.3);
    const ramp = regulator ? startRamp(regulator.startDelay, regulator.ramp, condition.sinceStart) : 1;
    const alive =
      condition.engine === 'running' || (condition.engine === 'key-on' && alternator.excitation === 'lamp');
    const asked = condition.engine === 'running' ? ramp : 1;
    setting.cap =
      alive && regulator?.state !== 'dead'
        ? (regulator?.fieldCap ?? 1) * asked * (Number.isFinite(heat) ? heat : 1)
        : 0;
    const byHand = condition.field === 'full' && running;
    setting.connected = byHand ? 0 : 1;
    unit.fieldJumper.resistance = byHand ? 0.01 : OPEN;
    if (unit.excitationJumper) {
      unit.excitationJumper.resistance = condition.excitation === 'jumpered' && running ? 3 : OPEN;
    }
    if (unit.fieldDiodes) unit.fieldDiodes.resistance = OPEN;
    if (
      unit.fieldDiodes &&
      alternator.windingFault === 'diode-shorted' &&
      alternator.fieldDiodes === 'good'
    ) {
      unit.fieldDiodes.resistance = 0.2;
    }
    return slip;
  }

  /** A driven machine that feeds its own field has two solutions, dead and alive; it is alive, so start from there. */
  private startHigh(unit: AlternatorUnit): void {
    const { voltages } = this.plant.solution;
    if (unit.machine.speed <= 0 || unit.regulator.cap <= 0) return;
    if (voltages[unit.stud]! > 0.7 * this.boat.nominalVoltage) return;
    for (const node of [unit.stud, unit.supply, unit.sense, unit.fieldHigh, ...this.plant.isolatorInputs]) {
      if (node !== 0 && node !== unit.frame) voltages[node] = unit.regulator.setpoint;
    }
  }

  private windingTemperature(unit: AlternatorUnit, condition: Condition): number {
    const { boat } = this;
    const alternator = boat.alternators[unit.index]!;
    const held = this.held?.windings[unit.index];
    if (held !== undefined) return held;
    if (condition.engine !== 'running') return boat.ambient;
    const space = boat.engines[unit.engineIndex]?.spaceTemperature ?? boat.ambient;
    const around = boat.ambient + (space - boat.ambient) * (1 - Math.exp(-condition.sinceStart / SPACE_TIME));
    return (
      around + WINDING_RISE * alternator.heatFactor * (1 - Math.exp(-condition.sinceStart / WINDING_TIME))
    );
  }

  /** Enable, excitation and relays: each decided on the solution so far, then solved again if anything changed. */
  private settleSwitches(condition: Condition, first: boolean): boolean {
    const { boat, plant } = this;
    const { voltages } = plant.solution;
    let converged = first;
    let changed = false;
    for (const unit of plant.alternators) {
      const alternator = boat.alternators[unit.index]!;
      if (unit.machine.speed <= 0) continue;
      const enabled =
        unit.enable < 0
          ? alternator.excitation === 'lamp'
          : voltages[unit.enable]! - voltages[unit.regulatorGround]! > 0.5 * boat.nominalVoltage;
      if (unit.fieldDiodes) {
        if (alternator.fieldDiodes === 'good' && this.builds(unit, condition, voltages)) {
          unit.fieldDiodes.resistance = 0.02;
          this.startHigh(unit);
          changed = true;
        }
      } else if (!enabled && !this.buildsAlone(unit, condition)) {
        if (unit.regulator.cap > 0 && !unit.regulator.stuckFull) {
          unit.regulator.cap = 0;
          changed = true;
        }
      }
    }
    if (changed) converged = this.solve();
    let closed = false;
    if (condition.engine === 'running') {
      boat.relays.forEach((relay, i) => {
        if (relay.state !== 'good' || condition.sinceStart < relay.closeDelay) return;
        const [a, b] = plant.wiring.relayNodes[i]!;
        const back = voltages[plant.batteries[0]?.minus ?? 0] ?? 0;
        if (Math.max(voltages[a]!, voltages[b]!) - back < relay.closeVoltage) return;
        plant.wiring.relays[i]!.resistance = relay.contact;
        closed = true;
      });
    }
    return closed ? this.solve() : converged;
  }

  /** Whether a machine with field diodes builds up: with the current that the lamp gives now, would the machine itself
   *  put more on D+ than stands there (excitation.ts)? */
  private builds(unit: AlternatorUnit, condition: Condition, voltages: Float64Array): boolean {
    const { machine } = unit;
    const across = voltages[unit.fieldHigh]! - voltages[unit.fieldLow]!;
    const current = fieldCurrentAt(machine, across);
    const standing = Math.max(voltages[unit.supply]! - voltages[unit.frame]!, 0);
    const speed = condition.revved
      ? Math.max(machine.speed, (machine.speed / Math.max(condition.engineSpeed, 1)) * revvedSpeed)
      : machine.speed;
    return openExcitationVoltage(machine.machine, speed, current) > standing;
  }

  /** Whether a machine that nothing enables comes in on its residual magnetism alone. */
  private buildsAlone(unit: AlternatorUnit, condition: Condition): boolean {
    const { machine } = unit;
    const speed = condition.revved
      ? Math.max(machine.speed, (machine.speed / Math.max(condition.engineSpeed, 1)) * revvedSpeed)
      : machine.speed;
    return openExcitationVoltage(machine.machine, speed, 0) > machine.machine.brushDrop;
  }

  /** Belt: the slip at which the machine's torque is what the belt passes on. */
  private settleSlip(slips: number[], first: boolean): boolean {
    let converged = first;
    for (const unit of this.plant.alternators) {
      const belt = this.boat.belts[unit.beltIndex];
      const full = unit.machine.speed;
      if (belt === undefined || full <= 0) continue;
      const slipNow = (): number => slipAt(belt, this.torque(unit));
      let slip = slipNow();
      if (slip < 0.03) {
        slips[unit.index] = slip;
        continue;
      }
      let low = 0;
      let high = 1;
      for (let step = 0; step < 12; step++) {
        slip = (low + high) / 2;
        this.turn(unit, full * (1 - slip));
        converged = this.solve();
        if (slipNow() > slip) low = slip;
        else high = slip;
      }
      slips[unit.index] = slip;
    }
    return converged;
  }

  private turn(unit: AlternatorUnit, speed: number): void {
    unit.machine.speed = speed;
    unit.machine.share = alternatorOutputShare(
      unit.machine.machine,
      windingFaultOf(this.boat.alternators[unit.index]!),
      speed,
    );
  }

  private output(unit: AlternatorUnit): number {
    unit.element.writeCurrents(this.plant.solution.voltages, currentsOut, 0);
    return -currentsOut[0]!;
  }

  /** Shaft torque [N·m], all losses of the machine included. */
  private torque(unit: AlternatorUnit): number {
    const { voltages } = this.plant.solution;
    const { machine, speed, temperature, share } = unit.machine;
    if (speed <= 1) return 0;
    const fieldVoltage = voltages[unit.fieldHigh]! - voltages[unit.fieldLow]!;
    const fieldCurrent = fieldCurrentAt(unit.machine, fieldVoltage);
    const fault = windingFaultOf(this.boat.alternators[unit.index]!);
    alternatorLosses(
      machine,
      this.stray[unit.index]!,
      {
        speed,
        outputVoltage: Math.max(0, voltages[unit.stud]! - voltages[unit.frame]!),
        outputCurrent: Math.max(0, this.output(unit)),
        fieldCurrent,
        fieldVoltage,
        statorTemperature: temperature,
        faultHeat: share < 1 ? alternatorFaultHeat(machine, fault, speed, fieldCurrent, temperature) : 0,
      },
      losses,
    );
    return losses.torque;
  }

  private solve(): boolean {
    this.solves++;
    const { circuit, solution } = this.plant;
    solveOperatingPoint(circuit, solution);
    if (!solution.converged) {
      resetSolution(circuit, solution);
      solveOperatingPoint(circuit, solution);
    }
    return solution.converged;
  }

  private point(
    condition: Condition,
    slips: readonly number[],
    converged: boolean,
    solves: number,
  ): OperatingPoint {
    const { boat, plant } = this;
    const { voltages, residual } = plant.solution;
    return {
      condition,
      converged,
      residual,
      engineSpeed: condition.engineSpeed * (boat.engines[0]?.speedError ?? 1),
      voltages: voltages.slice(),
      alternators: plant.alternators.map((unit) => {
        const output = this.output(unit);
        const torque = this.torque(unit);
        const heat = unit.machine.speed > 1 ? losses.heat : 0;
        return {
          id: boat.alternators[unit.index]!.id,
          speed: unit.machine.speed,
          slip: slips[unit.index] ?? 0,
          excited: unit.fieldDiodes ? unit.fieldDiodes.resistance < 0.1 : unit.regulator.cap > 0,
          duty: dutyAt(unit.regulator, voltages[unit.sense]! - voltages[unit.regulatorGround]!),
          fieldCurrent: fieldCurrentAt(unit.machine, voltages[unit.fieldHigh]! - voltages[unit.fieldLow]!),
          output,
          temperature: unit.machine.temperature,
          torque,
          shaftPower: torque * unit.machine.speed,
          heat,
        };
      }),
      batteries: boat.batteries.map((battery, i) => {
        const unit = plant.batteries[i]!;
        const voltage = voltages[unit.plus]! - voltages[unit.minus]!;
        unit.gassing.writeCurrents(voltages, currentsOut, 0);
        return { id: battery.id, voltage, current: unit.main.current + currentsOut[0]! };
      }),
      lamps: boat.lamps.map((lamp, i) => {
        const { a, b } = plant.wiring.lamps[i]!;
        const share = lamp.state === 'good' ? (voltages[a]! - voltages[b]!) / boat.nominalVoltage : 0;
        return { id: lamp.id, glow: Math.max(0, share) };
      }),
      relaysClosed: plant.wiring.relays.map((relay) => relay.resistance < 1),
      solves,
    };
  }
}

/** The winding or bridge fault of an alternator as physics names it. */
export function windingFaultOf(alternator: Boat['alternators'][number]): AlternatorFault {
  return alternator.windingFault === 'turns-shorted'
    ? { kind: 'turns-shorted', fraction: alternator.windingSeverity }
    : { kind: alternator.windingFault };
}

const currentsOut = new Float64Array(8);
const losses = emptyLosses();
