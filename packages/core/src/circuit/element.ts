/** What every circuit element is: terminals, a current law, and its derivative.
 *
 *  An element tells, at given node voltages, the current into each of its terminals and how these currents
 *  change with each terminal voltage. The solver adds them up at the nodes (Kirchhoff's current law) and steps
 *  with Newton's method. Nothing else about an element matters to the solver.
 *
 *  Sign: current is positive INTO a terminal, hence leaving the node.
 *  Units: V, A, S (siemens). Node 0 is the reference and stays at 0 V.
 */

/** Leak from every node to the reference [S]: the damp surface of a terminal block.
 *  It gives every part that an open switch leaves floating a defined voltage. At 15 V it carries 15 µA. */
export const LEAK_CONDUCTANCE = 1e-6;

/** The least resistance of a joint or conductor [Ω]. A good bolted joint lies at some ten microohms;
 *  below this value the rounding of currents begins to matter: 14 V · 2.2e-16 / 20 µΩ = 0.15 nA. */
export const JOINT_RESISTANCE_MINIMUM = 20e-6;

/** Where an element writes. Hot: no element may allocate in `stamp`. */
export interface Stamps {
  /** Sum of the currents leaving each node into the active elements [A]. */
  readonly injected: Float64Array;
  /** Jacobian entries [S], addressed by slot; slot 0 swallows what belongs to the reference. */
  readonly matrix: Float64Array;
  /** Share of the Newton step that is being taken; a field, since a number that is handed on is boxed on the heap. */
  fraction: number;
  /** Largest error of an inner law [A], and a node of the element that has it. */
  lawError: number;
  lawNode: number;
}

/** Names that an element uses when it writes itself as SPICE lines. */
export interface SpiceNames {
  /** SPICE name of a node; '0' for the reference. */
  node(index: number): string;
  /** The element's own name, made fit for SPICE, without the leading type letter. */
  readonly element: string;
}

export interface Element {
  readonly name: string;
  /** Node index of each terminal; the positive terminal comes first. */
  readonly terminals: readonly number[];
  /** Adds the currents into the terminals and their derivatives.
   *  `slots[row · terminals.length + column]` is the matrix slot of ∂I(row)/∂V(column). Hot. */
  stamp(voltages: Float64Array, stamps: Stamps, slots: Int32Array): void;
  /** Writes the current into each terminal [A] to `out` from `offset` on, at solved voltages. Hot. */
  writeCurrents(voltages: Float64Array, out: Float64Array, offset: number): void;
  /** The element as lines of a SPICE netlist. Throws RangeError if its creator gave no expression. */
  spiceLines(names: SpiceNames): string[];
  /** Elements with an unknown of their own: called once a Newton step, before the voltages move by
   *  a fraction of `step`. Fixes where the own unknown starts and how far it would go. Hot. */
  prepare?(voltages: Float64Array, step: Float64Array): void;
  /** Puts the own unknown at `stamps.fraction` of its step, or less; `voltages` are the moved ones. Hot. */
  advance?(voltages: Float64Array, stamps: Stamps): void;
  /** Sets the own unknown anew from the node voltages, for a fresh start. */
  reset?(voltages: Float64Array): void;
}

/** Throws when a parameter given by the caller lies outside its range. */
export function requireInRange(
  where: string,
  argument: string,
  value: number,
  unit: string,
  minimum: number,
  maximum = Number.POSITIVE_INFINITY,
): void {
  if (value >= minimum && value <= maximum) return;
  throw new RangeError(
    `${where}: ${argument} is ${value} ${unit}; it must lie in ${minimum} to ${maximum} ${unit}`,
  );
}
