/** Seeded Latin-hypercube draws of independent standard normals.
 *    u_ij = Φ⁻¹((π_j(i) + r_ij) / n),  π_j a random order of 0..n−1, r_ij uniform in (0, 1)
 *  Each coordinate has its own random stream, so a further coordinate leaves the earlier ones as they were.
 *  Every coordinate has exactly one draw in each of n slices of equal chance, so sums over one coordinate are far more exact
 *  than with independent draws; interactions are not.
 *  Source: [MCKAY1979]
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { normalQuantile } from './normal.ts';

/** n stratified standard-normal draws of one coordinate; the same for the same (seed, stream, coordinate, n).
 *  Errors: RangeError for a count that is not a whole number of 1 or more */
export function normalColumn(seed: number, stream: number, coordinate: number, count: number): Float64Array {
  if (!(Number.isInteger(count) && count >= 1))
    throw new RangeError(`normalColumn: count = ${count}, must be a whole number of 1 or more`);
  const generator = xoroshiro128plus(mixedSeed(seed, stream, coordinate));
  const order = new Int32Array(count);
  for (let i = 0; i < count; i++) order[i] = i;
  for (let i = count - 1; i > 0; i--) {
    const j = uniformInt(generator, 0, i);
    const held = order[i]!;
    order[i] = order[j]!;
    order[j] = held;
  }
  const column = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const within = Math.min(1 - 1e-9, Math.max(1e-9, uniformFloat64(generator)));
    column[i] = normalQuantile((order[i]! + within) / count);
  }
  return column;
}

/** count × dimensions draws, row by row. */
export function normalDraws(seed: number, stream: number, count: number, dimensions: number): Float64Array {
  const draws = new Float64Array(count * dimensions);
  for (let j = 0; j < dimensions; j++) {
    const column = normalColumn(seed, stream, j, count);
    for (let i = 0; i < count; i++) draws[i * dimensions + j] = column[i]!;
  }
  return draws;
}

/** A whole number that stands for a name, so that a stream can be called by name. FNV-1a, 32 bit. */
export function hashOf(name: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < name.length; i++) hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}

function mixedSeed(seed: number, stream: number, coordinate: number): number {
  let hash = 0x9e3779b9 ^ seed;
  for (const part of [stream, coordinate]) {
    hash = Math.imul(hash ^ (hash >>> 16) ^ part, 0x85ebca6b);
    hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35) ^ (hash >>> 16);
  }
  return hash | 0;
}
