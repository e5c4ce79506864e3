/** The circuit of a boat: every part becomes an element, every terminal a node. Built once per wiring; each possible
 *  world and each condition only changes the elements' settings. The first engine's block is the reference.
 */
import { mindedBanks, type Boat } from '../boat/index.ts';
import {
  branch,
  buildCircuit,
  createSolution,
  resistor,
  type Element,
  type Resistor,
} from '../circuit/index.ts';
import { lampOf } from '../physics/index.ts';
import {
  prepareBattery,
  restedState,
  terminalVoltageAt,
  terminalVoltageExpression,
} from '../physics/battery.ts';
import { LampElement, type LampSetting } from './lamp-element.ts';
import { MachineElement, type MachineSetting } from './machine.ts';
import { gassingElement, isolatorElement } from './plant-parts.ts';
import type { AlternatorUnit, BatteryUnit, Plant, Wiring } from './plant-units.ts';
import { RegulatorElement } from './regulator-element.ts';
import { SourceElement, type SourceSetting } from './source-element.ts';

/** Resistance that stands for an open switch or a broken lead [Ω]. */
export const OPEN = Infinity;
/** Input resistance of a regulator's enable and sense leads [Ω]; common practice. */
const ENABLE_INPUT = 1000;
const SENSE_INPUT = 10_000;
/** Reverse leakage of the bridge and what a sleeping regulator draws, as a resistance from stud to case [Ω]: about a
 *  tenth of a milliampere; common practice. It is what pulls a stud down that an isolator has cut off from the batteries. */
const STUD_LEAKAGE = 100_000;

/** A terminal of the negative side: a leak from there to the engine shows nothing. */
const isReturn = (terminal: string): boolean => /\.(-|block|case|ground)$/.test(terminal);

export type { AlternatorUnit, Plant } from './plant-units.ts';

/** The plant of a boat, not yet set to any world or condition. */
export function buildPlant(boat: Boat): Plant {
  const builder = new Builder(boat);
  return builder.build();
}

class Builder {
  private readonly nodes: string[];
  private readonly index = new Map<string, number>();
  private readonly elements: Element[] = [];
  private readonly minded: readonly number[];

  constructor(private readonly boat: Boat) {
    const block = `${boat.engines[0]?.id ?? 'engine'}.block`;
    this.nodes = [block];
    this.index.set(block, 0);
    this.minded = mindedBanks(boat);
  }

  private node(terminal: string): number {
    const known = this.index.get(terminal);
    if (known !== undefined) return known;
    const index = this.nodes.length;
    this.nodes.push(terminal);
    this.index.set(terminal, index);
    return index;
  }

  private add<T extends Element>(element: T): T {
    this.elements.push(element);
    return element;
  }

  private wire(name: string, from: string | number, to: string | number, resistance = OPEN): Resistor {
    const end = (terminal: string | number): number =>
      typeof terminal === 'number' ? terminal : this.node(terminal);
    return this.add(resistor({ name, from: end(from), to: end(to), resistance }));
  }

  build(): Plant {
    const { boat } = this;
    const wiring: Wiring = {
      conductors: boat.conductors.map((cable) => this.wire(cable.id, cable.from, cable.to, 1e-3)),
      leaks: boat.conductors.map(({ id, from, to }) =>
        isReturn(from) || isReturn(to) ? undefined : this.wire(`${id}-leak`, to, 0),
      ),
      fuses: boat.fuses.map((fuse) => this.wire(fuse.id, `${fuse.id}.a`, `${fuse.id}.b`)),
      selectorOne: boat.selectors.map((s) => this.wire(`${s.id}-one`, `${s.id}.common`, `${s.id}.one`)),
      selectorTwo: boat.selectors.map((s) =>
        boat.conductors.some((cable) => cable.from === `${s.id}.two` || cable.to === `${s.id}.two`)
          ? this.wire(`${s.id}-two`, `${s.id}.common`, `${s.id}.two`)
          : undefined,
      ),
      isolatorOne: boat.isolators.map((isolator) => this.isolatorLeg(isolator.id, isolator.type, 'one')),
      isolatorTwo: boat.isolators.map((isolator) => this.isolatorLeg(isolator.id, isolator.type, 'two')),
      relays: boat.relays.map((relay) => this.wire(relay.id, `${relay.id}.a`, `${relay.id}.b`)),
      relayNodes: boat.relays.map(
        (relay) => [this.node(`${relay.id}.a`), this.node(`${relay.id}.b`)] as const,
      ),
      loads: boat.loads.map((load) => this.wire(load.id, `${load.id}.+`, `${load.id}.-`)),
      starters: boat.starters.map((starter) =>
        this.wire(
          starter.id,
          `${starter.id}.post`,
          `${starter.engine || (boat.engines[0]?.id ?? 'engine')}.block`,
        ),
      ),
      lamps: boat.lamps.map((lamp) => this.lamp(lamp.id, lamp.power)),
      keys: boat.keys.map((key) => this.wire(key.id, `${key.id}.in`, `${key.id}.out`)),
    };
    const batteries = boat.batteries.map((_, position) => this.battery(position));
    const alternators = boat.alternators.map((_, position) => this.alternator(position));
    const sources = boat.sources.map((source) => this.source(source.id));
    const load = boat.loads[0];
    const testLoad = load ? this.wire('test-load', `${load.id}.+`, `${load.id}.-`) : undefined;
    const bankTests = boat.batteries.map(({ id }) => this.wire(`${id}-tester`, `${id}.+`, `${id}.-`));
    const circuit = buildCircuit(this.nodes, this.elements);
    return {
      circuit,
      solution: createSolution(circuit),
      nodeOf: (terminal) => this.index.get(terminal),
      alternators,
      batteries,
      sources,
      wiring,
      testLoad,
      bankTests,
      isolatorInputs: boat.isolators.map(({ id }) => this.node(`${id}.in`)),
    };
  }

