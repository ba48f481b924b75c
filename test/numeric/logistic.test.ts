import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expit, logit, shiftByOdds } from '../../src/numeric/logistic.ts';

const inside = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true });
const shift = fc.double({ min: -6, max: 6, noNaN: true });

describe('logistic', () => {
  it('goes there and back', () => {
    fc.assert(
      fc.property(fc.double({ min: -18, max: 18, noNaN: true }), (x) => {
        expect(logit(expit(x))).toBeCloseTo(x, 6);
        expect(expit(x) + expit(-x)).toBeCloseTo(1, 14);
      }),
      { seed: 4 },
    );
  });

  it('has known values and does not overflow', () => {
    expect(expit(0)).toBe(0.5);
    expect(expit(Math.log(3))).toBeCloseTo(0.75, 15);
    expect(expit(800)).toBe(1);
    expect(expit(-800)).toBe(0);
    expect(expit(-700)).toBeGreaterThan(0);
  });

  it('shifts on the logit scale', () => {
    fc.assert(
      fc.property(inside, shift, (p, s) => {
        expect(shiftByOdds(p, Math.exp(s))).toBeCloseTo(expit(logit(p) + s), 9);
      }),
      { seed: 5 },
    );
  });

  it('leaves certainty alone and undoes itself', () => {
    for (const odds of [1e-13, 0.5, 1, 7, 1e13]) {
      expect(shiftByOdds(0, odds)).toBe(0);
      expect(shiftByOdds(1, odds)).toBe(1);
    }
    fc.assert(
      fc.property(inside, shift, (p, s) => {
        expect(shiftByOdds(shiftByOdds(p, Math.exp(s)), Math.exp(-s))).toBeCloseTo(p, 10);
      }),
      { seed: 6 },
    );
  });
});
