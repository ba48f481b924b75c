/**
 * Cholesky factorisation of a symmetric positive definite matrix held row by row in a flat array; only the lower
 * triangle is read and written (Golub & Van Loan, Matrix Computations, 4.2). Inner loops carry four rows at a time: the
 * arithmetic is the textbook's, the memory traffic a third of it.
 */

/** Overwrites the lower triangle of `a` (n x n) with L. Returns -1, or the row at which the matrix stopped being positive definite. */
export function choleskyInPlace(a: Float64Array, n: number): number {
  for (let i = 0; i < n; i += 1) {
    const rowI = i * n;
    let j = 0;
    for (; j + 4 <= i; j += 4) {
      const row0 = j * n;
      const row1 = row0 + n;
      const row2 = row1 + n;
      const row3 = row2 + n;
      let s0 = a[rowI + j];
      let s1 = a[rowI + j + 1];
      let s2 = a[rowI + j + 2];
      let s3 = a[rowI + j + 3];
      for (let k = 0; k < j; k += 1) {
        const x = a[rowI + k];
        s0 -= x * a[row0 + k];
        s1 -= x * a[row1 + k];
        s2 -= x * a[row2 + k];
        s3 -= x * a[row3 + k];
      }
      s0 /= a[row0 + j];
      s1 = (s1 - s0 * a[row1 + j]) / a[row1 + j + 1];
      s2 = (s2 - s0 * a[row2 + j] - s1 * a[row2 + j + 1]) / a[row2 + j + 2];
      s3 = (s3 - s0 * a[row3 + j] - s1 * a[row3 + j + 1] - s2 * a[row3 + j + 2]) / a[row3 + j + 3];
      a[rowI + j] = s0;
      a[rowI + j + 1] = s1;
      a[rowI + j + 2] = s2;
      a[rowI + j + 3] = s3;
    }
    for (; j <= i; j += 1) {
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
  solveTransposedInPlace(l, n, b);
}

/** Overwrites `b` (length n) with the solution of L' x = b. */
export function solveTransposedInPlace(l: Float64Array, n: number, b: Float64Array): void {
  for (let i = n - 1; i >= 0; i -= 1) {
    const x = b[i] / l[i * n + i];
    b[i] = x;
    for (let k = 0; k < i; k += 1) b[k] -= l[i * n + k] * x;
  }
}

/** Logarithm of the determinant of L L'. */
export function logDeterminant(l: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i += 1) sum += Math.log(l[i * n + i]);
  return 2 * sum;
}

/** The full symmetric inverse of L L', n x n. */
export function invertCholesky(l: Float64Array, n: number): Float64Array {
  const m = invertTriangle(l, n);
  const inverse = new Float64Array(n * n);
  let k = 0;
  for (; k + 4 <= n; k += 4) {
    const row0 = k * n;
    const row1 = row0 + n;
    const row2 = row1 + n;
    const row3 = row2 + n;
    // Entries above the diagonal of `m` are zero, so four rows can share the longest row's range.
    for (let i = 0; i < k + 4; i += 1) {
      const f0 = m[row0 + i];
      const f1 = m[row1 + i];
      const f2 = m[row2 + i];
      const f3 = m[row3 + i];
      const out = i * n;
      for (let j = 0; j <= i; j += 1)
        inverse[out + j] += f0 * m[row0 + j] + f1 * m[row1 + j] + (f2 * m[row2 + j] + f3 * m[row3 + j]);
    }
  }
  for (; k < n; k += 1) {
    const row = k * n;
    for (let i = 0; i <= k; i += 1) {
      const factor = m[row + i];
      for (let j = 0; j <= i; j += 1) inverse[i * n + j] += factor * m[row + j];
    }
  }
  for (let i = 0; i < n; i += 1) for (let j = 0; j < i; j += 1) inverse[j * n + i] = inverse[i * n + j];
  return inverse;
}

/** L^-1, lower triangular, built row by row so that memory is read in order. */
function invertTriangle(l: Float64Array, n: number): Float64Array {
  const m = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    const rowI = i * n;
    let k = 0;
    for (; k + 4 <= i; k += 4) {
      const f0 = l[rowI + k];
      const f1 = l[rowI + k + 1];
      const f2 = l[rowI + k + 2];
      const f3 = l[rowI + k + 3];
      const row0 = k * n;
      const row1 = row0 + n;
      const row2 = row1 + n;
      const row3 = row2 + n;
      for (let j = 0; j < k + 4; j += 1)
        m[rowI + j] -= f0 * m[row0 + j] + f1 * m[row1 + j] + (f2 * m[row2 + j] + f3 * m[row3 + j]);
    }
    for (; k < i; k += 1) {
      const factor = l[rowI + k];
      const rowK = k * n;
      for (let j = 0; j <= k; j += 1) m[rowI + j] -= factor * m[rowK + j];
    }
    const pivot = 1 / l[rowI + i];
    for (let j = 0; j < i; j += 1) m[rowI + j] *= pivot;
    m[rowI + i] = pivot;
  }
  return m;
}
