/** Coordinates of what is unknown. A world is built by asking for one standard-normal coordinate after another, always
 *  in the same order for the same boat, so a vector of coordinates is a boat and a random vector a random boat.
 */
import type { Fact } from './description.ts';

/** Spread of ln(value) that an origin leaves [1]; estimate, common practice. */
const spreadOf: Readonly<Record<Fact['origin'], number>> = {
  measured: 0.02,
  nameplate: 0.04,
  told: 0.12,
  assumed: 0.25,
};

export class Latent {
  /** What each coordinate stands for, in order; filled as the world is built. */
  readonly names: string[] = [];
  private next = 0;
  private readonly coordinates: Float64Array | undefined;

  constructor(coordinates?: Float64Array) {
    this.coordinates = coordinates;
  }

  /** The next coordinate, N(0, 1); 0 (the median) when no vector was given. */
  normal(name: string): number {
    if (this.coordinates === undefined) {
      this.names.push(name);
      return 0;
    }
    const value = this.coordinates[this.next++];
    if (value === undefined) {
      throw new RangeError(
        `Latent: no coordinate ${this.next - 1} for "${name}"; give as many as the boat has unknowns`,
      );
    }
    return value;
  }

  /** A positive quantity: median · exp(spread · u), the spread of ln by the fact's origin, or of the assumption.
   *  `told`: what owners tell of it is off by this much, where that is not the usual. */
  positive(
    name: string,
    fact: Fact | undefined,
    median: number,
    spread: number,
    told: number = spreadOf.told,
  ): number {
    const u = this.normal(name);
    if (fact === undefined) return median * Math.exp(spread * u);
    const origin = fact.origin === 'told' ? told : spreadOf[fact.origin];
    return fact.value * Math.exp(Math.min(origin, spread) * u);
  }
}
