/** Powers of a solved plant by what they serve [W], for the energy balance of a run. */
import type { Plant } from './plant.ts';

/** What `Powers.read` fills in: alternators and sources give, the others take. */
export interface PowerShares {
  alternators: number;
  sources: number;
  loads: number;
  batteries: number;
  wires: number;
}

type Kind = keyof PowerShares;

export class Powers {
  private readonly kinds: readonly Kind[];
  private readonly out = new Float64Array(8);

  constructor(
    private readonly plant: Plant,
    sources: readonly string[],
  ) {
    const kinds = new Map<unknown, Kind>();
    for (const { element } of plant.alternators) kinds.set(element, 'alternators');
    for (const { main, gassing } of plant.batteries) {
      kinds.set(main, 'batteries');
      kinds.set(gassing, 'batteries');
    }
    for (const load of plant.wiring.loads) kinds.set(load, 'loads');
    if (plant.testLoad) kinds.set(plant.testLoad, 'loads');
    for (const tester of plant.bankTests) kinds.set(tester, 'loads');
    this.kinds = plant.circuit.elements.map(
      (element) => kinds.get(element) ?? (sources.includes(element.name) ? 'sources' : 'wires'),
    );
  }

  /** P = Σ V · I over the terminals of each element. Hot. */
  read(into: PowerShares): void {
    into.alternators = into.sources = into.loads = into.batteries = into.wires = 0;
    const { elements } = this.plant.circuit;
    const { voltages } = this.plant.solution;
    for (let index = 0; index < elements.length; index++) {
      const element = elements[index]!;
      element.writeCurrents(voltages, this.out, 0);
      let power = 0;
      for (let t = 0; t < element.terminals.length; t++)
        power += voltages[element.terminals[t]!]! * this.out[t]!;
      const kind = this.kinds[index]!;
      into[kind] += kind === 'alternators' || kind === 'sources' ? -power : power;
    }
  }
}

export const noPowers = (): PowerShares => ({ alternators: 0, sources: 0, loads: 0, batteries: 0, wires: 0 });
