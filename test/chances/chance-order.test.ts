import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allocateGeometry, arrivalS, infieldGeometryInto } from '../../src/chances/chance-order.ts';
import { INFIELD_SIZE } from '../../src/chances/grounders.ts';
import { BallClock } from '../../src/chances/travel-time.ts';
import { radians } from '../../src/diamond/bearing.ts';

function ballAt(bearing: number, mph = 85): { clock: BallClock; sin: number; cos: number } {
  const clock = new BallClock({ fitted: null });
  clock.setBall(mph, -10, 1);
  return { clock, sin: Math.sin(radians(bearing)), cos: Math.cos(radians(bearing)) };
}

function geometry(bearing: number, starts: readonly number[]) {
  const { clock, sin, cos } = ballAt(bearing);
  const out = allocateGeometry();
  infieldGeometryInto(clock, sin, cos, Float64Array.from([99, 99, ...starts]), 2, out);
  return out;
}

/** Pitcher, catcher, first, second, third, short in their usual places. */
const USUAL = [0, 55, 0, -3, 62, 101, 31, 145, -64, 99, -40, 142];

describe('chance order (method.md 1 and 2)', () => {
  it('is the order in which the ball comes nearest to the men', () => {
    const toShort = geometry(-15, USUAL);
    expect(Array.from(toShort.order.subarray(0, 2))).toEqual([1, 0]);
    expect(Array.from(toShort.order).indexOf(4)).toBeLessThan(Array.from(toShort.order).indexOf(5));
    const toRight = geometry(25, USUAL);
    expect(Array.from(toRight.order).indexOf(2)).toBeLessThan(Array.from(toRight.order).indexOf(3));
  });

  it('sorts arrivals, equal ones by position', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.integer({ min: -8, max: 20 }).map((n) => n * 10),
          { minLength: 12, maxLength: 12 },
        ),
        fc.integer({ min: -45, max: 45 }),
        (starts, bearing) => {
          const { arrival, order } = geometry(bearing, starts);
          expect([...order].sort()).toEqual([0, 1, 2, 3, 4, 5]);
          for (let k = 1; k < INFIELD_SIZE; k += 1) {
            const [a, b] = [order[k - 1]!, order[k]!];
            expect(arrival[a]! < arrival[b]! || (arrival[a] === arrival[b] && a < b)).toBe(true);
          }
        },
      ),
      { seed: 18 },
    );
  });

  it('gives the mirror image for a mirrored ball and field', () => {
    const mirrored = USUAL.map((value, k) => (k % 2 === 0 ? -value : value));
    const [plain, turned] = [geometry(-22, USUAL), geometry(22, mirrored)];
    for (let k = 0; k < INFIELD_SIZE; k += 1) {
      expect(turned.gap[k]).toBeCloseTo(-plain.gap[k]!, 12);
      expect(turned.arrival[k]).toBeCloseTo(plain.arrival[k]!, 12);
    }
  });

  it('takes no point nearer than ten feet from home, and none behind it', () => {
    const { clock, sin, cos } = ballAt(0);
    expect(arrivalS(clock, sin, cos, 0, -3)).toBe(clock.secondsTo(10));
    expect(arrivalS(clock, sin, cos, 0, 60)).toBe(clock.secondsTo(60));
  });
});
