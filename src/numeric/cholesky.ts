/**
 * Cholesky factorisation of a symmetric positive definite matrix held row by row in a flat array; only the lower
 * triangle is read and written (Golub & Van Loan, Matrix Computations, 4.2). All cubic work is in products of rows, taken
 * three rows by three at a time, so that a number read from memory serves three multiplications.
 */

const BLOCK = 3;
/** Sums of the last block of products, row by row. */
const block = new Float64Array(BLOCK * BLOCK);

/** Products of three rows of `a` with three of `b` over the columns from..to - 1, into `block`; the offsets are of the first rows. */
function multiplyRows(
  a: Float64Array,
  rowA: number,
  b: Float64Array,
  rowB: number,
  n: number,
  from: number,
  to: number,
): void {
  const a1 = rowA + n;
  const a2 = a1 + n;
  const b1 = rowB + n;
  const b2 = b1 + n;
  let s00 = 0;
  let s01 = 0;
  let s02 = 0;
  let s10 = 0;
  let s11 = 0;
  let s12 = 0;
  let s20 = 0;
  let s21 = 0;
  let s22 = 0;
  for (let k = from; k < to; k += 1) {
    const y0 = b[rowB + k];
    const y1 = b[b1 + k];
    const y2 = b[b2 + k];
    let x = a[rowA + k];
    s00 += x * y0;
    s01 += x * y1;
    s02 += x * y2;
    x = a[a1 + k];
    s10 += x * y0;
    s11 += x * y1;
    s12 += x * y2;
    x = a[a2 + k];
    s20 += x * y0;
    s21 += x * y1;
    s22 += x * y2;
  }
  block[0] = s00;
  block[1] = s01;
  block[2] = s02;
  block[3] = s10;
  block[4] = s11;
  block[5] = s12;
  block[6] = s20;
  block[7] = s21;
  block[8] = s22;
}

function multiplyRow(a: Float64Array, rowA: number, b: Float64Array, rowB: number, from: number, to: number): number {
  let sum = 0;
  for (let k = from; k < to; k += 1) sum += a[rowA + k] * b[rowB + k];
  return sum;
}

/** Overwrites the lower triangle of `a` (n x n) with L. Returns -1, or the row at which the matrix stopped being positive definite. */
export function choleskyInPlace(a: Float64Array, n: number): number {
  const whole = n - (n % BLOCK);
  for (let i = 0; i < whole; i += BLOCK) {
    for (let j = 0; j <= i; j += BLOCK) {
      multiplyRows(a, i * n, a, j * n, n, 0, j);
      for (let r = 0; r < BLOCK; r += 1) {
        const row = (i + r) * n;
        const last = i === j ? r : BLOCK - 1;
        for (let c = 0; c <= last; c += 1) {
          const other = (j + c) * n;
          const rest = a[row + j + c] - block[r * BLOCK + c] - multiplyRow(a, row, a, other, j, j + c);
          if (i !== j || c < r) a[row + j + c] = rest / a[other + j + c];
          else if (rest > 0) a[row + i + r] = Math.sqrt(rest);
          else return i + r;
        }
      }
    }
  }
  for (let i = whole; i < n; i += 1) {
    const row = i * n;
    for (let j = 0; j < i; j += 1) a[row + j] = (a[row + j] - multiplyRow(a, row, a, j * n, 0, j)) / a[j * n + j];
    const rest = a[row + i] - multiplyRow(a, row, a, row, 0, i);
    if (!(rest > 0)) return i;
    a[row + i] = Math.sqrt(rest);
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
function solveTransposedInPlace(l: Float64Array, n: number, b: Float64Array): void {
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

/** The full symmetric inverse of L L', n x n: V_ij = sum over k of M_ki M_kj with M = L^-1. */
export function invertCholesky(l: Float64Array, n: number): Float64Array {
  const columns = invertedColumns(l, n);
  const inverse = new Float64Array(n * n);
  const whole = n - (n % BLOCK);
  for (let i = 0; i < whole; i += BLOCK) {
    for (let j = 0; j <= i; j += BLOCK) {
      // Column i of M is zero above row i, so three columns can share the longest one's range.
      multiplyRows(columns, i * n, columns, j * n, n, i, n);
      for (let r = 0; r < BLOCK; r += 1)
        for (let c = 0; c < BLOCK; c += 1) {
          inverse[(i + r) * n + j + c] = block[r * BLOCK + c];
          inverse[(j + c) * n + i + r] = block[r * BLOCK + c];
        }
    }
  }
  for (let i = whole; i < n; i += 1)
    for (let j = 0; j <= i; j += 1) {
      const value = multiplyRow(columns, i * n, columns, j * n, i, n);
      inverse[i * n + j] = value;
      inverse[j * n + i] = value;
    }
  return inverse;
}

/** M = L^-1 column by column: `columns[j n + i]` is M_ij, zero for i < j. */
function invertedColumns(l: Float64Array, n: number): Float64Array {
  const columns = new Float64Array(n * n);
  const whole = n - (n % BLOCK);
  for (let i = 0; i < whole; i += BLOCK) {
    for (let j = 0; j <= i; j += BLOCK) {
      multiplyRows(l, i * n, columns, j * n, n, j, i);
      for (let r = 0; r < BLOCK; r += 1) {
        const row = (i + r) * n;
        for (let c = 0; c < BLOCK && j + c <= i + r; c += 1) {
          const column = (j + c) * n;
          const before = block[r * BLOCK + c] + multiplyRow(l, row, columns, column, i, i + r);
          columns[column + i + r] = ((i + r === j + c ? 1 : 0) - before) / l[row + i + r];
        }
      }
    }
  }
  for (let i = whole; i < n; i += 1)
    for (let j = 0; j <= i; j += 1)
      columns[j * n + i] = ((i === j ? 1 : 0) - multiplyRow(l, i * n, columns, j * n, j, i)) / l[i * n + i];
  return columns;
}
