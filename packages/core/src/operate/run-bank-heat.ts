/** Warmth of the banks in a run: each warms by its own losses and cools to the place where it stands, which is as warm as it was
 *  stated to be itself.   physics/battery-heat.ts
 *  A step is solved at the temperature that the last step's losses lead to, and moved on by its own: exact for heat that is
 *  even over the step.
 *  Leaves out: an engine space that warms the banks in it. */
import type { Boat } from '../boat/index.ts';
import { batteryNode, temperatureAfter, type BatteryNode } from '../physics/index.ts';
import type { HeatBooks } from './engine-heat.ts';

export class BankHeat {
  readonly nodes: readonly BatteryNode[];
  readonly books: HeatBooks = { made: 0, kept: 0, given: 0 };
  /** [K], in the order of the boat's batteries. */
  temperatures: readonly number[];
  private readonly places: readonly number[];
  /** What the last step made [W]. */
  private readonly powers: number[];

  constructor(
    boat: Boat,
    private readonly held: boolean,
  ) {
    this.nodes = boat.batteries.map(({ chemistry, cells, capacity }) =>
      batteryNode(chemistry, cells, capacity),
    );
    this.places = boat.batteries.map(({ temperature }) => temperature);
    this.temperatures = this.places;
    this.powers = this.places.map(() => 0);
  }

  /** Where the last step's losses lead in a step [K]. */
  leading(step: number): readonly number[] {
    return this.held ? this.temperatures : this.after(this.powers, step);
  }

  /** Moves the banks on by a step in which they made `heats` [J]. */
  accept(heats: readonly number[], step: number): void {
    if (this.held) return;
    heats.forEach((heat, i) => (this.powers[i] = heat / step));
    const before = this.temperatures;
    this.temperatures = this.after(this.powers, step);
    this.nodes.forEach(({ capacity }, i) => {
      const kept = capacity * ((this.temperatures[i] ?? 0) - (before[i] ?? 0));
      const made = heats[i] ?? 0;
      this.books.made += made;
      this.books.kept += kept;
      this.books.given += made - kept;
    });
  }

  private after(powers: readonly number[], step: number): number[] {
    return this.nodes.map(({ capacity, conductance }, i) => {
      const settled = (this.places[i] ?? 0) + (powers[i] ?? 0) / conductance;
      return temperatureAfter(this.temperatures[i] ?? 0, settled, capacity / conductance, step);
    });
  }
}
