/** What a plant is made of: handles to the elements of each unit, with the nodes they stand on. */
import type { Branch, Circuit, Element, OperatingSolution, Resistor } from '../circuit/index.ts';
import type { PreparedBattery } from '../physics/battery.ts';
import type { LampSetting } from './lamp-element.ts';
import type { MachineSetting } from './machine.ts';
import type { RegulatorElement, RegulatorSetting } from './regulator-element.ts';
import type { SourceSetting } from './source-element.ts';

export interface AlternatorUnit {
  readonly index: number;
  readonly engineIndex: number;
  readonly regulatorIndex: number;
  readonly beltIndex: number;
  /** Bank whose temperature and charge its regulator minds. */
  readonly mindedBank: number;
  readonly machine: MachineSetting;
  readonly element: Element;
  readonly regulatorElement: RegulatorElement;
  readonly regulator: RegulatorSetting;
  readonly stud: number;
  readonly frame: number;
  readonly fieldHigh: number;
  readonly fieldLow: number;
  readonly supply: number;
  readonly sense: number;
  readonly regulatorGround: number;
  /** Node of the enable lead, or -1 where nothing but turning enables the field. */
  readonly enable: number;
  /** Link that the field diodes make from the stud to D+, once the machine generates. */
  readonly fieldDiodes: Resistor | undefined;
  readonly fieldJumper: Resistor;
  readonly excitationJumper: Resistor | undefined;
}

export interface BatteryUnit {
  readonly prepared: PreparedBattery;
  readonly main: Branch;
  readonly gassing: Element;
  readonly protection: Resistor | undefined;
  readonly plus: number;
  readonly minus: number;
  readonly pole: number;
}

/** Rows of elements, in the order of the boat's lists. */
export interface Wiring {
  readonly conductors: readonly Resistor[];
  /** Ground faults, one for each conductor on the positive side. */
  readonly leaks: readonly (Resistor | undefined)[];
  readonly fuses: readonly Resistor[];
  readonly selectorOne: readonly Resistor[];
  readonly selectorTwo: readonly (Resistor | undefined)[];
  readonly isolatorOne: readonly Resistor[];
  readonly isolatorTwo: readonly Resistor[];
  readonly relays: readonly Resistor[];
  readonly relayNodes: readonly (readonly [number, number])[];
  readonly loads: readonly Resistor[];
  readonly starters: readonly Resistor[];
  readonly lamps: readonly LampSetting[];
  readonly keys: readonly Resistor[];
}

export interface Plant {
  readonly circuit: Circuit;
  readonly solution: OperatingSolution;
  readonly nodeOf: (terminal: string) => number | undefined;
  readonly alternators: readonly AlternatorUnit[];
  readonly batteries: readonly BatteryUnit[];
  readonly sources: readonly SourceSetting[];
  readonly wiring: Wiring;
  readonly testLoad: Resistor | undefined;
  /** Load testers at the posts, in the order of the batteries. */
  readonly bankTests: readonly Resistor[];
  readonly isolatorInputs: readonly number[];
}
