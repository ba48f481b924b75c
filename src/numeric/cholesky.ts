/**
 * Cholesky factorisation of a symmetric positive definite matrix held row by row in a flat array; only the lower
 * triangle is read and written (Golub & Van Loan, Matrix Computations, 4.2).
 */

/** Overwrites the lower triangle of `a` (n x n) with L. Returns -1, or the row at which the matrix stopped being positive definite. */
export function choleskyInPlace(a: Float64Array, n: number): number {
  for (let i = 0; i < n; i += 1) {
    const rowI = i * n;
    for (let j = 0; j <= i; j += 1) {
      const rowJ = j * n;
      let sum = a[rowI + j];
      for (let k = 0; k < j; k += 1) sum -= a[rowI + k] * a[rowJ + k];
      if (i === j) {
        if (!(sum > 0)) return i;
        a[rowI + i] = Math.sqrt(sum);
      } else {
        a[rowI + j] = sum / a[rowJ + j];
      }
    }
  }
  return -1;
}

/** Overwrites `b` (length n) with the solution of L L' x = b. */
export function solveCholeskyInPlace(l: Float64Array, n: number, b: Float64Array): void {
  for (let i = 0; i < n; i += 1) {
    let sum = b[i];
    for (let k = 0; k < i; k += 1) sum -= l[i * n + k] * b[k];
    b[i] = sum / l[i * n + i];
  }
  for (let i = n - 1; i >= 0; i -= 1) {
    const x = b[i] / l[i * n + i];
    b[i] = x;
    for (let k = 0; k < i; k += 1) b[k] -= l[i * n + k] * x;
  }
}

/** The full symmetric inverse of L L', n x n. */
export function invertCholesky(l: Float64Array, n: number): Float64Array {
  // Row i of `m` holds row i of L^-1; then the inverse is (L^-1)' L^-1, built row by row so that memory is read in order.
  const m = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    const rowI = i * n;
    for (let k = 0; k < i; k += 1) {
      const factor = l[rowI + k];
      if (factor === 0) continue;
      const rowK = k * n;
      for (let j = 0; j <= k; j += 1) m[rowI + j] -= factor * m[rowK + j];
    }
    const pivot = 1 / l[rowI + i];
    for (let j = 0; j < i; j += 1) m[rowI + j] *= pivot;
    m[rowI + i] = pivot;
  }
  const inverse = new Float64Array(n * n);
  for (let k = 0; k < n; k += 1) {
    const rowK = k * n;
    for (let i = 0; i <= k; i += 1) {
      const factor = m[rowK + i];
      if (factor === 0) continue;
      for (let j = 0; j <= i; j += 1) inverse[i * n + j] += factor * m[rowK + j];
    }
  }
  for (let i = 0; i < n; i += 1) for (let j = 0; j < i; j += 1) inverse[j * n + i] = inverse[i * n + j];
  return inverse;
}
