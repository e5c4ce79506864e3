/** Seeded random numbers for the benchmark. Source: the generator is mulberry32 (public domain, from memory). */

export interface Random {
  /** Uniform in 0..1. */
  readonly uniform: () => number;
  /** Standard normal. */
  readonly normal: () => number;
  /** True with a chance. */
  readonly chance: (probability: number) => boolean;
  readonly pick: <T>(list: readonly T[]) => T;
  /** Index drawn by weights, which need not sum to one. */
  readonly index: (weights: ArrayLike<number>) => number;
}

export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const index = (weights: ArrayLike<number>): number => {
    let whole = 0;
    for (let i = 0; i < weights.length; i++) whole += weights[i] ?? 0;
    let left = uniform() * whole;
    for (let i = 0; i < weights.length; i++) {
      left -= weights[i] ?? 0;
      if (left < 0) return i;
    }
    return weights.length - 1;
  };
  return {
    uniform,
    normal,
    chance: (probability) => uniform() < probability,
    pick: <T>(list: readonly T[]): T => {
      const found = list[Math.floor(uniform() * list.length)];
      if (found === undefined) throw new RangeError('random.pick: the list is empty');
      return found;
    },
    index,
  };
}

/** One number for a text and a number, so that every boat and every check has a stream of its own. */
export function seedOf(text: string, number: number): number {
  let hash = 2166136261 ^ number;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 16777619);
  hash = Math.imul(hash ^ (hash >>> 16), 0x45d9f3b);
  return (hash ^ (hash >>> 16)) >>> 0;
}
