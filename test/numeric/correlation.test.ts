import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fisherInterval, pearson, spearmanBrown } from '../../src/numeric/correlation.ts';

describe('pearson', () => {
  it('is one for a line that rises, minus one for one that falls, and nothing without a spread', () => {
    expect(pearson([1, 2, 4], [3, 5, 9])).toBe(1);
    expect(pearson([1, 2, 4], [-3, -5, -9])).toBe(-1);
    expect(pearson([0.1, 0.1, 0.1], [1, 2, 3])).toBeNaN();
  });

  it("gives Anscombe's first set its 0.81642 (Anscombe 1973; the value as R's cor gives it for its own copy of the data)", () => {
    const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
    const y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];
    expect(pearson(x, y)).toBeCloseTo(0.81642052, 7);
  });
});

describe('fisherInterval', () => {
  it("is that of R's cor.test for Anscombe's first set: 0.4243912 to 0.9506933", () => {
    const { lo95, hi95 } = fisherInterval(0.81642051634484, 11);
    expect(lo95).toBeCloseTo(0.4243912, 6);
    expect(hi95).toBeCloseTo(0.9506933, 6);
  });

  it('lies around r inside -1 to 1, narrower with more pairs, and is nothing below four', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.99, max: 0.99, noNaN: true }), fc.integer({ min: 4, max: 500 }), (r, n) => {
        const few = fisherInterval(r, n);
        const many = fisherInterval(r, n + 1);
        expect(few.lo95).toBeLessThan(r);
        expect(few.hi95).toBeGreaterThan(r);
        expect(few.lo95).toBeGreaterThanOrEqual(-1);
        expect(few.hi95).toBeLessThanOrEqual(1);
        expect(many.hi95 - many.lo95).toBeLessThan(few.hi95 - few.lo95);
      }),
    );
    expect(fisherInterval(0.5, 3).lo95).toBeNaN();
  });
});

describe('spearmanBrown', () => {
  it('has at twice the length the values worked out by hand from 2r / (1 + r)', () => {
    for (const [half, whole] of [
      [0.3, 0.461538],
      [0.5, 0.666667],
      [0.6, 0.75],
      [0.7, 0.823529],
    ])
      expect(spearmanBrown(half!)).toBeCloseTo(whole!, 6);
  });

  it('carries ICC(3,1) of Shrout & Fleiss 1979 to ICC(3,4), and ICC(1,1) to ICC(1,4) (published .17 .29 .71 .44 .62 .91; more digits worked out again in R)', () => {
    expect(spearmanBrown(0.71484071, 4)).toBeCloseTo(0.90931554, 7);
    expect(spearmanBrown(0.16574177, 4)).toBeCloseTo(0.44279713, 7);
  });
});
