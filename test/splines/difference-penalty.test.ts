import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { differencePenalty } from '../../src/splines/difference-penalty.ts';

const apply = (penalty: Float64Array, size: number, x: (i: number) => number) =>
  Array.from({ length: size }, (_, row) => {
    let sum = 0;
    for (let i = 0; i < size; i += 1) sum += penalty[row * size + i]! * x(i);
    return sum;
  });

describe('differencePenalty', () => {
  it("is D'D written out for second differences of four coefficients", () => {
    // Rows of D: 1 -2 1 0 and 0 1 -2 1.
    expect(Array.from(differencePenalty(4, 2))).toEqual([1, -2, 1, 0, -2, 5, -4, 1, 1, -4, 5, -2, 0, 1, -2, 1]);
  });

  it.each([1, 2, 3])('of order %i leaves polynomials below that degree free and nothing else', (order) => {
    const size = 11;
    const penalty = differencePenalty(size, order);
    for (let degree = 0; degree < order; degree += 1) {
      for (const value of apply(penalty, size, (i) => (i - 4) ** degree)) expect(value).toBeCloseTo(0, 9);
    }
    const beyond = apply(penalty, size, (i) => (i - 4) ** order);
    expect(Math.max(...beyond.map(Math.abs))).toBeGreaterThan(0.5);
  });

  it.each([
    [5, 1],
    [9, 2],
    [13, 3],
  ])(
    'of %i coefficients and order %i has rank size - order, no negative eigenvalue, and is symmetric',
    (size, order) => {
      const penalty = Matrix.from1DArray(size, size, Array.from(differencePenalty(size, order)));
      expect(penalty.isSymmetric()).toBe(true);
      const eigenvalues = new EigenvalueDecomposition(penalty).realEigenvalues;
      expect(eigenvalues.filter((value) => value > 1e-9)).toHaveLength(size - order);
      expect(Math.min(...eigenvalues)).toBeGreaterThan(-1e-9);
    },
  );

  it('refuses an order that leaves nothing to penalise', () => {
    expect(() => differencePenalty(3, 3)).toThrow(/order from 1 to 2, received 3/);
    expect(() => differencePenalty(3, 0)).toThrow(/received 0/);
  });
});
