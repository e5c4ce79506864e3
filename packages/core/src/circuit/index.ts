export { buildCircuit } from './circuit.ts';
export type { Circuit } from './circuit.ts';
export {
  elementPowers,
  leakPower,
  nodeCurrentSums,
  terminalCurrents,
  writeTerminalCurrents,
} from './currents.ts';
export { JOINT_RESISTANCE_MINIMUM, LEAK_CONDUCTANCE } from './element.ts';
export type { Element, SpiceNames, Stamps } from './element.ts';
export { Branch, branch } from './elements/branch.ts';
export type { BranchDescription, VoltageAtCurrent } from './elements/branch.ts';
export { ControlledCurrent, controlledCurrent, heldAtBend } from './elements/controlled-current.ts';
export type { ControlledCurrentDescription, SpiceLaw, TerminalState } from './elements/controlled-current.ts';
export { CurrentLoad, currentLoad } from './elements/current-load.ts';
export type { CurrentLoadDescription } from './elements/current-load.ts';
export { Junction, junction } from './elements/junction.ts';
export type { CurrentAtVoltage, JunctionDescription } from './elements/junction.ts';
export { PowerLoad, powerLoad } from './elements/power-load.ts';
export type { PowerLoadDescription } from './elements/power-load.ts';
export { Resistor, resistor } from './elements/resistor.ts';
export type { ResistorDescription } from './elements/resistor.ts';
export { TwoTerminal, twoTerminal } from './elements/two-terminal.ts';
export type { TwoTerminalDescription } from './elements/two-terminal.ts';
export { netlist, spiceElement, spiceNode } from './netlist.ts';
export type { NetlistOptions } from './netlist.ts';
export { solveFromNear, solveOperatingPoint } from './newton.ts';
export { createSolution, resetSolution, startFrom } from './solution.ts';
export type { OperatingSolution } from './solution.ts';
export { stampTangent } from './elements/tangent.ts';
