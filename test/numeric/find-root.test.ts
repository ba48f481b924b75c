import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findIncreasingRoot } from '../../src/numeric/find-root.ts';

describe('findIncreasingRoot', () => {
  it('finds the root of an increasing function to within the width', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        (at, slope) => {
          const root = findIncreasingRoot((x) => slope * (x - at) + (x - at) ** 3, -30, 30);
          expect(Math.abs(root - at)).toBeLessThan(1e-11);
        },
      ),
      { seed: 3 },
    );
  });

  it('stops at the wider width that is asked for', () => {
    let calls = 0;
    const root = findIncreasingRoot(
      (x) => {
        calls += 1;
        return x - Math.PI;
      },
      0,
      8,
      0.5,
    );
    expect(Math.abs(root - Math.PI)).toBeLessThanOrEqual(0.5);
    expect(calls).toBeLessThan(9);
  });

  it('returns the end beyond which the root lies', () => {
    expect(findIncreasingRoot((x) => x + 100, -5, 5)).toBe(-5);
    expect(findIncreasingRoot((x) => x - 100, -5, 5)).toBe(5);
    expect(findIncreasingRoot((x) => x, 0, 5)).toBe(0);
  });

  it('ends where numbers end, though the width is never reached', () => {
    expect(findIncreasingRoot((x) => x - 1e17 / 3, 0, 1e17, 0)).toBeCloseTo(1e17 / 3, -2);
  });
});
