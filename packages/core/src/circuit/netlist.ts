/** The circuit as a SPICE netlist, for comparison with an independent simulator.
 *  Leaks are written as resistors of 1 MΩ. Behavioural elements need the expression that their creator gave. */
import type { Circuit } from './circuit.ts';
import { LEAK_CONDUCTANCE } from './element.ts';

export interface NetlistOptions {
  readonly title?: string;
  /** Node voltages to begin with [V], in node order; written as .nodeset. */
  readonly startVoltages?: ArrayLike<number>;
}

/** Netlist lines without analysis or `.end`: title, elements, leaks, start voltages.
 *  Throws RangeError when an element has no SPICE expression. */
export function netlist(circuit: Circuit, options: NetlistOptions = {}): string[] {
  const node = (index: number): string => spiceNode(circuit, index);
  const lines = [`* ${(options.title ?? 'circuit').replace(/\s+/g, ' ')}`];
  circuit.elements.forEach((element, index) => {
    lines.push(...element.spiceLines({ node, element: spiceElement(circuit, index) }));
  });
  for (let index = 1; index < circuit.nodes.length; index++) {
    lines.push(`Rleak_${index} ${node(index)} 0 ${1 / LEAK_CONDUCTANCE}`);
  }
  const { startVoltages } = options;
  if (startVoltages !== undefined) {
    for (let index = 1; index < circuit.nodes.length; index++) {
      lines.push(`.nodeset V(${node(index)})=${startVoltages[index] ?? 0}`);
    }
  }
  return lines;
}

/** SPICE name of a node: index first, so that names stay distinct once signs and capitals are lost. */
export function spiceNode(circuit: Circuit, index: number): string {
  return index === 0 ? '0' : `n${index}_${plain(circuit.nodes[index] ?? '')}`;
}

/** SPICE name of an element without its type letter. */
export function spiceElement(circuit: Circuit, index: number): string {
  return `e${index}_${plain(circuit.elements[index]?.name ?? '')}`;
}

function plain(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9]+/g, '_');
}