  /** Diode or FET from the common terminal, in series with a link that a broken leg opens. */
  private isolatorLeg(id: string, type: 'diode' | 'fet', leg: 'one' | 'two'): Resistor {
    const inner = this.node(`${id}.inner-${leg}`);
    this.add(isolatorElement(`${id}-${leg}`, type, this.node(`${id}.in`), inner));
    return this.wire(`${id}-link-${leg}`, inner, `${id}.${leg}`);
  }

  private lamp(id: string, power: number): LampSetting {
    const a = this.node(`${id}.a`);
    const b = this.node(`${id}.b`);
    const setting = { lamp: lampOf(power, this.boat.nominalVoltage), whole: true, a, b };
    this.add(new LampElement(id, setting));
    return setting;
  }

  private battery(position: number): BatteryUnit {
    const battery = this.boat.batteries[position];
    if (battery === undefined) throw new RangeError(`buildPlant: no battery ${position}`);
    const { id } = battery;
    const prepared = prepareBattery(
      {
        chemistry: battery.chemistry,
        cells: battery.cells,
        capacity: battery.capacity,
        resistanceFactor: 1,
        sulphation: 0,
        shortedCells: 0,
        temperature: 298.15,
      },
      restedState(0.5),
    );
    const plus = this.node(`${id}.+`);
    const minus = this.node(`${id}.-`);
    // Only lithium has a protection switch between its cells and its post.
    const lithium = battery.chemistry === 'lifepo4';
    const pole = lithium ? this.node(`${id}.cells`) : plus;
    const protection = lithium ? this.wire(`${id}-protection`, plus, pole) : undefined;
    const main = this.add(
      branch({
        name: id,
        from: pole,
        to: minus,
        law: (at) => terminalVoltageAt(prepared, at),
        spiceLaw: (current) => terminalVoltageExpression(prepared, current),
      }),
    );
    const gas = this.add(gassingElement(`${id}-gassing`, [pole, minus], prepared));
    return { prepared, main, gassing: gas, protection, plus, minus, pole };
  }

  private alternator(position: number): AlternatorUnit {
    const { boat } = this;
    const alternator = boat.alternators[position];
    if (alternator === undefined) throw new RangeError(`buildPlant: no alternator ${position}`);
    const { id } = alternator;
    const regulatorIndex = boat.regulators.findIndex((candidate) => candidate.alternator === id);
    const regulator = boat.regulators[regulatorIndex];
    const outside = regulator?.place === 'outside';
    const name = regulator?.id ?? `${id}-regulator`;
    const lamp = alternator.excitation === 'lamp';
    const stud = this.node(`${id}.B+`);
    const frame = this.node(`${id}.case`);
    const own = lamp ? this.node(`${id}.D+`) : stud;
    const supply = outside ? this.node(`${name}.supply`) : own;
    const sense = outside ? this.node(`${name}.sense`) : own;
    const ground = outside ? this.node(`${name}.ground`) : frame;
    const driven = outside ? this.node(`${name}.F`) : this.node(`${id}.F`);
    const field = this.node(`${id}.F`);
    const positive = alternator.fieldSwitching === 'positive';
    const fieldHigh = positive ? field : supply;
    const fieldLow = positive ? frame : field;
    const enableTerminal = `${name}.enable`;
    const enable = this.index.get(enableTerminal) ?? -1;
    if (enable >= 0) this.wire(`${name}-enable-input`, enable, ground, ENABLE_INPUT);
    if (outside) this.wire(`${name}-sense-input`, sense, ground, SENSE_INPUT);
    const machine = {
      machine: undefined as unknown as MachineSetting['machine'],
      law: undefined as unknown as MachineSetting['law'],
      speed: 0,
      temperature: 300,
      share: 1,
      fieldResistance: 3,
      brushResistance: 0,
    };
    const setting = { gain: 5, setpoint: 14, cap: 0, stuckFull: false, connected: 1, selfFed: !lamp };
    this.wire(`${id}-leakage`, stud, frame, STUD_LEAKAGE);
    const fieldDiodes = lamp ? this.wire(`${id}-field-diodes`, stud, own) : undefined;
    const element = this.add(new MachineElement(id, [stud, frame, fieldHigh, fieldLow], machine));
    const regulatorElement = this.add(
      new RegulatorElement(
        name,
        [supply, driven, sense, ground],
        alternator.fieldSwitching,
        setting,
        element,
      ),
    );
    const fieldJumper = this.wire(`${id}-field-jumper`, positive ? stud : frame, field);
    const excited = lamp ? own : enable >= 0 ? enable : -1;
    const excitationJumper = excited >= 0 ? this.wire(`${id}-excitation-jumper`, stud, excited) : undefined;
    return {
      index: position,
      engineIndex: Math.max(
        0,
        boat.engines.findIndex((engine) => engine.id === alternator.engine),
      ),
      regulatorIndex,
      beltIndex: boat.belts.findIndex((belt) => belt.alternator === id),
      mindedBank: this.minded[position] ?? 0,
      machine,
      element,
      regulatorElement,
      regulator: setting,
      stud,
      frame,
      fieldHigh,
      fieldLow,
      supply,
      sense,
      regulatorGround: ground,
      enable,
      fieldDiodes,
      fieldJumper,
      excitationJumper,
    };
  }

  private source(id: string): SourceSetting {
    const setting: SourceSetting = { current: 0, setpoint: 13.8 };
    this.add(new SourceElement(id, [this.node(`${id}.+`), this.node(`${id}.-`)], setting));
    return setting;
  }
}
