/** Small dense symmetric matrices, row by row in Float64Array. Hot: no allocation but where a result is returned. */

/** Lower Cholesky factor in place (upper triangle is left alone); adds a jitter where a pivot vanishes.
 *  Returns ½ log determinant. */
export function factorise(a: Float64Array, n: number): number {
  let halfLogDeterminant = 0;
  for (let j = 0; j < n; j++) {
    const original = a[j * n + j]!;
    let pivot = original;
    for (let k = 0; k < j; k++) pivot -= a[j * n + k]! * a[j * n + k]!;
    if (!(pivot > 1e-14 * original)) pivot = 1e-14 * original + 1e-300;
    const root = Math.sqrt(pivot);
    a[j * n + j] = root;
    halfLogDeterminant += Math.log(root);
    for (let i = j + 1; i < n; i++) {
      let sum = a[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= a[i * n + k]! * a[j * n + k]!;
      a[i * n + j] = sum / root;
    }
  }
  return halfLogDeterminant;
}

/** Solves L x = b in place, where b starts at `at` and steps by `step`. */
export function solveLower(l: Float64Array, n: number, b: Float64Array, at = 0, step = 1): void {
  for (let i = 0; i < n; i++) {
    let sum = b[at + i * step]!;
    for (let k = 0; k < i; k++) sum -= l[i * n + k]! * b[at + k * step]!;
    b[at + i * step] = sum / l[i * n + i]!;
  }
}

/** Solves Lᵀ x = b in place, where b starts at `at` and steps by `step`. */
export function solveUpper(l: Float64Array, n: number, b: Float64Array, at = 0, step = 1): void {
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[at + i * step]!;
    for (let k = i + 1; k < n; k++) sum -= l[k * n + i]! * b[at + k * step]!;
    b[at + i * step] = sum / l[i * n + i]!;
  }
}

/** Inverse of L Lᵀ. */
export function inverseFromFactor(l: Float64Array, n: number): Float64Array {
  const inverse = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    inverse[j * n + j] = 1;
    solveLower(l, n, inverse, j, n);
    solveUpper(l, n, inverse, j, n);
  }
  return inverse;
}
