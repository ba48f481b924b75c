import fc from 'fast-check';
import { CholeskyDecomposition, inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { choleskyInPlace, invertCholesky, solveCholeskyInPlace } from '../../src/numeric/cholesky.ts';
import { createRandom } from '../../src/numeric/random.ts';

/** B B' + n I for a random B: symmetric, positive definite, well conditioned. */
function positiveDefinite(n: number, seed: number): Float64Array {
  const random = createRandom(seed);
  const b = Float64Array.from({ length: n * n }, () => random.normal());
  const a = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      for (let k = 0; k < n; k += 1) a[i * n + j]! += b[i * n + k]! * b[j * n + k]!;
    }
    a[i * n + i]! += n;
  }
  return a;
}

const asMatrix = (a: Float64Array, n: number) => Matrix.from1DArray(n, n, Array.from(a));
const sizes = fc.tuple(fc.integer({ min: 1, max: 14 }), fc.integer({ min: 1, max: 1e6 }));

describe('choleskyInPlace', () => {
  it('gives a triangle whose product is the matrix, reading the lower triangle only', () => {
    fc.assert(
      fc.property(sizes, ([n, seed]) => {
        const a = positiveDefinite(n, seed);
        const l = a.slice();
        for (let i = 0; i < n; i += 1) for (let j = i + 1; j < n; j += 1) l[i * n + j] = Number.NaN;
        expect(choleskyInPlace(l, n)).toBe(-1);
        for (let i = 0; i < n; i += 1) {
          for (let j = 0; j <= i; j += 1) {
            let product = 0;
            for (let k = 0; k <= j; k += 1) product += l[i * n + k]! * l[j * n + k]!;
            expect(product).toBeCloseTo(a[i * n + j]!, 9);
          }
        }
      }),
      { numRuns: 40, seed: 1 },
    );
  });

  it('agrees with ml-matrix on the triangle, a solution and the inverse', () => {
    const n = 12;
    const a = positiveDefinite(n, 3);
    const l = a.slice();
    choleskyInPlace(l, n);
    const theirs = new CholeskyDecomposition(asMatrix(a, n));
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j <= i; j += 1) expect(l[i * n + j]).toBeCloseTo(theirs.lowerTriangularMatrix.get(i, j), 10);
    }
    const b = Float64Array.from({ length: n }, (_, i) => Math.sin(i));
    const x = b.slice();
    solveCholeskyInPlace(l, n, x);
    const solved = theirs.solve(Matrix.columnVector(Array.from(b)));
    x.forEach((value, i) => {
      expect(value).toBeCloseTo(solved.get(i, 0), 10);
    });
    const inverted = inverse(asMatrix(a, n));
    invertCholesky(l, n).forEach((value, at) => {
      expect(value).toBeCloseTo(inverted.get(Math.floor(at / n), at % n), 10);
    });
  });

  it('solves A x = b and inverts, by multiplying back', () => {
    fc.assert(
      fc.property(sizes, ([n, seed]) => {
        const a = positiveDefinite(n, seed);
        const l = a.slice();
        choleskyInPlace(l, n);
        const b = Float64Array.from({ length: n }, (_, i) => i - 2);
        const x = b.slice();
        solveCholeskyInPlace(l, n, x);
        const inverted = invertCholesky(l, n);
        for (let i = 0; i < n; i += 1) {
          let ax = 0;
          for (let k = 0; k < n; k += 1) ax += a[i * n + k]! * x[k]!;
          expect(ax).toBeCloseTo(b[i]!, 9);
          for (let j = 0; j < n; j += 1) {
            let product = 0;
            for (let k = 0; k < n; k += 1) product += a[i * n + k]! * inverted[k * n + j]!;
            expect(product).toBeCloseTo(i === j ? 1 : 0, 9);
          }
        }
      }),
      { numRuns: 40, seed: 2 },
    );
  });

  it('says at which row a matrix stops being positive definite', () => {
    expect(choleskyInPlace(Float64Array.of(1, 0, 2, 1), 2)).toBe(1);
    expect(choleskyInPlace(Float64Array.of(-1), 1)).toBe(0);
    expect(choleskyInPlace(Float64Array.of(4, 0, 0, 2, 1, 0, 0, 0, Number.NaN), 3)).toBe(1);
    expect(choleskyInPlace(Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, Number.NaN), 3)).toBe(2);
  });
});
