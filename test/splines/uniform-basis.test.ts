import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BASIS_OVERLAP, basisRowInto, type UniformBasis, uniformBasis } from '../../src/splines/uniform-basis.ts';

/** All `size` functions at a point. */
function row(basis: UniformBasis, x: number): Float64Array {
  const values = new Float64Array(BASIS_OVERLAP);
  const out = new Float64Array(basis.size);
  const first = basisRowInto(basis, x, values, 0);
  out.set(values, first);
  return out;
}

const sum = (basis: UniformBasis, x: number, coefficient: (i: number) => number) =>
  row(basis, x).reduce((total, value, i) => total + value * coefficient(i), 0);

const bases = fc
  .tuple(
    fc.double({ min: -100, max: 100, noNaN: true }),
    fc.double({ min: 0.1, max: 200, noNaN: true }),
    fc.integer({ min: 1, max: 20 }),
  )
  .map(([lo, span, segments]) => uniformBasis(lo, lo + span, segments));
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe('uniform cubic B-splines', () => {
  it('are a partition of unity, none of them negative', () => {
    fc.assert(
      fc.property(bases, share, (basis, u) => {
        const values = row(basis, basis.lo + u * (basis.hi - basis.lo));
        expect(values.reduce((a, b) => a + b)).toBeCloseTo(1, 13);
        expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
      }),
      { seed: 7 },
    );
  });

  it('carry straight lines: coefficients at the Greville points give back x', () => {
    fc.assert(
      fc.property(bases, share, (basis, u) => {
        const x = basis.lo + u * (basis.hi - basis.lo);
        const step = (basis.hi - basis.lo) / basis.segments;
        // Function i has its knots at lo + (i - 3 .. i + 1) steps; the mean of the inner three is i - 1 steps.
        expect(sum(basis, x, (i) => basis.lo + (i - 1) * step)).toBeCloseTo(x, 9);
      }),
      { seed: 8 },
    );
  });

  it('take the values 1/6, 4/6, 1/6 at a knot and 1/48, 23/48, 23/48, 1/48 half way between (Eilers & Marx 1996)', () => {
    const basis = uniformBasis(0, 5, 5);
    const at = (x: number) => Array.from(row(basis, x)).filter((value) => value > 1e-15);
    at(2).forEach((value, k) => {
      expect(value).toBeCloseTo([1 / 6, 4 / 6, 1 / 6][k]!, 15);
    });
    at(2.5).forEach((value, k) => {
      expect(value).toBeCloseTo([1 / 48, 23 / 48, 23 / 48, 1 / 48][k]!, 15);
    });
  });

  it('join with two continuous derivatives at the knots', () => {
    const basis = uniformBasis(0, 6, 6);
    const coefficient = (i: number) => Math.sin(3 * i) + i;
    const f = (x: number) => sum(basis, x, coefficient);
    const d = 1e-3;
    const second = (x: number) => (f(x + d) - 2 * f(x) + f(x - d)) / d ** 2;
    for (const knot of [1, 2, 3, 4, 5]) {
      expect(f(knot - 1e-12)).toBeCloseTo(f(knot), 9);
      expect((f(knot) - f(knot - d)) / d).toBeCloseTo((f(knot + d) - f(knot)) / d, 1);
      expect(second(knot - 2 * d)).toBeCloseTo(second(knot + 2 * d), 1);
    }
  });

  it('are held at their end values outside their range, and at an infinite x', () => {
    const basis = uniformBasis(-2, 3, 4);
    expect(row(basis, -50)).toEqual(row(basis, -2));
    expect(row(basis, 50)).toEqual(row(basis, 3));
    expect(row(basis, Number.NEGATIVE_INFINITY)).toEqual(row(basis, -2));
    expect(row(basis, Number.POSITIVE_INFINITY)).toEqual(row(basis, 3));
  });

  it('refuse an empty range and no segments', () => {
    expect(() => uniformBasis(1, 1, 4)).toThrow(/lo < hi, received 1 and 1/);
    expect(() => uniformBasis(0, 1, 0)).toThrow(/1 or more segments, received 0/);
    expect(() => uniformBasis(0, 1, 2.5)).toThrow(/received 2.5/);
  });
});
