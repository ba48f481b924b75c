import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GLOVE_HEIGHT_FT, heightFt, latestLandingS, staysBelowFromS } from '../../../src/chances/air/flight.ts';

const hang = fc.double({ min: 0.4, max: 7, noNaN: true });

describe('the way of a ball seen from the side', () => {
  it('goes from the bat to the ground', () => {
    fc.assert(
      fc.property(hang, (hangS) => {
        expect(heightFt(0, hangS)).toBeCloseTo(3, 9);
        expect(heightFt(hangS, hangS)).toBeCloseTo(0, 9);
      }),
    );
  });

  it('rises as high as a ball thrown up for half its hang time falls', () => {
    // 4 s in the air: 2 s of fall from the top, 64.3 ft, and half of the bat's height.
    expect(heightFt(2, 4)).toBeCloseTo(16.087 * 4 + 1.5, 9);
  });

  it('stays below a height from the moment named on, and not before', () => {
    fc.assert(
      fc.property(
        hang,
        fc.double({ min: 3, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (hangS, limit, u) => {
          const from = staysBelowFromS(limit, hangS);
          expect(from).toBeGreaterThanOrEqual(0);
          expect(from).toBeLessThanOrEqual(hangS);
          expect(heightFt(from + u * (hangS - from), hangS)).toBeLessThanOrEqual(limit + 1e-9);
          if (from > 0) expect(heightFt(from, hangS)).toBeCloseTo(limit, 8);
        },
      ),
    );
  });

  it('brings a ball that was caught at the top of a glove down soon after', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 7, noNaN: true }), (caughtS) => {
        const latest = latestLandingS(caughtS);
        // The latest landing is the one of a ball that was just at a glove's height, but for the bat's own height.
        expect(heightFt(caughtS, latest)).toBeGreaterThanOrEqual(GLOVE_HEIGHT_FT);
        expect(heightFt(caughtS, latest)).toBeLessThanOrEqual(GLOVE_HEIGHT_FT + 3);
      }),
    );
  });
});
